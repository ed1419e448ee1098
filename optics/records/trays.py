"""Where the parts lie while the camera is open."""

from optics.typed.part import Line, Note, Part


class TrayPart(Part):
    """A part taken off: the place it came from, the screws that held it, the tray it lies in."""

    part: Line
    place: Line = ""
    screw: Line = ""
    quantity: Line = ""
    tray: Line = ""
    note: Note = ""
