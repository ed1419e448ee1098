"""A sheet of paper in millimetres: origin at the top left, x to the right, y down.

Everything that is drawn goes through here, so that a length on the sheet is that length on
paper, and the same on the screen.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.metadata import version
from typing import Literal

from optics.drawing.drawing import (
    Box,
    Ink,
    Mark,
    Outline,
    Pen,
    Point,
    Step,
    StraightLine,
    Words,
    arc_steps,
    on_circle,
    scaled,
)
from optics.drawing.lettering import (
    MM_PER_POINT,
    REPLACEMENT,
    in_visual_order,
    shown,
    text_width,
    wrapped,
)
from optics.drawing.pdf import Description, as_pdf
from optics.drawing.svg import as_svg
from optics.errors import OutOfRange

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
    """Pages being drawn, first to last; lengths in mm, type sizes in points.

    `pdf` and `svg` end the last page; both show the same marks. `stretch` draws the PDF so many
    times larger, across and up, for a printer that prints too small. `scale` brings all that is
    drawn to so many times its size, about the top left; margins and footer keep theirs.
    """

    def __init__(
        self,
        paper: Paper,
        *,
        title: str,
        made: date,
        made_by: str = "",
        conventions: str = "",
        stretch: Point = (1.0, 1.0),
        scale: float = 1.0,
    ) -> None:
        self.paper = paper
        self._scale = scale
        self._stretch = stretch
        self._made = f"Made {made.isoformat()}" + (f" by {made_by}" if made_by.strip() else "")
        self._pages: list[list[Mark]] = [[]]
        self._is_ended = False
        self._has_replaced = False
        self._conventions = wrapped(conventions, self.right - self.left, _FINE_PRINT)
        self._said = Description(title, made_by.strip() or program(), program(), made)

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

    @property
    def page_count(self) -> int:
        """How many pages there are so far."""
        return len(self._pages)

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
        mirrored: bool = False,
    ) -> None:
        """One line with its baseline at y; `turned` degrees counter-clockwise about (x, y).

        A `mirrored` line is set as usual and then turned over about the upright through x.
        """
        # What is measured here is what is printed, so that both outputs agree on every width.
        line = in_visual_order(shown(text))
        self._has_replaced = self._has_replaced or REPLACEMENT in line
        back = {"left": 0.0, "middle": 0.5, "right": 1.0}[align] * text_width(line, size, bold)
        self._draw(Words((x, y), line, size, bold, ink, back, turned, mirrored))

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
        self._draw(StraightLine(start, end, Pen(width, ink, tuple(dash))))

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
        steps: tuple[Step, ...] = tuple((point,) for point in points[1:])
        self._draw(Outline(points[0], steps, closed, Pen(width, ink, tuple(dash)), fill))

    def box(
        self,
        corner: Point,
        width: float,
        height: float,
        *,
        fill: Ink | None = None,
        ink: Ink | None = BLACK,
        line: float = HAIRLINE,
        dash: Sequence[float] = (),
    ) -> None:
        """A rectangle from its top left corner."""
        self._draw(Box(corner, width, height, Pen(line, ink, tuple(dash)), fill))

    def arc(
        self,
        centre: Point,
        radius: float,
        start: float,
        sweep: float,
        *,
        width: float = HAIRLINE,
        ink: Ink = BLACK,
        dash: Sequence[float] = (),
    ) -> None:
        """Part of a circle from an angle on, in rad clockwise from the top; minus runs back.

        Limits: within 5e-6 of the radius of the true circle.
        """
        steps = arc_steps(centre, radius, start, sweep)
        begin = on_circle(centre, radius, start)
        self._draw(Outline(begin, steps, False, Pen(width, ink, tuple(dash)), None))

    def circle(
        self,
        centre: Point,
        radius: float,
        *,
        fill: Ink | None = None,
        ink: Ink | None = BLACK,
        width: float = HAIRLINE,
        dash: Sequence[float] = (),
    ) -> None:
        """A whole circle, as true as an `arc`."""
        steps = arc_steps(centre, radius, 0.0, math.tau)
        begin = on_circle(centre, radius, 0.0)
        self._draw(Outline(begin, steps, True, Pen(width, ink, tuple(dash)), fill))

    def arrow(
        self,
        start: Point,
        end: Point,
        *,
        width: float = 0.3,
        ink: Ink = BLACK,
        head: float = 2.4,
        both: bool = False,
    ) -> None:
        """A line with a filled head, `head` mm long, whose point is at `end`.

        With heads at `both` ends the line itself is as long as what it measures.
        """
        # The line stops where the head begins: under it, its square end would blunt the point.
        back = self._head(start, end, head, ink)
        if both:
            self._head(end, start, head, ink)
        self.line(start, end if both else back, width=width, ink=ink)

    def _head(self, start: Point, end: Point, size: float, ink: Ink) -> Point:
        """An arrow's head; where its back is."""
        length = math.dist(start, end)
        size = min(size, length)
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        back = (end[0] - size * ux, end[1] - size * uy)
        half = size * 0.36
        wings = [(back[0] - side * half * uy, back[1] + side * half * ux) for side in (1, -1)]
        self.shape([end, *wings], fill=ink, ink=None)
        return back

    def next_page(self) -> None:
        """End this page with its footer and begin another."""
        self._foot()
        self._pages.append([])
        self._has_replaced = False

    def pdf(self) -> bytes:
        """The document, for paper; the same marks give the same bytes."""
        self._end()
        size = (self.paper.width, self.paper.height)
        return as_pdf(self._pages, size, self._said, self._stretch)

    def svg(self, page: int = 0) -> str:
        """One page for the screen, in mm, its letters as outlines so that it needs no font."""
        self._end()
        return as_svg(self._pages[page], (self.paper.width, self.paper.height), self._said.title)

    def _draw(self, mark: Mark) -> None:
        self._pages[-1].append(mark)

    def _end(self) -> None:
        # Both outputs may be asked for, in either order; the last page has one footer.
        if not self._is_ended:
            self._foot()
            self._is_ended = True

    def _foot(self) -> None:
        """Bring the page to its scale; then conventions, who and when, and what � means."""
        self._pages[-1] = [scaled(mark, self._scale) for mark in self._pages[-1]]
        line = _line(_FINE_PRINT)
        lines = [*self._conventions, self._made]
        y = self.paper.height - MARGIN - (len(lines) - 1) * line - 0.6
        self.line((self.left, y - line), (self.right, y - line))
        program_and_page = f"{program()} · page {len(self._pages)}"
        width = self.right - self.left - text_width(program_and_page, _FINE_PRINT) - 4
        notice = f" · {REPLACEMENT} stands for a character this type does not have"
        # Room for the notice is kept in any case, so that a name is clipped alike on every page.
        lines[-1:] = wrapped(
            self._made, width - text_width(notice, _FINE_PRINT), _FINE_PRINT, most=1
        )
        if self._has_replaced or REPLACEMENT in lines[-1]:
            lines[-1] += notice
        for step, text in enumerate(lines):
            self.text(self.left, y + step * line, text, _FINE_PRINT, ink=DARK)
        last = y + (len(lines) - 1) * line
        self.text(self.right, last, program_and_page, _FINE_PRINT, ink=DARK, align="right")


def _line(size: float) -> float:
    """The distance from line to line, in mm, for a type size in points."""
    return size * 1.3 * MM_PER_POINT
