"""The check ruler: 100 mm both ways, to be measured before a true-size sheet is trusted."""

from optics.drawing.drawing import Point
from optics.drawing.page import Sheet

LENGTH = 100
LABEL = "100 mm: measure before you trust this sheet"
# What the ruler takes up beside its line: ticks and figures on one side, the label on the other.
ROOM = 6.0
_TICKS = ((10, 3.0), (5, 2.1), (1, 1.3))
_LINE = 0.15
_SIZE = 5.6


def check_rulers(sheet: Sheet, corner: Point) -> None:
    """Draw both rulers from a corner: 100 mm to its right, and 100 mm up from it.

    Ticks and figures lie outside the corner, below and to the left, within `ROOM`.
    """
    check_ruler_across(sheet, corner)
    check_ruler_up(sheet, corner)


def check_ruler_across(sheet: Sheet, start: Point) -> None:
    """Draw 100 mm from a point to its right, ticks and figures below."""
    x, y = start
    sheet.line(start, (x + LENGTH, y), width=_LINE)
    for mm in range(LENGTH + 1):
        sheet.line((x + mm, y), (x + mm, y + _tick(mm)))
    for mm in range(0, LENGTH + 1, 10):
        sheet.text(x + mm, y + 5.2, str(mm), _SIZE, align="middle")
    sheet.text(x + LENGTH / 2, y - 1.2, LABEL, _SIZE, align="middle")


def check_ruler_up(sheet: Sheet, start: Point) -> None:
    """Draw 100 mm from a point upwards, ticks and figures to the left."""
    x, y = start
    sheet.line(start, (x, y - LENGTH), width=_LINE)
    for mm in range(LENGTH + 1):
        sheet.line((x, y - mm), (x - _tick(mm), y - mm))
    for mm in range(0, LENGTH + 1, 10):
        sheet.text(x - 3.6, y - mm, str(mm), _SIZE, align="middle", turned=90)
    sheet.text(x + 2.6, y - LENGTH / 2, LABEL, _SIZE, align="middle", turned=90)


def _tick(mm: int) -> float:
    return next(length for every, length in _TICKS if mm % every == 0)
