"""The coupled rangefinder's part of a job: what it is, what was read, and what was turned."""

from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field

from optics.records import fields
from optics.records.part import Part

Kind: TypeAlias = Literal["screw", "eccentric"]
MOST_ROUNDS = 40


class RoundPart(Part):
    """Adjusters turned (plus or “clockwise”), then the lens scale read where the images meet."""

    infinity_turned: Annotated[str, fields.INFINITY_TURNED] = "0"
    near_turned: Annotated[str, fields.NEAR_TURNED] = "0"
    far_reads: Annotated[str, fields.FAR_READS]
    near_reads: Annotated[str, fields.NEAR_READS]


class RangefinderPart(Part):
    """The rangefinder, the distances at which its images met, and the rounds of adjusting.

    `pairs` hold true distance = distance on the lens scale when the images meet, such as
    ``∞ = 28, 30; 1 m = 1.03``; the farthest and the nearest of them are the two targets that
    every round reads again.
    """

    title: ClassVar[str] = "Coupled rangefinder"
    base: Annotated[str, fields.RANGEFINDER_BASE]
    base_to_film: Annotated[str, fields.BASE_TO_FILM] = "0 mm"
    magnification: Annotated[str, fields.MAGNIFICATION] = "1"
    acuity: Annotated[str, fields.ACUITY] = "60″"
    near_end: Annotated[str, fields.NEAR_END] = "1 m"
    pairs: Annotated[str, fields.COINCIDENCES] | None = None
    tape: Annotated[str, fields.TAPE_LIMIT] = "0 mm"
    infinity_adjuster: Kind = "screw"
    near_adjuster: Kind = "screw"
    rounds: Annotated[tuple[RoundPart, ...], Field(max_length=MOST_ROUNDS)] = ()
