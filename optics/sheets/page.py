"""A sheet of paper in millimetres: origin at the top left, x to the right, y down.

Everything that is drawn goes through here, so that a length on the sheet is that length on
paper. The same drawing gives the same bytes: the date is the caller's, never the clock's.
"""

import io
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.metadata import version
from typing import Literal, TypeAlias

from reportlab.pdfgen.canvas import Canvas

from optics.bench.wording import CONVENTIONS
from optics.errors import OutOfRange
from optics.sheets.lettering import (
    MM_PER_POINT,
    REPLACEMENT,
    face,
    in_visual_order,
    shown,
    text_width,
    wrapped,
)

Ink: TypeAlias = tuple[float, float, float]
Point: TypeAlias = tuple[float, float]
BLACK: Ink = (0.0, 0.0, 0.0)
DARK: Ink = (0.32, 0.32, 0.32)
MID: Ink = (0.58, 0.58, 0.58)
PALE: Ink = (0.86, 0.86, 0.86)
WHITE: Ink = (1.0, 1.0, 1.0)
# The accent of the screen; it prints as a dark grey without colour.
ACCENT: Ink = (29 / 255, 86 / 255, 84 / 255)

HAIRLINE = 0.1
MARGIN = 15.0
_FINE_PRINT = 6.2

# A face is read from one place in memory, by one sheet at a time.
_ONE_AT_A_TIME = threading.Lock()


@dataclass(frozen=True)
class Paper:
    """A size of paper, in mm."""

    name: str
    width: float
    height: float


PAPERS = {p.name: p for p in (Paper("A4", 210.0, 297.0), Paper("Letter", 215.9, 279.4))}


def paper_named(name: str) -> Paper:
    """The paper of a name; OutOfRange where it is neither A4 nor Letter."""
    if name not in PAPERS:
        known = " or ".join(PAPERS)
        raise OutOfRange(
            f"The paper must be {known}: got “{name}”; choose one of the two.",
            quantity="paper",
            value=name,
            limit=known,
        )
    return PAPERS[name]


@cache
def program() -> str:
    """The program's name and version, as a footer says it."""
    return f"Shimwright {version('shimwright')}"


class Sheet:
    """Pages being drawn; `pdf` ends them. Lengths in mm, type sizes in points."""

    def __init__(
        self,
        paper: Paper,
        *,
        title: str,
        made: date,
        made_by: str = "",
        conventions: str = CONVENTIONS,
    ) -> None:
        self.paper = paper
        self._made = f"Made {made.isoformat()}" + (f" by {made_by}" if made_by.strip() else "")
        self._page_number = 1
        self._has_replaced = False
        self._conventions = wrapped(conventions, self.right - self.left, _FINE_PRINT)
        self._file = io.BytesIO()
        self._canvas = Canvas(
            self._file,
            pagesize=(_points(paper.width), _points(paper.height)),
            pageCompression=1,
            invariant=1,
            initialFontName=face(False),
        )
        self._describe(title, made, made_by)

    def _describe(self, title: str, made: date, made_by: str) -> None:
        canvas = self._canvas
        canvas.setTitle(_storable(title))
        canvas.setAuthor(_storable(made_by.strip() or program()))
        canvas.setCreator(program())
        canvas.setSubject("Camera focus")
        canvas.setCatalogEntry("Lang", "en")
        canvas.setDateFormatter(lambda *_: f"D:{made:%Y%m%d}000000Z")
        # A printer that fits the page to its paper would spoil every length on it.
        canvas.setViewerPreference("PrintScaling", "None")

    @property
    def left(self) -> float:
        """Where the left margin ends."""
        return MARGIN

    @property
    def right(self) -> float:
        """Where the right margin begins."""
        return self.paper.width - MARGIN

    @property
    def top(self) -> float:
        """Where the top margin ends."""
        return MARGIN

    @property
    def bottom(self) -> float:
        """Where the room for drawing ends, above the footer."""
        return self.paper.height - MARGIN - (len(self._conventions) + 1) * _line(_FINE_PRINT) - 2

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        bold: bool = False,
        ink: Ink = BLACK,
        align: Literal["left", "middle", "right"] = "left",
        turned: float = 0.0,
    ) -> None:
        """One line with its baseline at y; `turned` degrees counter-clockwise about (x, y)."""
        line = in_visual_order(shown(text))
        self._has_replaced = self._has_replaced or REPLACEMENT in line
        back = {"left": 0.0, "middle": 0.5, "right": 1.0}[align]
        canvas = self._canvas
        canvas.saveState()
        canvas.setFont(face(bold), size)
        canvas.setFillColorRGB(*ink)
        canvas.translate(*self._at((x, y)))
        if turned:
            canvas.rotate(turned)
        canvas.drawString(-_points(back * text_width(line, size, bold)), 0, line)
        canvas.restoreState()

    def line(
        self,
        start: Point,
        end: Point,
        *,
        width: float = HAIRLINE,
        ink: Ink = BLACK,
        dash: Sequence[float] = (),
    ) -> None:
        """A straight line `width` mm thick, its ends cut square at the points."""
        self._pen(width, ink, dash)
        self._canvas.line(*self._at(start), *self._at(end))

    def shape(
        self,
        points: Sequence[Point],
        *,
        fill: Ink | None = None,
        ink: Ink | None = BLACK,
        width: float = HAIRLINE,
        closed: bool = True,
        dash: Sequence[float] = (),
    ) -> None:
        """A polygon, or an open line through the points."""
        self._pen(width, ink or BLACK, dash)
        path = self._canvas.beginPath()
        path.moveTo(*self._at(points[0]))
        for point in points[1:]:
            path.lineTo(*self._at(point))
        if closed:
            path.close()
        if fill:
            self._canvas.setFillColorRGB(*fill)
        self._canvas.drawPath(path, stroke=int(ink is not None), fill=int(fill is not None))

    def box(
        self,
        corner: Point,
        width: float,
        height: float,
        *,
        fill: Ink | None = None,
        ink: Ink | None = BLACK,
        line: float = HAIRLINE,
    ) -> None:
        """A rectangle from its top left corner."""
        self._pen(line, ink or BLACK, ())
        if fill:
            self._canvas.setFillColorRGB(*fill)
        x, y = self._at((corner[0], corner[1] + height))
        self._canvas.rect(
            x,
            y,
            _points(width),
            _points(height),
            stroke=int(ink is not None),
            fill=int(fill is not None),
        )

    def arrow(self, start: Point, end: Point, *, width: float = 0.3, ink: Ink = BLACK) -> None:
        """A line with a filled head whose point is at `end`."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = (dx * dx + dy * dy) ** 0.5
        head = min(2.4, length)
        ux, uy = dx / length, dy / length
        back = (end[0] - head * ux, end[1] - head * uy)
        self.line(start, back, width=width, ink=ink)
        half = head * 0.36
        wings = [(back[0] - side * half * uy, back[1] + side * half * ux) for side in (1, -1)]
        self.shape([end, *wings], fill=ink, ink=None)

    def next_page(self) -> None:
        """End this page with its footer and begin another."""
        self._foot()
        self._canvas.showPage()
        self._page_number += 1
        self._has_replaced = False

    def pdf(self) -> bytes:
        """End the last page; the finished document."""
        self._foot()
        self._canvas.showPage()
        with _ONE_AT_A_TIME:
            self._canvas.save()
        return self._file.getvalue()

    def _foot(self) -> None:
        """Conventions, who and when, and what � means if it was needed."""
        line = _line(_FINE_PRINT)
        lines = [*self._conventions, self._made]
        y = self.paper.height - MARGIN - (len(lines) - 1) * line - 0.6
        self.line((self.left, y - line), (self.right, y - line))
        program_and_page = f"{program()} · page {self._page_number}"
        width = self.right - self.left - text_width(program_and_page, _FINE_PRINT) - 4
        notice = f" · {REPLACEMENT} stands for a character this type does not have"
        lines[-1:] = wrapped(self._made, width - text_width(notice, _FINE_PRINT), _FINE_PRINT,
                             most=1)  # fmt: skip
        if self._has_replaced or REPLACEMENT in lines[-1]:
            lines[-1] += notice
        for step, text in enumerate(lines):
            self.text(self.left, y + step * line, text, _FINE_PRINT, ink=DARK)
        last = y + (len(lines) - 1) * line
        self.text(self.right, last, program_and_page, _FINE_PRINT, ink=DARK, align="right")

    def _at(self, point: Point) -> Point:
        return _points(point[0]), _points(self.paper.height - point[1])

    def _pen(self, width: float, ink: Ink, dash: Sequence[float]) -> None:
        self._canvas.setLineWidth(_points(width))
        self._canvas.setStrokeColorRGB(*ink)
        self._canvas.setDash([_points(d) for d in dash])


def _points(mm: float) -> float:
    return mm / MM_PER_POINT


def _line(size: float) -> float:
    """The distance from line to line, in mm, for a type size in points."""
    return size * 1.3 * MM_PER_POINT


def _storable(text: str) -> str:
    """A title as a document's description can hold it: no control characters or half pairs."""
    return "".join(c if c.isprintable() else REPLACEMENT for c in text)[:500]
