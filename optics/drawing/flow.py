"""Sections that run down a sheet and on to the next page, each with its heading at the side."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from optics.drawing.column import SMALLEST, Column
from optics.drawing.drawing import Ink
from optics.drawing.lettering import MM_PER_POINT, wrapped
from optics.drawing.page import BLACK, DARK, HAIRLINE, MID, PALE, Sheet

SIDE = 27.0
GUTTER = 4.0
TEXT, FINE, HEAD = 8.2, 7.0, 8.2
_LEADING = 1.32
# A row no higher than this is never broken over two pages.
_KEPT_TOGETHER = 60.0
_HEADING_ROOM = 14.0


@dataclass(frozen=True)
class Cell:
    """Text in a row: its width in mm, and how it is set."""

    text: str
    width: float
    size: float = FINE
    bold: bool = False
    ink: Ink = BLACK


class Flow:
    """A place `y` that goes down the page, and over to the next when there is no more room."""

    def __init__(self, sheet: Sheet, running_head: str, scale: float = 1.0) -> None:
        self.sheet = sheet
        self.y = sheet.top
        self.pages = 1
        self._running_head = running_head
        self._scale = scale
        self._top = self._side_end = sheet.top

    @property
    def x(self) -> float:
        """Where the main column begins."""
        return self.sheet.left + SIDE + GUTTER

    @property
    def width(self) -> float:
        """How wide the main column is."""
        return self.sheet.right - self.x

    def need(self, height: float) -> None:
        """Go to a new page unless there is so much room left on this one."""
        if self.y + height <= self.sheet.bottom or self.y <= self._top:
            return
        self.sheet.next_page()
        head = Column(self.sheet, self.sheet.left, self.sheet.top - 0.8, self._whole)
        head.say(self._running_head, FINE, ink=DARK, most=1)
        self.sheet.line((self.sheet.left, head.y + 1.0), (self.sheet.right, head.y + 1.0))
        self.y = self._top = self._side_end = head.y + 2.0
        self.pages += 1

    @property
    def _whole(self) -> float:
        return self.sheet.right - self.sheet.left

    def section(
        self, head: str, remark: str = "", *, room: float = _HEADING_ROOM, rule: float = HAIRLINE
    ) -> None:
        """Begin a section: a rule across, and its heading at the side."""
        # Go below the heading at the side too, which may be longer than its section.
        self.y = max(self.y, self._side_end)
        # No gap or rule at the top of a page, where the running head has its own.
        self.gap(1.8 if self.y > self._top else 0)
        self.need(room)
        if rule and self.y > self._top:
            self.sheet.line((self.sheet.left, self.y), (self.sheet.right, self.y), width=rule)
        self.gap(1.0)
        side = Column(self.sheet, self.sheet.left, self.y, SIDE, self._scale)
        side.say(head, HEAD, bold=True)
        if remark:
            side.say(remark, 6.2, ink=DARK)
        self._side_end = side.y

    def say(self, text: str, size: float = TEXT, *, bold: bool = False, ink: Ink = BLACK) -> None:
        """A paragraph in the main column."""
        self.row(Cell(text, self.width, size, bold, ink))

    def row(self, *cells: Cell, x: float | None = None) -> None:
        """Cells beside each other, each broken into lines of its own."""
        left = self.x if x is None else x
        cells = tuple(replace(c, size=max(c.size * self._scale, SMALLEST)) for c in cells)
        lines = [wrapped(c.text, c.width - 1.2, c.size, c.bold) for c in cells]
        step = max(c.size for c in cells) * _LEADING * MM_PER_POINT
        count = max(map(len, lines))
        # First the row as a whole, then line by line: only what is longer than that is broken.
        self.need(min(count * step, _KEPT_TOGETHER))
        for number in range(count):
            self.need(step)
            self.y += step
            self._line(cells, lines, number, left, step)

    def _line(
        self,
        cells: Sequence[Cell],
        lines: Sequence[Sequence[str]],
        number: int,
        x: float,
        step: float,
    ) -> None:
        for cell, own in zip(cells, lines, strict=True):
            if number < len(own):
                base = self.y - 0.24 * step
                self.sheet.text(x, base, own[number], cell.size, bold=cell.bold, ink=cell.ink)
            x += cell.width

    def gap(self, height: float) -> None:
        """Empty room in mm, before scaling."""
        self.y += height * self._scale

    def rule(self, *, ink: Ink = PALE, width: float = HAIRLINE) -> None:
        """A thin line across the main column."""
        self.gap(0.5)
        self.sheet.line((self.x, self.y), (self.sheet.right, self.y), ink=ink, width=width)
        self.gap(0.3)

    def table(
        self, heads: Sequence[str], widths: Sequence[float], rows: Sequence[Sequence[str]]
    ) -> None:
        """A table with its heads; the first cell of each row is bold."""
        self.row(*(Cell(h, w, 6.2, ink=DARK) for h, w in zip(heads, widths, strict=True)))
        self.rule(ink=MID)
        for row in rows:
            cells = zip(row, widths, strict=True)
            self.row(*(Cell(t, w, bold=n == 0) for n, (t, w) in enumerate(cells)))
            self.rule()
