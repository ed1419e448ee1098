"""The job document, version 1: what was typed about one camera, exactly as it was typed.

It is the one thing that the page, the command line and the tests exchange. Fields that are
unknown, and versions that are newer, are refused.
"""

from dataclasses import replace
from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field, model_validator

from optics.body.budget_part import BudgetPart
from optics.body.gate.part import GatePart
from optics.body.standard.part import StandardPart
from optics.body.witness.part import WitnessPart
from optics.camera.camera import Turn
from optics.camera.confusion import FORMATS, format_named
from optics.camera.supposed import GROUP_HINT, PLACE_HINT
from optics.finding.part import DiagnosisPart
from optics.rangefinder.part import RangefinderPart
from optics.readings.kinds import ByKind
from optics.readings.reading_part import ReadingPart
from optics.records.intake import IntakePart
from optics.records.trays import TrayPart
from optics.records.work import WorkPart
from optics.scales.account import TITLE as SCALE_TITLE
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.day import Day
from optics.typed.part import Line, Note, Part

FORMAT = "shimwright job"
VERSION = 1


class LensPart(Part):
    """The lens as marked; hiatus and pupil magnification are worth entering if known.

    Without focal length and full aperture a reading is answered as far as it goes alone.
    """

    focal_length: (
        Annotated[str, fields.FOCAL_LENGTH, Ask(hint="such as 50", needed=True)] | None
    ) = None
    full_aperture: (
        Annotated[str, fields.FULL_APERTURE, Ask(hint="such as 2.8", needed=True)] | None
    ) = None
    hiatus: Annotated[str, fields.HIATUS, Ask(hint="0 if not known")] = "0 mm"
    pupil_magnification: Annotated[str, fields.PUPIL_MAGNIFICATION, Ask(hint="1 if not known")] = (
        "1"
    )


_LEAD = Ask(hint="travel of one turn", needed=True)
_EXTENDS = Ask(
    "lens moves out when turned",
    starts=Turn.COUNTER_CLOCKWISE,
    width=6,
    note="seen from the front",
)
_RING = Ask(hint="if given, turns in mm too")


class HelicoidPart(Part):
    """The whole lens moves on a multi-start thread."""

    kind: Literal["helicoid"] = "helicoid"
    lead: Annotated[str, fields.LEAD, _LEAD] | None = None
    starts: Annotated[str, fields.STARTS, Ask(starts="1", needed=True)] = "1"
    extends: Annotated[Turn, _EXTENDS]
    ring_diameter: Annotated[str, fields.RING_DIAMETER, _RING] | None = None


class FrontCellPart(Part):
    """Only the front cell moves; its focal length and its place are worth entering if known."""

    kind: Literal["front cell"] = "front cell"
    group_focal_length: (
        Annotated[
            str,
            fields.GROUP_FOCAL_LENGTH,
            Ask("front group's focal length", hint=GROUP_HINT, width=6),
        ]
        | None
    ) = None
    lead: Annotated[str, fields.LEAD, replace(_LEAD, width=6)] | None = None
    extends: Annotated[Turn, _EXTENDS]
    cell_to_film: Annotated[str, fields.CELL_TO_FILM, Ask(hint=PLACE_HINT, width=6)] | None = None
    ring_diameter: Annotated[str, fields.RING_DIAMETER, replace(_RING, width=6)] | None = None


class BedPart(Part):
    """The whole lens slides on a bed or stands on struts against stops."""

    kind: Literal["bed"] = "bed"


FOCUSING = {
    "helicoid": "the whole lens on a thread",
    "front cell": "the front cell alone",
    "bed": "on a bed or struts",
}
FocusingPart: TypeAlias = Annotated[
    HelicoidPart | FrontCellPart | BedPart, Field(discriminator="kind")
]


class CameraPart(Part):
    """The camera as the repairer describes it."""

    name: Annotated[str, Field(max_length=200), Ask("its name", hint="for the note", width=12)] = ""
    lens: LensPart
    focusing: Annotated[FocusingPart, Ask("it focuses", words=FOCUSING, note="", width=6)]
    circle_of_confusion: (
        Annotated[
            str,
            fields.CIRCLE_OF_CONFUSION,
            Ask(hint="0.03 for 24×36, 0.05 for 6×6", needed=True),
        ]
        | None
    ) = None
    tolerance: Annotated[str, fields.TOLERANCE, Ask(hint="empty: half of N·c")] | None = None


class WorkshopPart(Part):
    """Shim leaves in the drawer, and those fitted now if they are known."""

    drawer: Annotated[str, fields.DRAWER, Ask(hint="such as 0.05 × 4; 0.1 × 2", width=6)] | None = (
        None
    )
    fitted: Annotated[str, fields.FITTED, Ask(hint="such as 0.1 × 2, or none", width=6)] | None = (
        None
    )


AnyReading: TypeAlias = Annotated[ReadingPart, ByKind()]
"""A reading of whichever kind there is."""


def scale_fields(along: str) -> tuple[fields.Typed, fields.Typed, fields.Typed]:
    """How marks, depth marks and their limit are read when measured along angle, arc or chord."""
    if along == "angle":
        return fields.MARK_ANGLES, fields.DEPTH_MARK_ANGLES, fields.MARK_ANGLE_LIMIT
    return fields.MARK_LENGTHS, fields.DEPTH_MARK_LENGTHS, fields.MARK_LENGTH_LIMIT


_REFERENCE = Ask(
    "measured from",
    words={
        "lens at infinity": "the index, lens at infinity",
        "ring mark": "a mark on the ring",
    },
    width=6,
)
_MARKS = Ask(
    "marks, plus towards the near end",
    "such as ∞ = 0; 3 m = 17.3; 17.2; 1.5 m = 34.9",
    width=12,
    kept_by="along",
    beside=("along", lambda along: scale_fields(along)[0]),
)
_DEPTH_MARKS = Ask(
    "depth marks",
    "such as f/16 = 19; f/8 = 9.6",
    width=12,
    kept_by="along",
    beside=("along", lambda along: scale_fields(along)[1]),
)
_ACROSS = Ask("depth marks read", words={"true": "from mark to twin", "false": "from the index"})
_NEGATIVE = Ask(
    words={size.key: size.name for size in FORMATS.values()}, starts="24x36", needed=True
)


class ScalePart(Part):
    """The engraved scale as measured on the ring, plus towards the near marks.

    Angles are in degrees, arcs and chords in mm, unless a unit is written. `negative` is the
    picture's size, such as ``24x36``, for whose conventions the depth marks are searched.
    """

    title: ClassVar[str] = SCALE_TITLE
    along: Annotated[Literal["angle", "arc", "chord"], Ask("marks measured as", width=6)] = "angle"
    reference: Annotated[Literal["lens at infinity", "ring mark"], _REFERENCE] = "lens at infinity"
    marks: Annotated[str, Field(max_length=400), _MARKS]
    depth_marks: Annotated[str, Field(max_length=400), _DEPTH_MARKS] | None = None
    across: Annotated[bool, _ACROSS] = True
    limit: Annotated[
        str,
        Field(max_length=60),
        Ask("each read to ±", kept_by="along", beside=("along", lambda a: scale_fields(a)[2])),
    ]
    negative: Annotated[str, Field(max_length=20), _NEGATIVE] | None = None

    @model_validator(mode="after")
    def _understood(self) -> "ScalePart":
        """Angles and lengths are read differently, so the texts are read once `along` is known."""
        marks, depth_marks, limit = self.typed
        marks.read(self.marks)
        limit.read(self.limit)
        if self.depth_marks is not None:
            depth_marks.read(self.depth_marks)
        if self.negative is not None:
            format_named(self.negative)
        return self

    @property
    def typed(self) -> tuple[fields.Typed, fields.Typed, fields.Typed]:
        """How marks, depth marks and their limit are read."""
        return scale_fields(self.along)


class TakenPart(Part):
    """A reading as found or as left: when it was taken, with what, and what is worth adding."""

    day: Annotated[Day, Ask("day")] | None = None
    reading: AnyReading
    instrument: Annotated[Line, Ask("instrument", hint=None, width=8)] = ""
    note: Annotated[Note, Ask("note", hint=None, width=12)] = ""


class JobDocument(Part):
    """One job: what came in, the camera, the shims at hand, the readings taken, the work done.

    `readings` are those being worked with; `found` and `left` are kept for the record. With a
    `diagnosis`, which may be empty, they are also weighed together. A job can be booked in
    before its camera's figures are known.
    """

    format: Literal["shimwright job"] = "shimwright job"
    version: Literal[1] = 1
    title: Annotated[str, Field(max_length=200), Ask("job in a few words", hint=None, width=12)] = (
        ""
    )
    intake: IntakePart | None = None
    trays: Annotated[tuple[TrayPart, ...], Field(max_length=200)] = ()
    work: WorkPart | None = None
    camera: CameraPart | None = None
    marks: Annotated[tuple[Annotated[str, fields.RING_MARK], ...], Field(max_length=12)] = (
        "3 m",
        "1.5 m",
    )
    workshop: WorkshopPart = WorkshopPart()
    readings: Annotated[tuple[AnyReading, ...], Field(max_length=200)] = ()
    scale: ScalePart | None = None
    standard: StandardPart | None = None
    gate: GatePart | None = None
    witness: WitnessPart | None = None
    budget: BudgetPart | None = None
    rangefinder: RangefinderPart | None = None
    diagnosis: DiagnosisPart | None = None
    found: Annotated[tuple[TakenPart, ...], Field(max_length=200)] = ()
    left: Annotated[tuple[TakenPart, ...], Field(max_length=200)] = ()
