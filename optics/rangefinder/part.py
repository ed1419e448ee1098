"""The coupled rangefinder's part of a job: what it is, what was read, and what was turned."""

from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field, model_validator

from optics.rangefinder.cam_part import CamPart
from optics.rangefinder.readings import Ring
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Part

Kind: TypeAlias = Literal["screw", "eccentric"]
MOST_ROUNDS = 40
MOST_APART = 8


class RoundPart(Part):
    """Adjusters turned (plus or “clockwise”), then the lens scale read where the images meet."""

    infinity_turned: Annotated[str, fields.INFINITY_TURNED] = "0"
    near_turned: Annotated[str, fields.NEAR_TURNED] = "0"
    far_reads: Annotated[str, fields.FAR_READS]
    near_reads: Annotated[str, fields.NEAR_READS]


class ApartPart(Part):
    """With the lens at a place on its scale, the two images of a target stood apart.

    `apart` is how far: an angle before the finder, or a length read on a ruled target.
    `ring` is the way the ring would have to turn to bring them together.
    """

    target: Annotated[str, fields.APART_TARGET]
    scale: Annotated[str, fields.APART_SCALE]
    measured: Literal["as an angle", "on the target"] = "as an angle"
    apart: Annotated[str, Field(max_length=60)]
    ring: Ring

    @model_validator(mode="after")
    def _understood(self) -> "ApartPart":
        """An angle and a length are read differently, so once it is known which was measured."""
        self.typed.read(self.apart)
        return self

    @property
    def typed(self) -> fields.Typed:
        """How the gap is read."""
        return apart_field(self.measured)


def apart_field(measured: str) -> fields.Typed:
    """How a gap between the images is read: an angle, or a length on the target."""
    return fields.APART_ANGLE if measured == "as an angle" else fields.APART_ON_TARGET


class MirrorPart(Part):
    """One mirror turns."""

    kind: Literal["turning mirror"] = "turning mirror"


class SwungLensPart(Part):
    """A lens is swung sideways before a fixed one."""

    kind: Literal["swung lens"] = "swung lens"
    focal_length: Annotated[str, fields.SWUNG_FOCAL_LENGTH]


class CounterWedgesPart(Part):
    """Two equal wedges turn against each other."""

    kind: Literal["counter-turning wedges"] = "counter-turning wedges"
    index: Annotated[str, fields.WEDGE_INDEX]
    wedge_angle: Annotated[str, fields.WEDGE_ANGLE]


class SlidingWedgePart(Part):
    """A wedge slides along a converging beam."""

    kind: Literal["sliding wedge"] = "sliding wedge"
    deviation: Annotated[str, fields.WEDGE_DEVIATION]
    focal_length: Annotated[str, fields.WEDGE_FOCAL_LENGTH]


CompensatorPart: TypeAlias = Annotated[
    MirrorPart | SwungLensPart | CounterWedgesPart | SlidingWedgePart, Field(discriminator="kind")
]


_PAIRS = Ask(
    "true distance = lens scale when the images meet",
    "such as ∞ = 28; 30; 3 m = 2.85; 1 m = 1.02",
    width=10,
    needed=True,
)


class RangefinderPart(Part):
    """The rangefinder, the distances at which its images met, and the rounds of adjusting.

    `pairs` hold true distance = distance on the lens scale when the images meet, such as
    ``∞ = 28; 30; 1 m = 1.03``; the farthest and the nearest of them are the two targets that
    every round reads again. `apart` holds readings where the images did not meet, as at a stop.
    """

    title: ClassVar[str] = "Coupled rangefinder"
    base: Annotated[str, fields.RANGEFINDER_BASE]
    base_to_film: Annotated[str, fields.BASE_TO_FILM] = "0 mm"
    magnification: Annotated[str, fields.MAGNIFICATION] = "1"
    acuity: Annotated[str, fields.ACUITY] = "60″"
    near_end: Annotated[str, fields.NEAR_END] = "1 m"
    compensator: CompensatorPart = MirrorPart()
    pairs: Annotated[str, fields.COINCIDENCES, _PAIRS] | None = None
    apart: Annotated[tuple[ApartPart, ...], Field(max_length=MOST_APART)] = ()
    tape: Annotated[str, fields.TAPE_LIMIT, Ask("tape ±", "0 if empty", width=2)] = "0 mm"
    infinity_adjuster: Kind = "screw"
    near_adjuster: Kind = "screw"
    rounds: Annotated[tuple[RoundPart, ...], Field(max_length=MOST_ROUNDS)] = ()
    cam: CamPart | None = None
