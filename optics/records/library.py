"""The user's own library: cameras, lenses, instruments, shim stock, targets, a letterhead.

Each item is a named part, kept under its own document format so that a file of one is never
taken for a job.
"""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from optics.records.files import read_document
from optics.records.job import CameraPart, LensPart, WorkshopPart
from optics.records.work import InstrumentPart
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Line, Note, Part


class TargetPart(Part):
    """A focusing target at a known distance from where the camera stands."""

    distance: Annotated[str, fields.TARGET, Ask("distance")]
    limit: Annotated[str, fields.DISTANCE_LIMIT, Ask("good to ±")] = "0 mm"
    note: Annotated[Note, Ask("note")] = ""


class LetterheadPart(Part):
    """The workshop as its sheets name it."""

    name: Line
    address: Annotated[Note, Ask("address")] = ""


class CameraItem(Part):
    """A camera under a name of the user's own."""

    kind: Literal["camera"] = "camera"
    name: Line
    part: CameraPart


class LensItem(Part):
    """A lens."""

    kind: Literal["lens"] = "lens"
    name: Line
    part: LensPart


class InstrumentItem(Part):
    """A measuring instrument."""

    kind: Literal["instrument"] = "instrument"
    name: Line
    part: InstrumentPart


class StockItem(Part):
    """A drawer of shim leaves."""

    kind: Literal["shim stock"] = "shim stock"
    name: Line
    part: WorkshopPart


class TargetItem(Part):
    """A focusing target."""

    kind: Literal["target"] = "target"
    name: Line
    part: TargetPart


class LetterheadItem(Part):
    """A letterhead."""

    kind: Literal["letterhead"] = "letterhead"
    name: Line
    part: LetterheadPart


Item: TypeAlias = Annotated[
    CameraItem | LensItem | InstrumentItem | StockItem | TargetItem | LetterheadItem,
    Field(discriminator="kind"),
]


class ItemDocument(Part):
    """One item of the library as a file holds it."""

    format: Literal["shimwright library item"] = "shimwright library item"
    version: Literal[1] = 1
    item: Item


def read_item(data: bytes) -> Item:
    """The item in a file's bytes; Unreadable with one sentence for anything that is not one."""
    return read_document(data, ItemDocument, "library item", kept=True).item
