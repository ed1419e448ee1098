"""The rangefinder's two images of a target met with the ring at a distance on its scale."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import USUAL, Taken
from optics.measure.uncertainty import Estimate, exact
from optics.moves.setting import on_bed
from optics.readings.candidates import Candidate, by_eye
from optics.readings.kinds.record import Kind
from optics.readings.practised import (
    FAR,
    NEAR,
    Offered,
    engraved,
    no_figure_inside,
    scale_at,
    scale_place,
)
from optics.readings.readings import Judged, Meets, Moved, Reading, Step, mark_step
from optics.readings.spots import Spot
from optics.units import format_distance


@dataclass(frozen=True)
class CoincidenceReading(Reading):
    """The rangefinder's two images of a target met with the ring set to `set_to`.

    `target` is the target's true distance from the film. The error is how far the lens then
    stood, by its ring, from where the target calls for it.
    """

    target: Estimate
    set_to: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "coincidence"
    figure_name: ClassVar[str] = "set_to"
    by: ClassVar[str] = "by rangefinder"
    judged: ClassVar[Judged] = Judged.BY_RANGEFINDER
    is_distance: ClassVar[bool] = True
    taken_with: ClassVar[str] = "by eye in the finder"
    looked_at: ClassVar[str] = (
        "Looked at: the edge of a target at the distance named, in the finder."
    )
    nowhere: ClassVar[str] = "its two images meet nowhere that the scale can be read"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The error is the ring's extension less the target's."""
        return (mark_step(camera, self.set_to, self.target),)

    @property
    def spot(self) -> Spot:
        """The rangefinder."""
        return Spot.COINCIDENCE

    @property
    def seen_at(self) -> float:
        """The target."""
        return self.target.value

    @property
    def meets_at(self) -> float:
        """The target."""
        return self.target.value

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The ring's setting (mm) at which the images meet."""
        # The follower rides on the lens: the images meet at one place of the lens, whatever the
        # ring says there, so an error of ring, start or seat shows in the ring's setting alone.
        marked, target = TrueLens(true.camera, 0.0), self.target.value
        return marked.sharp_at(marked.needs(target) + meets(target) - off)

    def out_of_focus(self, off: float, true: TrueLens, meets: Meets) -> float:
        """How far the lens stands beyond where the images would meet."""
        marked, target = TrueLens(true.camera, 0.0), self.target.value
        return off + marked.needs(self.set_to.value) - (marked.needs(target) + meets(target))

    def said(self, figure: float, camera: Camera) -> str:
        """The setting at which they meet."""
        del camera
        return f"images meet at {format_distance(figure)}"

    def said_as_read(self, camera: Camera) -> str:
        """The setting as the scale shows it."""
        del camera
        return f"scale at {format_distance(self.set_to.value)}"

    def instead(self, camera: Camera) -> Reading | None:
        """Where the images of a far target will not meet within the scale, a nearer one."""
        near = exact(self.target.value / 5)
        is_far_enough = near.value > 15 * camera.lens.focal_length
        return CoincidenceReading(near, near) if is_far_enough else None

    def is_nearer(self, other: Reading) -> bool:
        """Whether another coincidence is on a farther target."""
        return other.meets_at is not None and self.target.value < other.meets_at

    def set_at(self, camera: Camera, moved: Moved | None, amount: float) -> float:
        """What the scale reads with ring or pointer so far from its ∞ mark."""
        figure = scale_at(camera, moved, amount)
        if math.isinf(figure):
            raise no_figure_inside(moved, amount)
        return figure

    def rests_at(self, camera: Camera, moved: Moved | None) -> float:
        """Ring or pointer where the scale reads the target's distance."""
        return round(scale_place(camera, moved, self.target.value), 2)


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    named = {"far": 200 * near / 20, "near": near}
    for number, (name, distance) in enumerate(named.items()):
        target, words = exact(distance), f"the rangefinder on a {name} target"
        pair = CoincidenceReading(target, target)
        yield Candidate(words, pair, by_eye(camera), order=80 + number)


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    moved = Moved.POINTER if on_bed(camera) else Moved.RING
    for times in (FAR, NEAR) if has_finder else ():
        target = exact(engraved(camera, times))
        name = f"rangefinder at {format_distance(target.value)}"
        yield Offered(name, CoincidenceReading(target, target), moved, 60)


KIND = Kind(CoincidenceReading, 70, usual=_usual, practised=_practised)
