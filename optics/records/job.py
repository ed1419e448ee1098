"""The job document, version 1: what was typed about one camera, exactly as it was typed.

It is the one thing that the page, the command line and the tests exchange. Fields that are
unknown, and versions that are newer, are refused.
"""

from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field, model_validator

from optics.body.budget_part import BudgetPart
from optics.body.gate.part import GatePart
from optics.body.standard.part import StandardPart
from optics.body.witness.part import WitnessPart
from optics.camera.camera import Turn
from optics.camera.confusion import format_named
from optics.finding.part import DiagnosisPart
from optics.rangefinder.part import RangefinderPart
from optics.records.intake import IntakePart
from optics.records.trays import TrayPart
from optics.records.work import WorkPart
from optics.scales.account import TITLE as SCALE_TITLE
from optics.typed import fields
from optics.typed.day import Day
from optics.typed.part import Line, Note, Part
from optics.typed.places import PLACE

FORMAT = "shimwright job"
VERSION = 1


class LensPart(Part):
    """The lens as marked; hiatus and pupil magnification are worth entering if known.

    Without focal length and full aperture a reading is answered as far as it goes alone.
    """

    focal_length: Annotated[str, fields.FOCAL_LENGTH] | None = None
    full_aperture: Annotated[str, fields.FULL_APERTURE] | None = None
    hiatus: Annotated[str, fields.HIATUS] = "0 mm"
    pupil_magnification: Annotated[str, fields.PUPIL_MAGNIFICATION] = "1"


class HelicoidPart(Part):
    """The whole lens moves on a multi-start thread."""

    kind: Literal["helicoid"] = "helicoid"
    lead: Annotated[str, fields.LEAD] | None = None
    starts: Annotated[str, fields.STARTS] = "1"
    extends: Turn
    ring_diameter: Annotated[str, fields.RING_DIAMETER] | None = None


class FrontCellPart(Part):
    """Only the front cell moves; its focal length and its place are worth entering if known."""

    kind: Literal["front cell"] = "front cell"
    group_focal_length: Annotated[str, fields.GROUP_FOCAL_LENGTH] | None = None
    lead: Annotated[str, fields.LEAD] | None = None
    extends: Turn
    cell_to_film: Annotated[str, fields.CELL_TO_FILM] | None = None
    ring_diameter: Annotated[str, fields.RING_DIAMETER] | None = None


class BedPart(Part):
    """The whole lens slides on a bed or stands on struts against stops."""

    kind: Literal["bed"] = "bed"


FocusingPart: TypeAlias = Annotated[
    HelicoidPart | FrontCellPart | BedPart, Field(discriminator="kind")
]


class CameraPart(Part):
    """The camera as the repairer describes it."""

    name: Annotated[str, Field(max_length=200)] = ""
    lens: LensPart
    focusing: FocusingPart
    circle_of_confusion: Annotated[str, fields.CIRCLE_OF_CONFUSION] | None = None
    tolerance: Annotated[str, fields.TOLERANCE] | None = None


class WorkshopPart(Part):
    """Shim leaves in the drawer, and those fitted now if they are known."""

    drawer: Annotated[str, fields.DRAWER] | None = None
    fitted: Annotated[str, fields.FITTED] | None = None


class PlacedPart(Part):
    """Where on the picture a reading was taken: its middle, unless a place is given.

    `place` is ``x, y`` in mm from the middle, plus right and up, or a corner or side by name,
    seen from the front; only a diagnosis asks for it.
    """

    place: Annotated[str, PLACE] | None = None


class SeenPart(PlacedPart):
    """How the lens stood and what the image was judged on; only a diagnosis asks for it.

    `where` is left out where the lens stood at its mark, `judged` where it was judged on the
    ground glass.
    """

    where: Literal["at the mark", "at the stop"] | None = None
    judged: Literal["on the ground glass", "on film"] | None = None


class MarkPart(SeenPart):
    """With the ring at a mark, a target at a measured distance is sharp."""

    title: ClassVar[str] = "Ring mark against true distance"
    kind: Literal["mark"] = "mark"
    mark: Annotated[str, fields.RING_MARK] = "inf"
    sharp_at: Annotated[str, fields.SHARP_AT]
    limit: Annotated[str, fields.DISTANCE_LIMIT] = "0 mm"


class RotationPart(SeenPart):
    """The ring was turned from a mark until a target was sharp; minus is the other way round."""

    title: ClassVar[str] = "Rotation from the stop until sharp"
    kind: Literal["rotation"] = "rotation"
    turned: Annotated[str, fields.TURNED]
    sense: Turn
    limit: Annotated[str, fields.ANGLE_LIMIT] = "0°"
    target: Annotated[str, fields.TARGET] = "inf"
    mark: Annotated[str, fields.RING_MARK] = "inf"


class RegisterPart(PlacedPart):
    """The register, gauged, against what the lens is made for."""

    title: ClassVar[str] = "Register by depth gauge"
    kind: Literal["register"] = "register"
    measured: Annotated[str, fields.MEASURED_REGISTER]
    nominal: Annotated[str, fields.NOMINAL_REGISTER]
    instrument: Annotated[str, Field(max_length=40)] = "other"
    limit: Annotated[str, fields.GAUGE_LIMIT] | None = None


class CollimatorPart(SeenPart):
    """With the ring at infinity, the collimator's reticle was shifted until sharp.

    `to_lens` is how far the collimator's lens stood from the camera's; where it is left out,
    what it may have been counts as uncertainty.
    """

    title: ClassVar[str] = "Collimator reticle shift"
    kind: Literal["collimator"] = "collimator"
    shift: Annotated[str, fields.RETICLE_SHIFT]
    towards: Literal["its lens", "away from its lens"] = "its lens"
    limit: Annotated[str, fields.RETICLE_LIMIT] = "0 mm"
    collimator_focal_length: Annotated[str, fields.COLLIMATOR]
    to_lens: Annotated[str, fields.COLLIMATOR_TO_LENS] | None = None


class RulerPart(SeenPart):
    """A film test on a slanting ruler; on film, unless it was judged on the ground glass."""

    title: ClassVar[str] = "Slanting ruler on film"
    kind: Literal["ruler"] = "ruler"
    mark: Annotated[str, fields.RING_MARK]
    aim: Annotated[str, fields.RULER_AIM]
    offset: Annotated[str, fields.RULER_OFFSET]
    side: Literal["nearer", "farther"] = "nearer"
    slope: Annotated[str, fields.RULER_SLOPE] = "45°"
    limit: Annotated[str, fields.RULER_LIMIT] = "0 mm"


class ParallaxPart(Part):
    """Which way the image moves against the cross on the ground glass when the eye moves."""

    title: ClassVar[str] = "Parallax on the ground glass"
    kind: Literal["parallax"] = "parallax"
    image_moves: Literal["with the eye", "against the eye", "not at all"]


ReadingPart: TypeAlias = Annotated[
    MarkPart | RotationPart | RegisterPart | CollimatorPart | RulerPart | ParallaxPart,
    Field(discriminator="kind"),
]


class ScalePart(Part):
    """The engraved scale as measured on the ring, plus towards the near marks.

    Angles are in degrees, arcs and chords in mm, unless a unit is written. `negative` is the
    picture's size, such as ``24x36``, for whose conventions the depth marks are searched.
    """

    title: ClassVar[str] = SCALE_TITLE
    along: Literal["angle", "arc", "chord"] = "angle"
    reference: Literal["lens at infinity", "ring mark"] = "lens at infinity"
    marks: Annotated[str, Field(max_length=400)]
    depth_marks: Annotated[str, Field(max_length=400)] | None = None
    across: bool = True
    limit: Annotated[str, Field(max_length=60)]
    negative: Annotated[str, Field(max_length=20)] | None = None

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


def scale_fields(along: str) -> tuple[fields.Typed, fields.Typed, fields.Typed]:
    """How marks, depth marks and their limit are read when measured along angle, arc or chord."""
    if along == "angle":
        return fields.MARK_ANGLES, fields.DEPTH_MARK_ANGLES, fields.MARK_ANGLE_LIMIT
    return fields.MARK_LENGTHS, fields.DEPTH_MARK_LENGTHS, fields.MARK_LENGTH_LIMIT


class TakenPart(Part):
    """A reading as found or as left: when it was taken, with what, and what is worth adding."""

    day: Day | None = None
    reading: ReadingPart
    instrument: Line = ""
    note: Note = ""


class JobDocument(Part):
    """One job: what came in, the camera, the shims at hand, the readings taken, the work done.

    `readings` are those being worked with; `found` and `left` are kept for the record. With a
    `diagnosis`, which may be empty, they are also weighed together. A job can be booked in
    before its camera's figures are known.
    """

    format: Literal["shimwright job"] = "shimwright job"
    version: Literal[1] = 1
    title: Annotated[str, Field(max_length=200)] = ""
    intake: IntakePart | None = None
    trays: Annotated[tuple[TrayPart, ...], Field(max_length=200)] = ()
    work: WorkPart | None = None
    camera: CameraPart | None = None
    marks: Annotated[tuple[Annotated[str, fields.RING_MARK], ...], Field(max_length=12)] = (
        "3 m",
        "1.5 m",
    )
    workshop: WorkshopPart = WorkshopPart()
    readings: Annotated[tuple[ReadingPart, ...], Field(max_length=200)] = ()
    scale: ScalePart | None = None
    standard: StandardPart | None = None
    gate: GatePart | None = None
    witness: WitnessPart | None = None
    budget: BudgetPart | None = None
    rangefinder: RangefinderPart | None = None
    diagnosis: DiagnosisPart | None = None
    found: Annotated[tuple[TakenPart, ...], Field(max_length=200)] = ()
    left: Annotated[tuple[TakenPart, ...], Field(max_length=200)] = ()
