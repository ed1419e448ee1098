"""A film test on a slanting ruler."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import ON_FILM, Taken
from optics.measure.uncertainty import Estimate, exact
from optics.readings.kinds.record import Kind
from optics.readings.practised import NEAR, Offered, engraved
from optics.readings.reading_part import ReadFrom, SeenPart, Way, given, repeated, tries
from optics.readings.readings import Meets, Reading, Step, known, mark_step, set_to
from optics.theory import collimation, lens
from optics.typed import fields
from optics.typed.ask import Ask
from optics.units import format_distance, format_length

_sharp = collimation.tilted_ruler.solve_for(lens.sharp_distance)


@dataclass(frozen=True)
class RulerReading(Reading):
    """A film test on a slanting ruler whose zero stands at `aim` from the film.

    `offset` is the place of best sharpness along the ruler, plus towards the camera;
    `slope` the angle between ruler and lens axis; `mark` what the ring was set to.
    """

    aim: Estimate
    offset: Estimate
    slope: Estimate
    mark: Estimate
    taken: Taken = ON_FILM
    kind: ClassVar[str] = "ruler"
    figure_name: ClassVar[str] = "offset"
    by: ClassVar[str] = "by ruler"
    taken_with: ClassVar[str] = "slanting ruler"
    nowhere: ClassVar[str] = "no line of its ruler is sharp on the film"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The offset gives the sharp distance, and that the focus error."""
        sharp = Step.of(
            _sharp, aim_distance=self.aim, ruler_offset=self.offset, ruler_slope=self.slope
        )
        steps = (sharp, mark_step(camera, sharp.result, self.mark))
        return known(steps, (collimation.aim_distance, self.aim), (lens.mark_distance, self.mark))

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
        """The distance of the sharpest place along the ruler."""
        return _sharp.value(
            aim_distance=self.aim.value,
            ruler_offset=self.offset.value,
            ruler_slope=self.slope.value,
        )

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The offset (mm) along the ruler."""
        del meets
        sharp = true.sharp_at(set_to(self.taken, self.mark, true.camera) + off)
        return collimation.tilted_ruler.solve_for(collimation.ruler_offset).value(
            sharp_distance=sharp, aim_distance=self.aim.value, ruler_slope=self.slope.value
        )

    def said(self, figure: float, camera: Camera) -> str:
        """The sharpest place, and on which side of the zero."""
        del camera
        side = "nearer" if figure > 0 else "farther"
        return f"sharpest {format_length(abs(figure), places=1)} {side} on the ruler"

    def said_as_read(self, camera: Camera) -> str:
        """The sharpest place to a hundredth."""
        del camera
        side = "nearer" if self.offset.value >= 0 else "farther"
        return f"sharpest {abs(self.offset.value):.2f} mm {side} on the ruler"


class RulerPart(SeenPart):
    """A film test on a slanting ruler; on film, unless it was judged on the ground glass."""

    title: ClassVar[str] = "Slanting ruler on film"
    kind: Literal["ruler"] = "ruler"
    mark: Annotated[str, fields.RING_MARK, Ask(hint="such as 1.5", example="1.5 m")]
    aim: Annotated[
        str, fields.RULER_AIM, Ask("film to ruler's zero", "such as 1.5 m", example="1.5 m")
    ]
    offset: Annotated[
        str,
        fields.RULER_OFFSET,
        Ask("sharpest along ruler", "repeats: 20; 24", example="20; 24; 22"),
    ]
    side: Annotated[
        Literal["nearer", "farther"],
        Ask("side of its zero", note="than the zero, from the camera"),
    ] = "nearer"
    slope: Annotated[
        str, fields.RULER_SLOPE, Ask("slope to the axis", "45° if empty", starts="45")
    ] = "45°"
    limit: Annotated[str, fields.RULER_LIMIT, Ask("read to ±", "0 if empty", example="2")] = "0 mm"
    ways: ClassVar[Mapping[ReadFrom, Way]] = {
        ReadFrom.FILM_INFINITY: Way("slanting ruler on film", 1),
        ReadFrom.FILM_NEAR: Way("slanting ruler on film", 1),
    }

    def read(self, camera: Camera) -> RulerReading:
        """The offset, plus towards the camera."""
        del camera
        offset = repeated(fields.RULER_OFFSET, self.offset, fields.RULER_LIMIT, self.limit)
        return RulerReading(
            aim=given(fields.RULER_AIM, self.aim),
            offset=offset if self.side == "nearer" else exact(0.0).plus(offset, -1),
            slope=given(fields.RULER_SLOPE, self.slope),
            mark=given(fields.RING_MARK, self.mark),
        )

    @property
    def said_figures(self) -> str:
        """Where the ruler stood, and its sharpest places."""
        aim = fields.RULER_AIM.read(self.aim).echo
        offset = tries(fields.RULER_OFFSET, self.offset)
        return f"slanting ruler at {aim}, sharpest {offset} {self.side}"


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    del has_finder
    near = exact(engraved(camera, NEAR))
    ruler = RulerReading(near, exact(0.0), exact(math.radians(45)), near)
    yield Offered(f"film test at {format_distance(near.value)}", ruler, order=50)


KIND = Kind(RulerReading, 50, RulerPart, practised=_practised)
