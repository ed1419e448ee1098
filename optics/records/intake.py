"""What came in: whose it is, which camera, when, and in what condition it was found."""

from typing import Annotated, Literal, TypeAlias

from pydantic import AfterValidator, Field

from optics.errors import Unreadable
from optics.typed import fields
from optics.typed.day import Day
from optics.typed.part import Line, Note, Part

SHIMS_FOUND = fields.leaves("shims found", "0.05 × 2; 0.1")
_SEPARATORS = frozenset("/\\:")

Fault: TypeAlias = Literal["loose", "missing", "wrong", "damaged", "other"]


class CustomerPart(Part):
    """Whose job it is: a reference is enough; a name and how to reach them if wanted."""

    reference: Line = ""
    name: Line = ""
    contact: Line = ""


class IdentityPart(Part):
    """The very camera: its kind, the numbers it bears, and marks that tell it from another."""

    camera: Line = ""
    serial: Line = ""
    lens_serial: Line = ""
    marks: Note = ""


class DatesPart(Part):
    """The days of the job."""

    received: Day | None = None
    promised: Day | None = None
    finished: Day | None = None
    returned: Day | None = None


class FindingPart(Part):
    """A screw or a part that was not as it should be when the camera came in."""

    what: Literal["screw", "part"]
    fault: Fault
    name: Line = ""
    place: Line = ""
    quantity: Line = ""
    note: Note = ""


class OldMarkPart(Part):
    """A mark that earlier hands left: a scribe line, a punch dot, a second index."""

    place: Line = ""
    note: Note = ""


class ShimsFoundPart(Part):
    """Shims found on opening, and where they lay."""

    leaves: Annotated[str, SHIMS_FOUND]
    place: Line = ""
    material: Line = ""
    note: Note = ""


def file_name_alone(name: str) -> str:
    """The name itself; Unreadable for one that leads into a folder or cannot be seen."""
    if not name.strip() or name.strip(". ") == "" or not name.isprintable():
        why = "it needs a name that can be read"
    elif _SEPARATORS & set(name):
        why = "it must be a name alone, without a folder; put the folder in the note"
    else:
        return name
    raise Unreadable(
        f"The photo's file name {name!r:.60} cannot be kept: {why}.", quantity="photo", value=name
    )


class PhotoPart(Part):
    """A photo by the name of its file; the picture itself stays where it is."""

    file: Annotated[str, Field(max_length=200), AfterValidator(file_name_alone)]
    day: Day | None = None
    note: Note = ""


class ConditionPart(Part):
    """The camera as found, before anything was touched."""

    findings: Annotated[tuple[FindingPart, ...], Field(max_length=200)] = ()
    old_marks: Annotated[tuple[OldMarkPart, ...], Field(max_length=200)] = ()
    shims: Annotated[tuple[ShimsFoundPart, ...], Field(max_length=200)] = ()
    earlier_repairs: Note = ""
    note: Note = ""


class IntakePart(Part):
    """Everything written down when the camera came in."""

    customer: CustomerPart = CustomerPart()
    identity: IdentityPart = IdentityPart()
    dates: DatesPart = DatesPart()
    wanted: Note = ""
    condition: ConditionPart = ConditionPart()
    photos: Annotated[tuple[PhotoPart, ...], Field(max_length=200)] = ()
