"""All readings weighed together, as part of a job: what the bench has, and what is supposed."""

from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field, model_validator

from optics.finding.diagnosis import Cause
from optics.typed import fields, places
from optics.typed.fields import Typed
from optics.typed.part import Part

PICTURE = places.size("picture on the film")
STANDARD_SCREWS = places.size("distance between the standard's screws")
INFINITY_SCREW = fields.length("what a turn of the infinity screw adds")
NEAR_SCREW = fields.length("what a turn of the near screw adds")
SEEN_BLUR = fields.length("blur just seen under the loupe", above=0)
MOST_CAUSES = fields.count("number of causes together", at_least=1)
CHANCE = fields.percent("chance of the cause")
MOST_TOGETHER = 4

CauseName: TypeAlias = Literal[
    "shims", "start", "ring", "stop", "focal length", "standard", "gate",
    "rangefinder zero", "rangefinder gain",
]  # fmt: skip
CAUSES: dict[CauseName, Cause] = {
    "shims": Cause.SEAT,
    "start": Cause.START,
    "ring": Cause.RING,
    "stop": Cause.STOP,
    "focal length": Cause.FOCAL,
    "standard": Cause.TILT,
    "gate": Cause.GATE,
    "rangefinder zero": Cause.ZERO,
    "rangefinder gain": Cause.GAIN,
}
CAUSE_NAMES: dict[Cause, CauseName] = {cause: name for name, cause in CAUSES.items()}


def size_of_fault(cause: CauseName, words: str) -> Typed:
    """How the size of a fault is typed: mm at the film, an angle of the standard, or per cent."""
    if cause == "standard":
        return fields.small_angle(words, "arcmin", "′")
    return fields.percent(words) if cause == "rangefinder gain" else fields.length(words)


class SuspectPart(Part):
    """One cause as it is to be supposed; what is left out stays as it usually is.

    `chance` says how many of a hundred such cameras have it, `usual` how far a sound part
    stands from its place, `wrong` how far a faulty one does (standard deviations). Sizes in mm
    at the film (of the focal length itself), ′ for the standard, % for the rangefinder's gain.
    """

    cause: CauseName
    chance: Annotated[str, CHANCE] | None = None
    usual: Annotated[str, Field(max_length=60)] | None = None
    wrong: Annotated[str, Field(max_length=60)] | None = None

    @model_validator(mode="after")
    def _understood(self) -> "SuspectPart":
        """Sizes are read differently for every cause, so they are read once it is known."""
        for quantity, text in zip(self.typed, (self.usual, self.wrong), strict=True):
            if text is not None:
                quantity.read(text)
        return self

    @property
    def typed(self) -> tuple[Typed, Typed]:
        """How the two sizes are read."""
        return (
            size_of_fault(self.cause, "usual size of a sound part"),
            size_of_fault(self.cause, "usual size of the fault"),
        )


class DiagnosisPart(Part):
    """What weighing all readings together needs beside them; every figure has a usual one.

    `picture` is needed for readings placed at a corner by name, where the standard's frame is
    not given. `infinity_screw` and `near_screw` are what one turn clockwise of the
    rangefinder's screws adds to the focus error at the film (of the near target), plus too far
    out; left out, they are learned from the rangefinder's rounds. `seen_blur` is the blur that
    the eye just sees, for readings tried once only.
    """

    title: ClassVar[str] = "Whole camera"
    picture: Annotated[str, PICTURE] | None = None
    infinity_screw: Annotated[str, INFINITY_SCREW] | None = None
    near_screw: Annotated[str, NEAR_SCREW] | None = None
    standard_screws: Annotated[str, STANDARD_SCREWS] | None = None
    seen_blur: Annotated[str, SEEN_BLUR] | None = None
    most_causes: Annotated[str, MOST_CAUSES] | None = None
    suspects: Annotated[tuple[SuspectPart, ...], Field(max_length=20)] = ()


def amount_of_fault(fault: str) -> tuple[Typed, str]:
    """How much a fault is moved on purpose: how that is typed, and a usual amount of it."""
    words = "amount of the fault"
    if fault in ("tilt_x", "tilt_y"):
        return fields.small_angle(words, "arcmin", "′", at_least=None), "10"
    if fault == "gain":
        return fields.percent(words), "5"
    return (fields.number(words), "1") if fault == "start" else (fields.length(words), "0.1")
