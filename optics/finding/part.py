"""All readings weighed together, as part of a job: what the bench has, and what is supposed."""

from typing import Annotated, ClassVar, TypeAlias

from pydantic import AfterValidator, Field, WithJsonSchema, model_validator
from pydantic_core import PydanticCustomError

from optics.finding.causes import ALL, Cause, owner_of
from optics.relation import Range
from optics.typed import fields, places
from optics.typed.ask import Ask
from optics.typed.fields import Typed
from optics.typed.part import Part

PICTURE = places.size("picture on the film", "84 × 56")
STANDARD_SCREWS = places.size("distance between the standard's screws", "50 × 40")
INFINITY_SCREW = fields.figure("what a turn of the infinity screw adds", "mm", example="0.3 mm")
NEAR_SCREW = fields.figure("what a turn of the near screw adds", "mm", example="0.3 mm")
SEEN_BLUR = fields.figure(
    "blur just seen under the loupe", "mm", Range.positive(), example="0.03 mm"
)
MOST_CAUSES = fields.figure("number of causes together", "count", Range.at_least(1), example="3")
CHANCE = fields.figure("chance of the cause", "%", example="5 %")
MOST_TOGETHER = 4


def _known_cause(name: str) -> str:
    """The name itself, if there is such a cause."""
    names = [cause.in_jobs for cause in ALL]
    if name not in names:
        expected = " or ".join((", ".join(map(repr, names[:-1])), repr(names[-1])))
        said = {"expected": expected}
        raise PydanticCustomError("literal_error", "Input should be {expected}", said)
    return name


CauseName: TypeAlias = Annotated[
    str,
    AfterValidator(_known_cause),
    WithJsonSchema({"enum": [cause.in_jobs for cause in ALL], "type": "string"}),
]


def cause_of(name: str) -> Cause:
    """The cause that a job file names."""
    return next(cause for cause in ALL if cause.in_jobs == name)


def sizes_of(cause: str) -> tuple[Typed, Typed]:
    """How the size of a sound part, and of the fault, are read for a cause."""
    size = cause_of(cause).size
    return size.typed("usual size of a sound part"), size.typed("usual size of the fault")


def _of_cause(label: str, size: int | None = None) -> Ask:
    """A figure of a cause, which each keeps for itself; its sizes are read as the cause's are."""
    beside = None if size is None else ("cause", lambda cause: sizes_of(cause)[size])
    return Ask(
        label,
        "as usual if empty",
        kept_by="cause",
        when=lambda texts: bool(texts["cause"]),
        beside=beside,
    )


_CAUSE = Ask(
    "suppose otherwise of",
    words={"": "nothing: all as usual"} | {cause.in_jobs: cause.words for cause in ALL},
    width=12,
)


class SuspectPart(Part):
    """One cause as it is to be supposed; what is left out stays as it usually is.

    `chance` says how many of a hundred such cameras have it, `usual` how far a sound part
    stands from its place, `wrong` how far a faulty one does (standard deviations). Sizes in mm
    at the film (of the focal length itself), ′ for the standard, % for the rangefinder's gain.
    """

    cause: Annotated[CauseName, _CAUSE]
    chance: Annotated[str, CHANCE, _of_cause("of such cameras")] | None = None
    usual: Annotated[str, Field(max_length=60), _of_cause("off by, where right", 0)] | None = None
    wrong: Annotated[str, Field(max_length=60), _of_cause("off by, where wrong", 1)] | None = None

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
        return sizes_of(self.cause)


_INFINITY = Ask("∞ screw: effect of one clockwise turn", "at the film, far", example="0.2", width=6)
_NEAR = Ask(
    "near screw: effect of one clockwise turn", "at the film, near", example="0.05", width=6
)
_SEEN_BLUR = Ask("blur seen under the loupe", "c/4 if empty; for single tries", width=6)


class DiagnosisPart(Part):
    """What weighing all readings together needs beside them; every figure has a usual one.

    `picture` is needed for readings placed at a corner by name, where the standard's frame is
    not given. `infinity_screw` and `near_screw` are what one turn clockwise of the
    rangefinder's screws adds to the focus error at the film (of the near target), plus too far
    out; left out, they are learned from the rangefinder's rounds. `seen_blur` is the blur that
    the eye just sees, for readings tried once only.
    """

    title: ClassVar[str] = "Whole camera"
    picture: Annotated[str, PICTURE, Ask(hint="such as 36 × 24", width=6)] | None = None
    infinity_screw: Annotated[str, INFINITY_SCREW, _INFINITY] | None = None
    near_screw: Annotated[str, NEAR_SCREW, _NEAR] | None = None
    standard_screws: (
        Annotated[str, STANDARD_SCREWS, Ask("standard's screws apart", "50 × 40 if empty", width=6)]
        | None
    ) = None
    seen_blur: Annotated[str, SEEN_BLUR, _SEEN_BLUR] | None = None
    most_causes: (
        Annotated[str, MOST_CAUSES, Ask("causes together, at most", "3 if empty", width=6)] | None
    ) = None
    suspects: Annotated[tuple[SuspectPart, ...], Field(max_length=20)] = ()


def amount_of_fault(fault: str) -> tuple[Typed, str]:
    """How much a fault is moved on purpose: how that is typed, and a usual amount of it."""
    size = owner_of(fault).size
    return size.moved("amount of the fault"), size.usual
