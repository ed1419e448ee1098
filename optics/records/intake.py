"""What came in: whose it is, which camera, when, and in what condition it was found."""

from typing import Annotated, Literal, TypeAlias

from pydantic import AfterValidator, Field

from optics.errors import Unreadable
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.day import DAY_HINT, Day
from optics.typed.part import Line, Note, Part

SHIMS_FOUND = fields.leaves("shims found", "0.05 × 2; 0.1")
_SEPARATORS = frozenset("/\\:")

Fault: TypeAlias = Literal["loose", "missing", "wrong", "damaged", "other"]


class CustomerPart(Part):
    """Whose job it is: a reference is enough; a name and how to reach them if wanted."""

    reference: Annotated[Line, Ask("customer reference", hint=None, width=6)] = ""
    name: Annotated[Line, Ask("name", hint=None, width=6)] = ""
    contact: Annotated[Line, Ask("contact", hint=None, width=12)] = ""


class IdentityPart(Part):
    """The very camera: its kind, the numbers it bears, and marks that tell it from another."""

    camera: Annotated[Line, Ask("camera", hint=None, width=6)] = ""
    serial: Annotated[Line, Ask("serial number", hint=None, width=6)] = ""
    lens_serial: Annotated[Line, Ask("lens number", hint=None, width=6)] = ""
    marks: Annotated[Note, Ask("other marks", hint=None, width=6)] = ""


class DatesPart(Part):
    """The days of the job."""

    received: Annotated[Day, Ask("received", DAY_HINT, width=6)] | None = None
    promised: Annotated[Day, Ask("promised", width=6)] | None = None
    finished: Annotated[Day, Ask("finished", width=6)] | None = None
    returned: Annotated[Day, Ask("returned", width=6)] | None = None


class FindingPart(Part):
    """A screw or a part that was not as it should be when the camera came in."""

    what: Annotated[Literal["screw", "part"], Ask("kind", width=3)]
    fault: Annotated[Fault, Ask("condition", width=4)]
    name: Annotated[Line, Ask("screw or part", hint=None, width=5)] = ""
    place: Annotated[Line, Ask("location", hint=None, width=4)] = ""
    quantity: Annotated[Line, Ask("how many", hint=None, width=3)] = ""
    note: Annotated[Note, Ask("note", hint=None, width=5)] = ""


class OldMarkPart(Part):
    """A mark that earlier hands left: a scribe line, a punch dot, a second index."""

    place: Annotated[Line, Ask("place of the mark", hint=None, width=5)] = ""
    note: Annotated[Note, Ask("appearance", hint=None, width=7)] = ""


class ShimsFoundPart(Part):
    """Shims found on opening, and where they lay."""

    leaves: Annotated[str, SHIMS_FOUND, Ask("leaves", "such as 0.05 × 2; 0.1", width=5)]
    place: Annotated[Line, Ask("position", hint=None, width=4)] = ""
    material: Annotated[Line, Ask("material", hint=None, width=3)] = ""
    note: Annotated[Note, Ask("note on the shims", hint=None, width=12)] = ""


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

    file: Annotated[
        str, Field(max_length=200), AfterValidator(file_name_alone), Ask("file", hint=None, width=4)
    ]
    day: Annotated[Day, Ask("taken on", DAY_HINT, width=4)] | None = None
    note: Annotated[Note, Ask("shows", hint=None, width=4)] = ""


class ConditionPart(Part):
    """The camera as found, before anything was touched."""

    findings: Annotated[tuple[FindingPart, ...], Field(max_length=200)] = ()
    old_marks: Annotated[tuple[OldMarkPart, ...], Field(max_length=200)] = ()
    shims: Annotated[tuple[ShimsFoundPart, ...], Field(max_length=200)] = ()
    earlier_repairs: Annotated[Note, Ask("earlier repairs", hint=None, width=12)] = ""
    note: Annotated[Note, Ask("other notes", hint=None, width=12)] = ""


class IntakePart(Part):
    """Everything written down when the camera came in."""

    customer: CustomerPart = CustomerPart()
    identity: IdentityPart = IdentityPart()
    dates: DatesPart = DatesPart()
    wanted: Annotated[Note, Ask("customer's request", hint=None, width=12)] = ""
    condition: ConditionPart = ConditionPart()
    photos: Annotated[tuple[PhotoPart, ...], Field(max_length=200)] = ()
