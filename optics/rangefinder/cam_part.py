"""The cam's part of a job: what the body expects, the lifts read, and how it may be cut."""

from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field

from optics.rangefinder.cam import BodyLaw, Cam, LensLaw, StraightLaw
from optics.rangefinder.set_up import CoupledCamera
from optics.rangefinder.stoning import LiftReading, StoningMap, StoningRules, lift_readings, stone
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Part, optional_value, value


class LensBodyPart(Part):
    """The follower must move as the lens the body was cut for; `gain` may be known."""

    kind: Literal["a lens it was cut for"] = "a lens it was cut for"
    focal_length: Annotated[str, fields.BODY_FOCAL_LENGTH, Ask("its focal length", starts="50")]
    hiatus: Annotated[str, fields.BODY_HIATUS, Ask("its hiatus", "0 if not known")] = "0 mm"
    gain: Annotated[str, fields.FOLLOWER_GAIN, Ask("converges for each mm", "if known")] | None = (
        None
    )


class StraightBodyPart(Part):
    """The sights converge in proportion to the follower's travel."""

    kind: Literal["a straight follower"] = "a straight follower"
    gain: Annotated[str, fields.FOLLOWER_GAIN, Ask("converges for each mm", starts="58")]


BodyPart: TypeAlias = Annotated[LensBodyPart | StraightBodyPart, Field(discriminator="kind")]


_LIFTS = Ask(
    "lifts read, degrees = lift",
    "empty: the table of a new cam",
    example="0 = 0; 10 = 0.60; 0.61; 20 = 1.19; 30 = 1.78; 40 = 2.34; 50 = 2.90",
    width=10,
)


class CamPart(Part):
    """A cam and the lifts read on it, such as ``0 = 0; 10 = 0.60; 0.61``, from infinity.

    `hold_back` leaves on what the readings are unsure of, so that no place is found too low
    afterwards. Without `lifts` the answer is the table of a new cam.
    """

    title: ClassVar[str] = "Cam"
    body: Annotated[BodyPart, Ask("the body expects", width=12)]
    turn: Annotated[str, fields.CAM_TURN, Ask("ring turns", "from infinity", example="52", width=3)]
    lifts: Annotated[str, fields.LIFTS, _LIFTS] | None = None
    limit: Annotated[
        str, fields.LIFT_LIMIT, Ask("lift read to ±", "0 if empty", example="0.005", width=3)
    ] = "0 mm"
    deepest: Annotated[str, fields.DEEPEST_CUT, Ask("warn at", width=2)] | None = None
    gain_less: Annotated[str, fields.GAIN_LESS, Ask("gain may drop", "0: it stays", width=2)] = "0"
    gain_more: Annotated[str, fields.GAIN_MORE, Ask("gain may rise", "0: it stays", width=2)] = "0"
    cutting: Annotated[Literal["lowers the lift", "raises the lift"], Ask(note="", width=4)] = (
        "lowers the lift"
    )
    hold_back: Annotated[
        Literal["nothing", "the uncertainty"], Ask("leave on", note="", width=4)
    ] = "nothing"


@dataclass(frozen=True)
class CamAnswer:
    """A cam as it should be, and what to stone off; None where no lifts were read."""

    cam: Cam
    stoning: StoningMap | None


def solve_cam(part: CamPart, bench: CoupledCamera) -> CamAnswer:
    """The cam's table for the camera on the bench, and the stoning map of the lifts read.

    Errors: OutOfRange for a lens without a helicoid or lifts off the ring's turn; NoAnswer where
    the body cannot follow.
    """
    cam = Cam(bench.camera, _body_of(part.body, bench), value(fields.CAM_TURN, part.turn))
    if part.lifts is None:
        return CamAnswer(cam, None)
    return CamAnswer(cam, stone(cam, _readings_of(part.lifts, part.limit), _rules_of(part)))


def _body_of(part: BodyPart, bench: CoupledCamera) -> BodyLaw:
    gain = optional_value(fields.FOLLOWER_GAIN, part.gain)
    if isinstance(part, StraightBodyPart):
        assert gain is not None
        return StraightLaw(bench.rangefinder.base, gain, bench.rangefinder.base_to_film)
    focal_length = value(fields.BODY_FOCAL_LENGTH, part.focal_length)
    return LensLaw(focal_length, value(fields.BODY_HIATUS, part.hiatus), gain or None)


def _readings_of(lifts: str, limit: str) -> tuple[LiftReading, ...]:
    found = fields.LIFTS.read(lifts)
    return lift_readings(
        [place.value for place, _ in found],
        [[one.value for one in repeats] for _, repeats in found],
        value(fields.LIFT_LIMIT, limit),
    )


def _rules_of(part: CamPart) -> StoningRules:
    return StoningRules(
        least_gain=1 - value(fields.GAIN_LESS, part.gain_less),
        most_gain=1 + value(fields.GAIN_MORE, part.gain_more),
        sureness=1.0 if part.hold_back == "the uncertainty" else 0.0,
        deepest=optional_value(fields.DEEPEST_CUT, part.deepest),
        cutting_lowers=part.cutting == "lowers the lift",
    )
