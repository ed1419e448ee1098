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

    infinity_turned: Annotated[
        str, fields.INFINITY_TURNED, Ask("∞ adjuster", "1/8 clockwise, −1/4", width=3)
    ] = "0"
    near_turned: Annotated[
        str, fields.NEAR_TURNED, Ask("near adjuster", "0 if not turned", width=3.75)
    ] = "0"
    far_reads: Annotated[str, fields.FAR_READS, Ask("far reads", "lens scale", width=2.5)]
    near_reads: Annotated[str, fields.NEAR_READS, Ask("near reads", "repeats: 1; 1.01", width=2.75)]


class ApartPart(Part):
    """With the lens at a place on its scale, the two images of a target stood apart.

    `apart` is how far: an angle before the finder, or a length read on a ruled target.
    `ring` is the way the ring would have to turn to bring them together.
    """

    target: Annotated[str, fields.APART_TARGET, Ask("target at", "such as ∞")]
    scale: Annotated[str, fields.APART_SCALE, Ask("lens at", "at its stop, such as ∞")]
    measured: Annotated[Literal["as an angle", "on the target"], Ask(width=6)] = "as an angle"
    apart: Annotated[
        str,
        Field(max_length=60),
        Ask("apart by", "such as 4", beside=("measured", lambda how: apart_field(how))),
    ]
    ring: Annotated[Ring, Ask("ring would go", starts=Ring.FARTHER, width=6)]

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
    focal_length: Annotated[str, fields.SWUNG_FOCAL_LENGTH, Ask(starts="60")]


class CounterWedgesPart(Part):
    """Two equal wedges turn against each other."""

    kind: Literal["counter-turning wedges"] = "counter-turning wedges"
    index: Annotated[str, fields.WEDGE_INDEX, Ask(starts="1.517")]
    wedge_angle: Annotated[str, fields.WEDGE_ANGLE, Ask(starts="4")]


class SlidingWedgePart(Part):
    """A wedge slides along a converging beam."""

    kind: Literal["sliding wedge"] = "sliding wedge"
    deviation: Annotated[str, fields.WEDGE_DEVIATION, Ask(starts="3")]
    focal_length: Annotated[str, fields.WEDGE_FOCAL_LENGTH, Ask(starts="60")]


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
    base: Annotated[str, fields.RANGEFINDER_BASE, Ask("base", "such as 41", width=2)]
    base_to_film: Annotated[
        str, fields.BASE_TO_FILM, Ask("rangefinder to film", "0 if not known")
    ] = "0 mm"
    magnification: Annotated[
        str, fields.MAGNIFICATION, Ask("magnification", "1 if none", width=3)
    ] = "1"
    acuity: Annotated[str, fields.ACUITY, Ask(hint="60 if empty", starts="60")] = "60″"
    near_end: Annotated[str, fields.NEAR_END, Ask("near end used", "1 m if empty", width=3)] = "1 m"
    compensator: Annotated[CompensatorPart, Ask("the sight is turned by")] = MirrorPart()
    pairs: Annotated[str, fields.COINCIDENCES, _PAIRS] | None = None
    apart: Annotated[tuple[ApartPart, ...], Field(max_length=MOST_APART)] = ()
    tape: Annotated[str, fields.TAPE_LIMIT, Ask("tape ±", "0 if empty", width=2)] = "0 mm"
    infinity_adjuster: Annotated[Kind, Ask("infinity adjuster")] = "screw"
    near_adjuster: Annotated[Kind, Ask("near adjuster")] = "screw"
    rounds: Annotated[tuple[RoundPart, ...], Field(max_length=MOST_ROUNDS)] = ()
    cam: CamPart | None = None
