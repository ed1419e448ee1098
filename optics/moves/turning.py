"""What is turned, how finely and which way round: shared by ring, cell, stop and thread."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Turn
from optics.camera.true_lens import film_factor
from optics.measure.uncertainty import Estimate, combine, exact, within
from optics.moves.record import Case, Control, Outcome
from optics.moves.setting import near_enough, on_bed
from optics.theory import front_cell, helicoid
from optics.units import format_length

travel = helicoid.ring_rotation.solve_for(helicoid.travel)
rotation = helicoid.ring_rotation.solve_for(helicoid.rotation)
WAYS = (str(Turn.CLOCKWISE), str(Turn.COUNTER_CLOCKWISE))
# An arc that would be printed as 0.0 mm cannot be laid off.
_LEAST_ARC = 0.05


def turn_wanted(camera: Camera, thread: Helicoid | FrontCell, error: Estimate) -> Estimate:
    """How far (rad, plus extends) the lens or its front cell must turn, before any rounding."""
    moved = exact(0.0).plus(error, -1.0)
    if isinstance(thread, FrontCell):
        moved = combine(
            front_cell.film_effect.solve_for(front_cell.cell_shift),
            focus_error=moved,
            **camera.estimates(cell_lengths(camera, thread)),
        )
    return combine(rotation, travel=moved, lead=exact(thread.lead))


def cell_lengths(camera: Camera, cell: FrontCell) -> dict[str, float]:
    """The focal lengths (mm) of the whole lens and of its front group."""
    return {
        "focal_length": camera.lens.focal_length,
        "group_focal_length": cell.group_focal_length,
    }


@dataclass(frozen=True)
class Turning:
    """A turn to be made: how it is said, how far (rad, plus extends), what arrives at the film."""

    task: str
    close: str
    thread: Helicoid | FrontCell
    travel_to_film: Estimate
    wanted: float


def turned(case: Case, turning: Turning) -> Outcome:
    """A turn rounded to what a hand can set."""
    if abs(case.change) <= near_enough(case.camera):
        return case.refused("Less than a quarter of the tolerance is left: leave the thread alone.")
    thread = turning.thread
    step = settable_step(case.camera, thread.lead, turning.travel_to_film.value)
    angle = round(turning.wanted / step) * step
    if not angle:
        return case.refused(f"The turn wanted is less than {said_degrees(step)}: leave it alone.")
    if abs(angle) >= 2 * math.pi:
        return case.refused(
            f"The turn wanted is {said_degrees(angle)}, a whole turn or more: look for a wrong "
            "start, a wrong lens or a slip in the reading first."
        )
    moved, half_step = (travel.value(rotation=a, lead=thread.lead) for a in (angle, step / 2))
    setting = within(0.0, turning.travel_to_film.value * half_step, "setting of the turn")
    sense = sense_of_turn(thread.extends, angle)
    arc, where = _arc(thread.ring_diameter, angle)
    return case.made(
        f"{turning.task} {said_degrees(angle)} {sense}, seen from the front{where}, "
        f"{turning.close}.",
        clockwise_degrees(thread.extends, angle),
        exact(0.0).plus(turning.travel_to_film, moved).plus(setting),
        amounts=(
            ("Turn", f"{said_degrees(angle)} {sense}"),
            *((("Arc", f"{arc:.1f} mm on ⌀ {thread.ring_diameter:.4g} mm"),) if arc else ()),
        ),
        figures={
            "wanted": turning.wanted,
            "rotation": angle,
            "sense": str(sense),
            **({"arc": arc} if arc else {}),
        },
    )


def _arc(ring_diameter: float | None, angle: float) -> tuple[float, str]:
    """The turn's length along the ring's edge and its words; nothing for no ring or no length."""
    if not ring_diameter:
        return 0.0, ""
    arc = abs(
        helicoid.ring_arc.solve_for(helicoid.arc).value(rotation=angle, ring_diameter=ring_diameter)
    )
    if arc < _LEAST_ARC:
        return 0.0, ""
    return arc, f" ({arc:.1f} mm along the edge of a {ring_diameter:.4g} mm ring)"


def settable_step(camera: Camera, lead: float, travel_to_film: float = 1.0) -> float:
    """Half a degree (in rad) where that is fine enough for the tolerance, else a tenth."""
    half_degree = math.radians(0.5)
    moved = travel_to_film * travel.value(rotation=half_degree, lead=lead)
    return half_degree if moved <= near_enough(camera) else half_degree / 5


def least_turn(case: Case) -> float:
    """The smallest change (mm at the film) by a turn of ring or cell."""
    camera = case.camera
    assert not isinstance(camera.focusing, Bed)
    factor, lead = film_factor(camera), camera.focusing.lead
    return factor * travel.value(rotation=settable_step(camera, lead, factor), lead=lead)


def said_degrees(angle: float) -> str:
    """Degrees without sign, to a tenth."""
    return f"{abs(math.degrees(angle)):.1f}°"


def sense_of_turn(extends: Turn, angle: float) -> Turn:
    """The sense of a signed rotation, seen from the front: plus extends the lens."""
    return extends if angle > 0 else extends.opposite


def clockwise_degrees(extends: Turn, angle: float) -> float:
    """A signed rotation (rad, plus extends) in degrees as it is said, plus clockwise."""
    degrees = round(math.degrees(angle), 1)
    return degrees if extends is Turn.CLOCKWISE else -degrees


def film_per_degree(camera: Camera) -> float:
    """How far the focus goes at the film (mm) for a degree of ring; 0 on a bed."""
    focusing = camera.focusing
    return 0.0 if isinstance(focusing, Bed) else film_factor(camera) * focusing.lead / 360


def has_thread(camera: Camera) -> bool:
    """Whether lens or front cell turns in a thread."""
    return not on_bed(camera)


@dataclass(frozen=True)
class Degrees:
    """A control turned by degrees: what is done and was done, and what then stands elsewhere."""

    name: str
    past: str
    stands: str = "the lens stands"

    def __call__(self, case: Case) -> Iterator[Control]:
        """The control on one camera, set to half the step that a plan asks a hand for."""
        assert not isinstance(case.camera.focusing, Bed)
        out = 1 if case.camera.focusing.extends is Turn.CLOCKWISE else -1
        per = film_per_degree(case.camera) * out
        (fault,) = case.move.puts_right
        limit = least_turn(case) / 2 / abs(per)
        does = one_does("degree", self.stands, per)
        effects, cautions = {fault: per}, case.move.cautions
        yield Control(self.name, self.past, "°", WAYS, effects, limit, does, cautions=cautions)


def one_does(unit: str, stands: str, effect: float) -> str:
    """What one unit turned clockwise does to where the lens stands (mm at the film)."""
    out = "out" if effect > 0 else "in"
    far = format_length(abs(effect), places=3)
    return f"One {unit} {Turn.CLOCKWISE}: {stands} {far} farther {out}."
