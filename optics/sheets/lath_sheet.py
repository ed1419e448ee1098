"""The infinity lath at true size: two upright marks one base apart, across, upright or in two."""

from dataclasses import dataclass
from datetime import date

from optics.drawing.column import Column, headed
from optics.drawing.drawing import Point
from optics.drawing.page import BLACK, DARK, MID, Sheet, paper_named
from optics.drawing.ruler import ROOM, check_rulers
from optics.errors import OutOfRange
from optics.rangefinder import lath as bench
from optics.rangefinder.lath import Lath
from optics.readings.wording import CONVENTIONS, said_camera
from optics.units import format_length

_KIND = "Infinity lath"
_TEXT, _FINE, _TINY = 8.2, 7.0, 5.8
_BAR = 56.0
# Marks four times as wide as what the eye can see there, within what a window can show (common
# practice, no source).
_SEEN, _NARROWEST, _WIDEST = 4.0, 1.5, 8.0
_EDGE = 15.0
_TOP = 22.0
_CROSS = 4.0


@dataclass(frozen=True)
class _Board:
    """Where a lath lies: u along it from its left mark, v down its marks, both in mm."""

    sheet: Sheet
    origin: Point
    is_upright: bool = False

    def at(self, u: float, v: float) -> Point:
        """The place on paper; upright, the lath's left mark lies at the foot."""
        x, y = self.origin
        return (x + v, y - u) if self.is_upright else (x + u, y + v)

    def mark(self, u: float, width: float) -> None:
        """A bar, its middle at u, and short lines at its middle for the caliper."""
        half = width / 2
        corners = ((u - half, 0.0), (u + half, 0.0), (u + half, _BAR), (u - half, _BAR))
        self.sheet.shape([self.at(*corner) for corner in corners], fill=BLACK, ink=None)
        for v in (-5.0, _BAR + 1):
            self.line((u, v), (u, v + 4))

    def line(self, start: Point, end: Point) -> None:
        """A hairline from (u, v) to (u, v)."""
        self.sheet.line(self.at(*start), self.at(*end))

    def dimension(self, base: float, text: str) -> None:
        """Arrows from mark to mark with the spacing between them."""
        v, middle = -3.0, base / 2
        turned = 90.0 if self.is_upright else 0.0
        for end in (0.0, base):
            self.sheet.arrow(self.at(middle, v), self.at(end, v), width=0.15, ink=DARK)
        x, y = self.at(middle, v - 1.4)
        self.sheet.text(x, y, text, _FINE, bold=True, align="middle", turned=turned)

    def join(self, u: float) -> None:
        """A line to cut or lay on, with a register cross near either end."""
        self.line((u, -12), (u, _BAR + 12))
        for v in (-8.0, _BAR + 8):
            self.line((u - _CROSS, v), (u + _CROSS, v))


def lath_sheet(
    lath: Lath, *, title: str, made: date, page_size: str = "A4", made_by: str = ""
) -> Sheet:
    """A lath to stand in front of the windows, with its tolerance and what an error leaves.

    Short laths lie across the paper, longer ones along it, and the longest come on two sheets
    with register crosses. The same arguments give the same sheet.
    Errors: OutOfRange for an unknown paper, or a base too long for two sheets.
    """
    paper = paper_named(page_size)
    name = title.strip() or lath.camera.name.strip() or _KIND
    sheet = Sheet(
        paper,
        title=f"{_KIND}: {name}",
        made=made,
        made_by=made_by,
        conventions=CONVENTIONS,
    )
    across = sheet.right - sheet.left - 2 * _EDGE
    along = sheet.bottom - sheet.top - _TOP - 2 * _EDGE / 3
    if lath.base <= across:
        _whole(lath, sheet, name)
    elif lath.base <= along:
        _upright(lath, sheet, name)
    elif lath.base <= 2 * across:
        _halves(lath, sheet, name)
    else:
        raise OutOfRange(
            f"A lath for two sheets of {page_size} can have a base of at most {2 * across:.0f} mm: "
            f"got {lath.base:g} mm; make it from a straight board and scribe the marks.",
            quantity="base",
            value=lath.base,
            limit=2 * across,
        )
    return sheet


def _width(lath: Lath) -> float:
    wanted = min(max(_SEEN * lath.eye_tolerance, _NARROWEST), _WIDEST)
    return min(wanted, lath.base / 4)


def _spacing(lath: Lath) -> str:
    return f"{format_length(lath.base, places=3)} ± {format_length(lath.tolerance, places=3)}"


def _head(lath: Lath, sheet: Sheet, title: str, width: float = 0.0, note: str = "") -> Column:
    head = headed(sheet, _KIND, title, width=width)
    head.say(said_camera(lath.camera), _FINE, ink=DARK)
    head.gap(1)
    for line in (bench.said_tolerance(lath), bench.said_use(lath), note):
        if line:
            head.say(line, _TEXT)
    for error in (-lath.film_tolerance / 4, lath.film_tolerance / 4):
        head.say(bench.said_leaves(lath, error), _FINE)
    head.say(bench.said_eye(lath), _FINE)
    head.say(
        "Paper moves with the weather: measure the marks, middle to middle, on the day.", _FINE
    )
    return head


def _whole(lath: Lath, sheet: Sheet, title: str) -> None:
    head = _head(lath, sheet, title)
    left = (sheet.left + sheet.right - lath.base) / 2
    board = _Board(sheet, (left, head.y + 16))
    _both_marks(board, lath)
    check_rulers(sheet, (sheet.left + ROOM, sheet.bottom - ROOM))


def _both_marks(board: _Board, lath: Lath) -> None:
    for u in (0.0, lath.base):
        board.mark(u, _width(lath))
    board.dimension(lath.base, _spacing(lath))


def _upright(lath: Lath, sheet: Sheet, title: str) -> None:
    note = "The lath lies along the sheet: turn the sheet a quarter clockwise to use it."
    _head(lath, sheet, title, 100, note)
    x, foot = sheet.right - _BAR - 6, sheet.bottom - _EDGE / 3
    board = _Board(sheet, (x, foot), is_upright=True)
    _both_marks(board, lath)
    check_rulers(sheet, (sheet.left + ROOM, sheet.bottom - ROOM))


def _halves(lath: Lath, sheet: Sheet, title: str) -> None:
    half, width = lath.base / 2, _width(lath)
    note = (
        "Left half here, right half on the next sheet: cut the next one on its join line and lay "
        "it on this one's, cross on cross; then measure from mark to mark."
    )
    y = _head(lath, sheet, title, note=note).y + 22
    left = _Board(sheet, (sheet.left + _EDGE, y))
    left.mark(0, width)
    _half(left, half, (0, half), f"half of {_spacing(lath)}")
    check_rulers(sheet, (sheet.left + ROOM, sheet.bottom - ROOM))
    sheet.next_page()
    headed(sheet, f"{_KIND} · right half", title)
    right = _Board(sheet, (sheet.left + _EDGE - half, y))
    right.mark(lath.base, width)
    _half(right, half, (lath.base, half), f"half of {_spacing(lath)}")
    check_rulers(sheet, (sheet.left + ROOM, sheet.bottom - ROOM))


def _half(board: _Board, join: float, ends: tuple[float, float], text: str) -> None:
    """The join and an arrow from it to the mark."""
    board.join(join)
    mark = ends[0]
    board.sheet.arrow(board.at(join, -3), board.at(mark, -3), width=0.15, ink=DARK)
    x, y = board.at((join + mark) / 2, -4.4)
    board.sheet.text(x, y, text, _FINE, bold=True, align="middle")
    x, y = board.at(join, -13)
    board.sheet.text(x, y, "join", _TINY, align="middle", ink=MID)
