"""The ring was turned from a mark until a target was sharp."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Turn
from optics.camera.true_lens import TrueLens, film_factor
from optics.camera.where_taken import USUAL, Taken
from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate, exact, from_repeats
from optics.moves.setting import on_bed
from optics.moves.turning import film_per_degree
from optics.readings.kinds.record import Kind
from optics.readings.missing import Missing
from optics.readings.practised import MIDDLE, NEAR, Offered, engraved
from optics.readings.reading_part import ReadFrom, SeenPart, Way, given, tries, values
from optics.readings.readings import Meets, Moved, Reading, Scale, Step, known, set_to
from optics.theory import collimation, helicoid, lens
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import value
from optics.units import format_distance


@dataclass(frozen=True)
class RotationReading(Reading):
    """The ring was turned from a mark until a target was sharp.

    `rotation` in radians, plus in the direction that extends the lens; `target` is the
    target's distance from the film; `mark` is where the ring started, usually infinity.
    """

    rotation: Estimate
    target: Estimate
    mark: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "rotation"
    figure_name: ClassVar[str] = "rotation"
    by: ClassVar[str] = "by turning"
    scale: ClassVar[Scale] = Scale.PROTRACTOR
    looked_at: ClassVar[str] = (
        "Looked at: a target of bars at the distance of the mark (at ∞ in a "
        "collimator); the stop is slackened, so that the ring turns both ways."
    )
    nowhere: ClassVar[str] = "its target is sharp at no turn of the ring"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is what the target calls for less what the turn gave."""
        focusing = camera.focusing
        if isinstance(focusing, Bed):
            raise NoAnswer(
                "A rotation says nothing of a lens that slides on a bed or struts: "
                "got a rotation reading; take a ring mark, register or collimator reading.",
                quantity="rotation",
                value=self.rotation.value,
            )
        constants = {"focal_length": camera.lens.focal_length, "lead": focusing.lead}
        relation = collimation.rotation_error
        if isinstance(focusing, FrontCell):
            relation = collimation.cell_rotation_error
        step = Step.of(
            relation.solve_for(lens.focus_error),
            rotation=self.rotation,
            sharp_distance=self.target,
            mark_distance=self.mark,
            **camera.estimates(constants | camera.constants),
        )
        return known((step,), (lens.sharp_distance, self.target), (lens.mark_distance, self.mark))

    def hangs_on(self, camera: Camera) -> tuple[Missing, ...]:
        """The lead; and the focal length, unless a whole lens was turned to its own mark."""
        if self.turned_back is not None and isinstance(camera.focusing, Helicoid):
            return (Missing.LEAD,)
        return (Missing.LEAD, Missing.FOCAL_LENGTH)

    @property
    def tells_sense(self) -> bool:
        """Only for what stands at the ring's own mark: else the distance between is in it."""
        return self.turned_back is not None

    @property
    def turned_back(self) -> Estimate | None:
        """The turn itself, where what stands at the ring's own mark was made sharp."""
        return self.rotation if self.target.value == self.mark.value else None

    @property
    def came_sharp_at(self) -> float:
        """The target, for which the lens is right where it was left."""
        return self.target.value

    @property
    def seen_at(self) -> float:
        """The target."""
        return self.target.value

    @property
    def looked_from(self) -> float:
        """The mark at which the ring started."""
        return self.mark.value

    @property
    def sharp_target(self) -> float:
        """The target."""
        return self.target.value

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The turn (rad) that makes the target sharp."""
        del meets
        camera = true.camera
        if isinstance(camera.focusing, Bed):
            raise NoAnswer(
                "A lens that slides on a bed or struts has no ring to turn: got a rotation "
                "reading; take a ring mark, register or collimator reading.",
                quantity="rotation",
            )
        wanted = true.needs(self.target.value) - set_to(self.taken, self.mark, camera) - off
        return helicoid.ring_rotation.solve_for(helicoid.rotation).value(
            travel=wanted / film_factor(camera), lead=camera.focusing.lead
        )

    def out_of_focus(self, off: float, true: TrueLens, meets: Meets) -> float:
        """Where the mark and the turn since set the lens, less what the target calls for."""
        del meets
        camera = true.camera
        moved = film_per_degree(camera) * math.degrees(self.rotation.value)
        stands = off + TrueLens(camera, 0.0).needs(self.mark.value) + moved
        return stands - true.needs(self.target.value)

    def said(self, figure: float, camera: Camera) -> str:
        """The turn and which way round."""
        plus, minus = _ways(camera)
        said = f"{abs(math.degrees(figure)):.2f}°"
        if float(said[:-1]) == 0:
            return "no turn"
        return f"turned {said} {plus if figure > 0 else minus}"

    def said_as_read(self, camera: Camera) -> str:
        """The turn as a degree scale shows it."""
        degrees, (plus, minus) = math.degrees(self.rotation.value), _ways(camera)
        return f"{abs(degrees):.1f}° {plus if degrees >= 0 else minus}"

    def set_at(self, camera: Camera, moved: Moved | None, amount: float) -> float:
        """The turn, which is set by the degree."""
        del camera, moved
        return math.radians(amount)


def _ways(camera: Camera) -> tuple[Turn, Turn]:
    """The ways round that extend the lens and take it in."""
    assert isinstance(camera.focusing, Helicoid | FrontCell)
    return camera.focusing.extends, camera.focusing.extends.opposite


def turned(camera: Camera, angle: float, sense: str) -> float:
    """Sign an unsigned rotation (rad): plus where the sense seen from the front extends."""
    focusing = camera.focusing
    if not isinstance(focusing, Helicoid | FrontCell):
        raise NoAnswer(
            "This camera has no focusing thread to turn; choose another kind of reading.",
            quantity="rotation",
            value=angle,
        )
    return angle if sense == focusing.extends else -angle


class RotationPart(SeenPart):
    """The ring was turned from a mark until a target was sharp; minus is the other way round."""

    title: ClassVar[str] = "Rotation from the stop until sharp"
    kind: Literal["rotation"] = "rotation"
    turned: Annotated[
        str,
        fields.TURNED,
        Ask("turned until sharp", "repeats: 2.5; 2", example="2.5; 2; 2.5"),
    ]
    sense: Annotated[Turn, Ask("which way", note="seen from the front", width=5)]
    limit: Annotated[
        str, fields.ANGLE_LIMIT, Ask("read to ±", "0 if empty", example="0.5", width=3)
    ] = "0°"
    target: Annotated[str, fields.TARGET, Ask("target at", "∞ if empty", starts="∞", width=6)] = (
        "inf"
    )
    mark: Annotated[
        str, fields.RING_MARK, Ask("from the mark", "such as 1.5", starts="∞", width=6, needed=True)
    ] = "inf"
    ways: ClassVar[Mapping[ReadFrom, Way]] = {
        ReadFrom.STOP: Way("ring turned until sharp", 1),
        ReadFrom.INFINITY: Way("ring turned until sharp", 1),
        ReadFrom.NEAR: Way("ring turned until sharp", 2),
    }
    row_starts: ClassVar[Mapping[str, str]] = {"sense": Turn.COUNTER_CLOCKWISE}

    def read(self, camera: Camera) -> RotationReading:
        """The turn, plus in the sense that extends this camera's lens."""
        limit = value(fields.ANGLE_LIMIT, self.limit)
        signed = [turned(camera, a, self.sense) for a in values(fields.TURNED, self.turned)]
        return RotationReading(
            rotation=from_repeats(signed, limit, fields.TURNED.words),
            target=given(fields.TARGET, self.target),
            mark=given(fields.RING_MARK, self.mark),
        )

    @property
    def said_figures(self) -> str:
        """The turns, which way round, and on what target, unless that was at infinity."""
        target = fields.TARGET.read(self.target)
        far = "" if math.isinf(target.value) else f", target at {target.echo}"
        return f"turned {tries(fields.TURNED, self.turned)} {self.sense} until sharp{far}"


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    del has_finder
    if on_bed(camera):
        return
    zero, far = exact(0.0), exact(math.inf)
    yield Offered("∞ mark", RotationReading(zero, far, far), Moved.RING, 30)
    for times in (MIDDLE, NEAR):
        mark = exact(engraved(camera, times))
        name = f"{format_distance(mark.value)} mark"
        yield Offered(name, RotationReading(zero, mark, mark), Moved.RING, 40)


KIND = Kind(RotationReading, 20, RotationPart, practised=_practised)
