"""Pages that are printed at true size: heading, check rulers, and how far to trust them."""

import math
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from optics.camera.camera import Camera
from optics.drawing.column import Column, headed
from optics.drawing.page import DARK, Sheet, paper_named
from optics.drawing.ruler import LENGTH, ROOM, check_rulers
from optics.errors import OutOfRange
from optics.readings.wording import said_camera

RULER_LIMIT = 0.2
"""How far a check ruler may be out, in mm, for the sheet to be used."""

_TEXT, _FINE = 7.6, 6.8
_INSIDE = 6.0


class Artwork(StrEnum):
    """What a scale is printed for."""

    PAPER = "paper to cut out and glue on"
    CLEAN = "clean artwork"
    MIRRORED = "clean artwork, mirrored for transfer"


@dataclass(frozen=True)
class Signature:
    """What heads and signs a sheet; an empty title is the camera's name.

    `rulers` are what the two check rulers, across and up, measured on a sheet printed before,
    in mm: with them a printer that stretches or shrinks is made up for.
    """

    made: date
    title: str = ""
    made_by: str = ""
    page_size: str = "A4"
    rulers: tuple[float, float] = (LENGTH, LENGTH)

    def __post_init__(self) -> None:
        """Refuse rulers that no sound printer makes of 100 mm."""
        for measured in self.rulers:
            check_between("printed check ruler", measured, 95.0, 105.0)


@dataclass(frozen=True)
class Room:
    """What a page leaves free: from `top` to `bottom` for the piece, and a column for words."""

    left: float
    right: float
    top: float
    bottom: float
    words: Column

    @property
    def width(self) -> float:
        """From margin to margin."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From under the heading to over the rulers."""
        return self.bottom - self.top


@dataclass(frozen=True)
class TrueSize:
    """A sheet whose every page has the same heading and its own check rulers."""

    sheet: Sheet
    kind: str
    title: str
    line: str
    longest: float
    printer: str

    def page(self, remark: str = "") -> Room:
        """Furnish the page just begun; `remark` says which part of the work is on it."""
        sheet = self.sheet
        head = headed(sheet, self.kind + remark, self.title, most=1)
        head.say(self.line, _FINE, ink=DARK, most=2)
        head.gap(1)
        sheet.line((sheet.left, head.y), (sheet.right, head.y), width=0.5)
        corner = (sheet.left + ROOM, sheet.bottom - ROOM)
        check_rulers(sheet, corner)
        top = corner[1] - LENGTH - 1
        x = corner[0] + _INSIDE
        words = Column(sheet, x, top, sheet.right - x)
        words.say(trust_line(self.longest), _TEXT, bold=True)
        if self.printer:
            words.say(self.printer, _FINE)
        words.gap(1)
        return Room(sheet.left, sheet.right, head.y + 2, top - 2, words)

    def next_page(self, remark: str = "") -> Room:
        """End this page and furnish another."""
        self.sheet.next_page()
        return self.page(remark)


def true_size(
    camera: Camera, signature: Signature, kind: str, conventions: str, longest: float
) -> TrueSize:
    """Begin a true-size sheet for a camera; `longest` is its longest length that counts, in mm."""
    title = signature.title.strip() or camera.name.strip() or "Camera"
    sheet = Sheet(
        paper_named(signature.page_size),
        title=f"{kind}: {title}",
        made=signature.made,
        made_by=signature.made_by,
        conventions=conventions,
        stretch=(LENGTH / signature.rulers[0], LENGTH / signature.rulers[1]),
    )
    name = camera.name.strip()
    line = " · ".join([name] * (name not in ("", title)) + [said_camera(camera)])
    return TrueSize(sheet, kind, title, line, longest, printer_line(signature))


def trust_line(longest: float) -> str:
    """How true the sheet is once its rulers have been measured."""
    share = RULER_LIMIT / LENGTH
    worst = math.ceil(100 * share * longest) / 100
    return (
        f"Print at 100 %, without fitting to the page. If both rulers measure {LENGTH}.0 mm ± "
        f"{RULER_LIMIT} mm, every length on this sheet is true to {share:.1%}: "
        f"{worst:.2f} mm in its longest, {longest:.1f} mm."
    )


def printer_line(signature: Signature) -> str:
    """For which printer alone a stretched sheet is; nothing where it is not stretched."""
    across, up = signature.rulers
    if across == up == LENGTH:
        return ""
    return (
        f"Only for the printer whose rulers came out {across:g} mm across and {up:g} mm up: this "
        "sheet makes up for it, and its own rulers must be right."
    )


def check_between(words: str, value: float, low: float, high: float) -> None:
    """Refuse a length in mm outside two limits."""
    if not low <= value <= high:
        raise OutOfRange(
            f"The {words} must be from {low:g} mm to {high:g} mm: got {value:g} mm; "
            "measure or choose again.",
            quantity=words,
            value=value,
            limit=(low, high),
        )
