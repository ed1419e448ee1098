"""The plain focusing target at true size: bars both ways, a wedge and a star."""

import math
from datetime import date

from optics.drawing.column import headed
from optics.drawing.drawing import Point
from optics.drawing.page import BLACK, Sheet, paper_named
from optics.drawing.ruler import ROOM, check_rulers
from optics.rangefinder.target import LINE_WIDTHS, FocusingTarget
from optics.readings.wording import CONVENTIONS
from optics.units import format_distance, format_length

_FINE, _TINY = 7.0, 5.8
_LINES = 4
_SHORTEST = 5.0
_SPOKES = 36
_STAR = 34.0
_WEDGE = (4.0, 0.25)
_WEDGE_LENGTH = 88.0
_COARSE = 3


def target_sheet(
    target: FocusingTarget, *, title: str, made: date, page_size: str = "A4", made_by: str = ""
) -> Sheet:
    """A target to pin up square to the camera, each pattern with its line width in mm.

    The same arguments give the same sheet. Errors: OutOfRange for an unknown paper.
    """
    paper = paper_named(page_size)
    name = title.strip() or "Focusing target"
    sheet = Sheet(
        paper,
        title=f"Focusing target: {name}",
        made=made,
        made_by=made_by,
        conventions=CONVENTIONS,
    )
    y = _head(target, sheet, name) + 6
    _column(sheet, (sheet.left, y), LINE_WIDTHS[:_COARSE])
    _column(sheet, (sheet.left + 100, y), LINE_WIDTHS[_COARSE:])
    corner = sheet.left + ROOM, sheet.bottom - ROOM
    check_rulers(sheet, corner)
    _star(sheet, (corner[0] + 52, corner[1] - 44))
    _wedge(sheet, (corner[0] + 106, corner[1] - 2))
    return sheet


def _head(target: FocusingTarget, sheet: Sheet, title: str) -> float:
    head = headed(sheet, "Focusing target", title, size=11, most=1)
    head.say(_advice(target), _FINE)
    return head.y


def _advice(target: FocusingTarget) -> str:
    best, finest = target.best_width, format_length(target.finest_on_target)
    start = (
        f"At {format_distance(target.distance)}, through a loupe × {target.loupe:.3g}, a sharp "
        f"image shows lines of {finest} and wider: "
    )
    if best is None:
        return f"{start}these bars are too fine there, so come nearer."
    return f"{start}focus on the bars marked {best:g}, the finest still to be seen."


def _column(sheet: Sheet, corner: Point, widths: tuple[float, ...]) -> None:
    x, y = corner
    for width in widths:
        size = (2 * _LINES - 1) * width
        long = max(size, _SHORTEST)
        sheet.text(x, y - 0.8, f"{width:g}", _TINY, bold=True)
        for number in range(_LINES):
            place = 2 * number * width
            sheet.box((x + place, y), width, long, fill=BLACK, ink=None)
            sheet.box((x + size + 5, y + place), long, width, fill=BLACK, ink=None)
        y += long + 4


def _star(sheet: Sheet, centre: Point) -> None:
    """Black and white sectors of one angle, so that the line narrows towards the middle."""
    half = math.pi / _SPOKES / 2
    for spoke in range(_SPOKES):
        middle = spoke * 4 * half
        ends = [
            (centre[0] + _STAR * math.sin(a), centre[1] - _STAR * math.cos(a))
            for a in (middle - half, middle, middle + half)
        ]
        sheet.shape([centre, *ends], fill=BLACK, ink=None)
    one = 1 / (2 * half)
    said = f"Star: lines are 1 mm wide {one:.1f} mm from the middle"
    sheet.text(centre[0], centre[1] - _STAR - 2, said, _TINY, align="middle")


def _wedge(sheet: Sheet, foot: Point) -> None:
    """Bars and gaps that narrow alike from foot to top, with their widths beside them."""
    wide, fine = _WEDGE
    reach = wide * (2 * _LINES - 1) / 2
    middle = foot[0] + reach
    for number in range(_LINES):
        edges = [2 * number - _LINES + 0.5 + side for side in (0, 1)]
        low = [(middle + edge * wide, foot[1]) for edge in edges]
        high = [(middle + edge * fine, foot[1] - _WEDGE_LENGTH) for edge in edges]
        sheet.shape([*low, *reversed(high)], fill=BLACK, ink=None)
    for width in LINE_WIDTHS:
        if fine <= width <= wide:
            y = foot[1] - _WEDGE_LENGTH * (wide - width) / (wide - fine)
            x = middle + (_LINES - 0.5) * width + 1
            sheet.line((x, y), (x + 2, y))
            sheet.text(x + 2.6, y + 0.7, f"{width:g}", _TINY)
