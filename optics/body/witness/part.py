"""Thread starts and witness marks as part of a job."""

import math
from typing import Annotated, ClassVar, Literal

from optics import units
from optics.body.witness import BarrelDrawing, Mark, MarksOn, Ranking, Thread, barrel_drawing, rank
from optics.camera.camera import Camera
from optics.errors import ShimwrightError, Unreadable
from optics.measure.uncertainty import Estimate, exact, from_repeats
from optics.relation import Range
from optics.theory.certainty import half_width
from optics.theory.lens import focus_error
from optics.typed import fields
from optics.typed.ask import Ask, Texts
from optics.typed.part import Part, optional_value, value
from optics.units import Understood

_LONGEST_NAME = 20


def _read_name(text: str) -> Understood:
    name = " ".join(text.split())
    if not 0 < len(name) <= _LONGEST_NAME:
        raise Unreadable(
            f"The name of a mark must be 1 to {_LONGEST_NAME} letters long: got {len(name)}; name "
            "the marks A, B, C.",
            quantity="name of a mark",
            value=name,
            limit=_LONGEST_NAME,
        )
    return Understood(text, math.nan, name)


MARK_NAME = fields.Typed("name of the mark", "", _read_name, lambda found: str(found.echo), "B")
_ANGLE_WORDS = "angle of the mark, clockwise from the top"


def _read_one_angle(text: str) -> tuple[Understood]:
    if ";" in text:
        raise Unreadable(
            f"The {_ANGLE_WORDS} “{text.strip()}” must be one: write each mark with its angle, "
            "such as B = 10, and a semicolon between marks.",
            quantity=_ANGLE_WORDS,
            value=text,
        )
    return (units.read_angle(text, words=_ANGLE_WORDS),)


_ONE_ANGLE = fields.Typed(
    _ANGLE_WORDS, "°", _read_one_angle, lambda found: str(found[0].echo), "10°"
)
MARKS = fields.pairs(MARK_NAME, _ONE_ANGLE, "candidate marks", example="B = 10")
MEASURED_ERROR = fields.readings(
    fields.of(
        focus_error,
        "focus error measured",
        "mm gauged",
        example="−0.35 mm or −0.35 mm; −0.34 mm",
    )
)
ERROR_LIMIT = fields.of(half_width, "limit of the focus error", "mm gauged", example="0.01 mm")
SPREAD = fields.figure("spread of the right combination", "mm", Range.positive(), example="0.05 mm")
PARTED_AT = fields.figure("angle where the threads part", "deg", example="200°")


def _names_in(texts: Texts) -> tuple[str, ...]:
    """The marks that were understood, of which one is in use."""
    try:
        return tuple(mark.name for mark in marks_in(texts["marks"]))
    except ShimwrightError:
        return ()


_MARKS = Ask(
    "marks, clockwise from the top",
    "seen from the front, such as A = 0; B = 10; C = −14",
    width=12,
)
_PRESENT = Ask("mark in use", note="when the reading was taken", among=_names_in, width=6)


class WitnessPart(Part):
    """The marks that compete, and the focus error at ∞ as the barrel is put together now.

    `marks` are ``A = 0; B = 10; C = −14``, in degrees clockwise from the top, seen from the
    front. `present` is the mark in use when `error` was measured; `starts` is needed only
    where the camera's focusing does not say it. `spread` is how far out the right combination
    may be, the camera's tolerance where it is left out.
    """

    title: ClassVar[str] = "Thread starts and witness marks"
    marks: Annotated[str, MARKS, _MARKS]
    present: Annotated[str, MARK_NAME, _PRESENT]
    marks_on: Annotated[
        Literal["the fixed barrel", "the turning ring"], Ask("the marks are on", note="", width=6)
    ] = "the fixed barrel"
    error: Annotated[str, MEASURED_ERROR, Ask("lens at ∞ is out by", "repeats: 6.47; 6.49")]
    sense: Annotated[
        Literal["too far out", "too far in"], Ask("which way", note="minus turns it about")
    ] = "too far out"
    limit: Annotated[str, ERROR_LIMIT, Ask("good to ±", "0 if empty", starts="0.015")] = "0 mm"
    angle_limit: Annotated[
        str, fields.MARK_ANGLE_LIMIT, Ask("marks read to ±", starts="0.5", width=6, needed=True)
    ] = "0.5°"
    spread: (
        Annotated[str, SPREAD, Ask("right one within ±", "the tolerance if empty", width=6)] | None
    ) = None
    starts: Annotated[str, fields.STARTS, Ask(hint="the camera's if empty", width=6)] | None = None
    parted_at: (
        Annotated[str, PARTED_AT, Ask("threads part at", "clockwise from the top", width=6)] | None
    ) = None


def marks_in(text: str) -> tuple[Mark, ...]:
    """The candidate marks."""
    return tuple(Mark(name.echo, angle.value) for name, (angle,) in MARKS.read(text))


def solve_witness(part: WitnessPart, camera: Camera) -> Ranking:
    """Rank every mark with every start against the reading.

    Errors: NoAnswer for a camera without a thread; OutOfRange for marks that make no sense.
    """
    starts = optional_value(fields.STARTS, part.starts)
    spread = optional_value(SPREAD, part.spread)
    return rank(
        Thread.of(camera, None if starts is None else int(starts)),
        marks_in(part.marks),
        MARK_NAME.read(part.present).echo,
        _error(part),
        spread=camera.allowed_error if spread is None else spread,
        angle_limit=value(fields.MARK_ANGLE_LIMIT, part.angle_limit),
        marks_on=MarksOn(part.marks_on),
    )


def _error(part: WitnessPart) -> Estimate:
    repeats = [one.value for one in MEASURED_ERROR.read(part.error)]
    found = from_repeats(repeats, value(ERROR_LIMIT, part.limit), MEASURED_ERROR.words)
    return found if part.sense == "too far out" else exact(0.0).plus(found, -1.0)


def drawing_of(part: WitnessPart, ranking: Ranking) -> BarrelDrawing:
    """The barrel's face; the present entry stands at the top where it was not noted."""
    return barrel_drawing(ranking, optional_value(PARTED_AT, part.parted_at) or 0.0)
