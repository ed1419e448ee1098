"""Remedies by turning: the focusing ring, the front cell, and another thread start."""

import math
from dataclasses import dataclass

from optics.camera.camera import Camera, FrontCell, Helicoid, Turn
from optics.camera.cautions import SOLVENTS, SPRINGS
from optics.measure.uncertainty import Estimate, combine, exact, within
from optics.readings.remedies.offer import NotApplicable, Offer, Remedy, near_enough
from optics.theory import front_cell, helicoid, lens
from optics.units import format_length

_travel = helicoid.ring_rotation.solve_for(helicoid.travel)
_rotation = helicoid.ring_rotation.solve_for(helicoid.rotation)
# An arc that would be printed as 0.0 mm cannot be laid off.
_LEAST_ARC = 0.05


@dataclass(frozen=True)
class _Turning:
    """What is turned, how it is said, and how much of its travel arrives at the film."""

    kind: str
    title: str
    task: str
    close: str
    thread: Helicoid | FrontCell
    travel_to_film: Estimate


def ring(camera: Camera, thread: Helicoid, error: Estimate) -> Offer:
    """Turn the lens on its thread and set the scale ring back to its mark."""
    wanted = _rotation.value(travel=-error.value, lead=thread.lead)
    turning = _Turning(
        "ring",
        "Focusing ring",
        "Loosen the scale ring and hold it on its mark; turn the lens barrel",
        "then tighten the ring",
        thread,
        exact(1.0),
    )
    return _turned(camera, error, turning, wanted)


def turn_wanted(camera: Camera, thread: Helicoid | FrontCell, error: Estimate) -> Estimate:
    """How far (rad, plus extends) the lens or its front cell must turn, before any rounding."""
    travel = exact(0.0).plus(error, -1.0)
    if isinstance(thread, FrontCell):
        lengths = {
            "focal_length": camera.lens.focal_length,
            "group_focal_length": thread.group_focal_length,
        }
        travel = combine(
            front_cell.film_effect.solve_for(front_cell.cell_shift),
            focus_error=travel,
            **camera.estimates(lengths),
        )
    return combine(_rotation, travel=travel, lead=exact(thread.lead))


def front_cell_turn(camera: Camera, cell: FrontCell, error: Estimate) -> Offer:
    """Turn the front cell in its thread and set its scale ring back to the mark."""
    lengths = {
        "focal_length": camera.lens.focal_length,
        "group_focal_length": cell.group_focal_length,
    }
    effect = front_cell.film_effect
    travel = effect.solve_for(front_cell.cell_shift).value(focus_error=-error.value, **lengths)
    turning = _Turning(
        "front_cell",
        "Front cell",
        "Loosen the scale ring's screws and hold the ring on its mark; turn the front cell",
        "then tighten the screws",
        cell,
        combine(
            effect.solve_for(lens.focus_error), cell_shift=exact(1.0), **camera.estimates(lengths)
        ),
    )
    return _turned(camera, error, turning, _rotation.value(travel=travel, lead=cell.lead))


def _turned(camera: Camera, error: Estimate, turning: _Turning, wanted: float) -> Offer:
    """A turn rounded to what a hand can set."""
    if abs(error.value) <= near_enough(camera):
        return NotApplicable(
            turning.kind,
            turning.title,
            "Less than a quarter of the tolerance is left: leave the thread alone.",
        )
    thread = turning.thread
    step = settable_step(camera, thread.lead, turning.travel_to_film.value)
    angle = round(wanted / step) * step
    if not angle:
        return NotApplicable(
            turning.kind,
            turning.title,
            f"The turn wanted is less than {said_degrees(step)}: leave it alone.",
        )
    if abs(angle) >= 2 * math.pi:
        return NotApplicable(
            turning.kind,
            turning.title,
            f"The turn wanted is {said_degrees(angle)}, a whole turn or more: look for a wrong "
            "start, a wrong lens or a slip in the reading first.",
        )
    travel, half_step = (_travel.value(rotation=a, lead=thread.lead) for a in (angle, step / 2))
    setting = within(0.0, turning.travel_to_film.value * half_step, "setting of the turn")
    sense = sense_of_turn(thread.extends, angle)
    arc, where = _arc(thread.ring_diameter, angle)
    return Remedy(
        kind=turning.kind,
        title=turning.title,
        instruction=f"{turning.task} {said_degrees(angle)} {sense}, seen from the front{where}, "
        f"{turning.close}.",
        camera=camera,
        error=error,
        change=exact(0.0).plus(turning.travel_to_film, travel).plus(setting),
        amounts=(
            ("Turn", f"{said_degrees(angle)} {sense}"),
            *((("Arc", f"{arc:.1f} mm on ⌀ {thread.ring_diameter:.4g} mm"),) if arc else ()),
        ),
        figures={
            "wanted": wanted,
            "rotation": angle,
            "sense": str(sense),
            **({"arc": arc} if arc else {}),
        },
        cautions=(SOLVENTS,),
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
    moved = travel_to_film * _travel.value(rotation=half_degree, lead=lead)
    return half_degree if moved <= near_enough(camera) else half_degree / 5


def said_degrees(angle: float) -> str:
    """Degrees without sign, to a tenth."""
    return f"{abs(math.degrees(angle)):.1f}°"


def sense_of_turn(extends: Turn, angle: float) -> Turn:
    """The sense of a signed rotation, seen from the front: plus extends the lens."""
    return extends if angle > 0 else extends.opposite


def thread_start(camera: Camera, thread: Helicoid, error: Estimate) -> Offer:
    """Part the helicoid and enter it on another start."""
    pitch = helicoid.start_shift.solve_for(helicoid.travel).value(
        starts_moved=1.0, lead=thread.lead, starts=float(thread.starts)
    )
    count = round(-error.value / pitch)
    reason = _no_other_start(thread, error.value, pitch, count)
    if reason:
        return NotApplicable("start", "Thread start", reason)
    # Entered later, at a ring position further on in the extending sense, the thread has
    # turned more by the time the ring is back at its mark, and the lens stands farther in.
    turn = helicoid.start_angle.solve_for(helicoid.rotation).value(
        starts_moved=float(-count), starts=float(thread.starts)
    )
    sense = sense_of_turn(thread.extends, turn)
    starts = f"{abs(count)} start{'s' if abs(count) > 1 else ''}"
    return Remedy(
        kind="start",
        title="Thread start",
        instruction="Part the helicoid and note where the ring stands as the threads let go; "
        f"enter it again {starts} ({said_degrees(turn)}) further {sense}, seen from the front.",
        camera=camera,
        error=error,
        change=exact(count * pitch),
        amounts=(
            ("Move", f"{starts} {sense}"),
            ("One start", format_length(pitch)),
            ("Lens goes", f"{format_length(abs(count) * pitch)} {'out' if count > 0 else 'in'}"),
        ),
        figures={
            "starts": float(count),
            "rotation": turn,
            "sense": str(sense),
            "pitch": pitch,
        },
        notes=(
            "Mark the place of entry before the threads part; put right what remains by "
            "shim or ring.",
        ),
        cautions=(SOLVENTS, SPRINGS),
    )


def _no_other_start(thread: Helicoid, error: float, pitch: float, count: int) -> str:
    if thread.starts == 1:
        return "This thread has a single start: there is no other."
    if not count and abs(error) < pitch / 4:
        return (
            f"One start moves the lens {format_length(pitch)}, far more than the error: "
            "the thread is on its right start."
        )
    if not count:
        return f"One start moves the lens {format_length(pitch)}: no other brings it nearer."
    if abs(count) >= thread.starts:
        return (
            f"The error is {abs(count)} starts of {format_length(pitch)}, a whole turn or more: "
            "look for a wrong lens or a slip in the reading first."
        )
    return ""
