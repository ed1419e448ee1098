"""With the ring at a mark, a target at a measured distance from the film is sharp."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import ON_FILM, USUAL, Taken
from optics.measure.uncertainty import Estimate, exact, from_distances
from optics.moves.setting import on_bed
from optics.readings.candidates import Candidate, by_eye
from optics.readings.kinds.record import Kind
from optics.readings.practised import MIDDLE, NEAR, Offered, engraved
from optics.readings.reading_part import ReadFrom, SeenPart, Way, given, tries, values
from optics.readings.readings import Meets, Moved, Reading, Step, known, mark_step, set_to
from optics.theory import lens
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import value
from optics.units import format_distance


@dataclass(frozen=True)
class MarkReading(Reading):
    """With the ring at a mark, a target at a measured distance from the film is sharp."""

    mark: Estimate
    sharp_at: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "mark"
    figure_name: ClassVar[str] = "sharp_at"
    by: ClassVar[str] = "by ring mark"
    is_distance: ClassVar[bool] = True
    looked_at: ClassVar[str] = "Looked at: a target of bars, moved along a tape from the film."
    nowhere: ClassVar[str] = "its target is sharp nowhere on the tape"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is the difference of the two extensions."""
        steps = (mark_step(camera, self.sharp_at, self.mark),)
        return known(steps, (lens.mark_distance, self.mark), (lens.sharp_distance, self.sharp_at))

    @property
    def is_bound_at_infinity(self) -> bool:
        """Whether a limit was stated for a tape that reached to infinity."""
        return math.isinf(self.sharp_at.value) and bool(self.sharp_at.parts)

    @property
    def seen_at(self) -> float:
        """The mark, against which it is sharp; at the stop that is infinity."""
        return math.inf if self.taken.at_stop else self.mark.value

    @property
    def looked_from(self) -> float:
        """The mark."""
        return self.mark.value

    @property
    def sharp_target(self) -> float:
        """The distance that was sharp."""
        return self.sharp_at.value

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The distance (mm) that is sharp."""
        del meets
        return true.sharp_at(set_to(self.taken, self.mark, true.camera) + off)

    def out_of_focus(self, off: float, true: TrueLens, meets: Meets) -> float:
        """Where the ring sets the lens, less what the target calls for."""
        del meets
        marked = TrueLens(true.camera, 0.0)
        return off + marked.needs(self.mark.value) - true.needs(self.sharp_at.value)

    def said(self, figure: float, camera: Camera) -> str:
        """The distance that is sharp."""
        del camera
        return f"sharp at {format_distance(figure)}"

    def set_at(self, camera: Camera, moved: Moved | None, amount: float) -> float:
        """The target's distance, which is moved by the metre."""
        del camera, moved
        return amount * 1000

    def rests_at(self, camera: Camera, moved: Moved | None) -> float:
        """The target at the distance of the mark, in m."""
        del camera, moved
        return self.mark.value / 1000


class MarkPart(SeenPart):
    """With the ring at a mark, a target at a measured distance is sharp."""

    title: ClassVar[str] = "Ring mark against true distance"
    kind: Literal["mark"] = "mark"
    mark: Annotated[str, fields.RING_MARK, Ask(hint="such as 1.5", starts="∞", needed=True)] = "inf"
    sharp_at: Annotated[
        str,
        fields.SHARP_AT,
        Ask(
            "really sharp at",
            "repeats: 18; 18.7 m",
            example="18; 18.7; 19.5 m",
            beside=("mark", fields.sharp_at),
        ),
    ]
    limit: Annotated[str, fields.DISTANCE_LIMIT, Ask("tape ±", "0 if empty", example="0.2 m")] = (
        "0 mm"
    )
    ways: ClassVar[Mapping[ReadFrom, Way]] = {
        ReadFrom.STOP: Way("a target is sharp at …", 2),
        ReadFrom.INFINITY: Way("a target is sharp at …", 2),
        ReadFrom.NEAR: Way("a target is sharp at …", 1),
        ReadFrom.FILM_INFINITY: Way("a target is sharp at …", 2),
        ReadFrom.FILM_NEAR: Way("a target is sharp at …", 2),
    }

    def read(self, camera: Camera) -> MarkReading:
        """Tries of the distance are averaged by nearness."""
        del camera
        return MarkReading(
            mark=given(fields.RING_MARK, self.mark),
            sharp_at=from_distances(
                values(fields.sharp_at(self.mark), self.sharp_at),
                value(fields.DISTANCE_LIMIT, self.limit),
                fields.SHARP_AT.words,
            ),
        )

    @property
    def said_figures(self) -> str:
        """The distances that were sharp."""
        return f"sharp at {tries(fields.SHARP_AT, self.sharp_at)}"


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    close, far = exact(near), exact(math.inf)
    eye = by_eye(camera)
    yield Candidate("a reading at a near mark", MarkReading(close, close), eye, order=40)
    yield Candidate("a film test at the ∞ mark", MarkReading(far, far, ON_FILM), eye, order=50)


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    """On a bed, where there is no ring to turn, the target is moved."""
    del has_finder
    for times in (MIDDLE, NEAR) if on_bed(camera) else ():
        mark = exact(engraved(camera, times))
        name = f"{format_distance(mark.value)} mark"
        yield Offered(name, MarkReading(mark, mark), Moved.TARGET, 40)


KIND = Kind(MarkReading, 10, MarkPart, _usual, _practised)
