"""Where the parts lie while the camera is open."""

from typing import Annotated

from optics.typed.ask import Ask
from optics.typed.part import Line, Note, Part


class TrayPart(Part):
    """A part taken off: the place it came from, the screws that held it, the tray it lies in."""

    part: Annotated[Line, Ask("part", hint=None, width=5)]
    place: Annotated[Line, Ask("came from", hint=None, width=5)] = ""
    screw: Annotated[Line, Ask("kind of screw", hint=None, width=5)] = ""
    quantity: Annotated[Line, Ask("screws", hint=None, width=2)] = ""
    tray: Annotated[Line, Ask("tray", hint=None, width=2)] = ""
    note: Annotated[Note, Ask("note", hint=None, width=5)] = ""
