"""The board on which posters are drawn: A3 in millimetres, or the very same drawing on A4.

Type is sized to be read from two metres: the least is 17 points on A3, whose capitals are
4.4 mm high, which is 7.5 minutes of arc at that distance (the usual eye reads at 5).
"""

from collections.abc import Sequence
from datetime import date

from optics.drawing.drawing import Ink, Point
from optics.drawing.lettering import MM_PER_POINT, text_width, wrapped
from optics.drawing.page import ACCENT, BLACK, DARK, PAPERS, WHITE, Paper, Sheet
from optics.errors import OutOfRange
from optics.readings.wording import CONVENTIONS

A3 = Paper("A3", 297.0, 420.0)
POSTER_PAPERS = {paper.name: paper for paper in (A3, PAPERS["A4"])}
LEFT, RIGHT, BOTTOM = 22.0, 275.0, 380.0
WIDTH = RIGHT - LEFT
TITLE, HEAD, TEXT, LABEL, LEAST = 46.0, 27.0, 21.0, 19.0, 17.0
# How long an arrow's head is, in mm.
ARROW = 5.0
_LEADING = 1.28
_INVENTED = (
    "The cameras of Lantern Street Camera Works are invented: no figure is that of a real one. "
)


class Board(Sheet):
    """A poster being drawn; every place and thickness in mm of A3, type in points of A3."""

    def paragraph(
        self,
        at: Point,
        width: float,
        text: str,
        size: float = TEXT,
        *,
        bold: bool = False,
        ink: Ink = BLACK,
    ) -> float:
        """Lines from a first baseline downwards; where the next baseline would be."""
        x, y = at
        for line in wrapped(text, width, size, bold):
            self.text(x, y, line, size, bold=bold, ink=ink)
            y += size * _LEADING * MM_PER_POINT
        return y

    def number(self, centre: Point, number: int) -> None:
        """A number in a filled disc, for leaders and lists."""
        self.circle(centre, 5.2, fill=ACCENT, ink=None)
        size = LABEL if number < 10 else LABEL - 4
        foot = centre[1] + 0.36 * size * MM_PER_POINT
        self.text(centre[0], foot, str(number), size, bold=True, ink=WHITE, align="middle")

    def table(
        self,
        at: Point,
        widths: Sequence[float],
        rows: Sequence[Sequence[str]],
        *,
        size: float = LABEL,
        step: float = 11.0,
    ) -> float:
        """Rows of one line each, the first of them the heads; where the table ends."""
        left, y = at
        end = left + sum(widths)
        for number, row in enumerate(rows):
            x = left
            for column, (cell, width) in enumerate(zip(row, widths, strict=True)):
                centre = x if column == 0 else x + width / 2
                self.text(
                    centre,
                    y,
                    cell,
                    size,
                    bold=number == 0 or column == 0,
                    ink=DARK if number == 0 else BLACK,
                    align="left" if column == 0 else "middle",
                )
                x += width
            rule = y + 0.32 * step
            self.line((left, rule), (end, rule), width=0.35 if number else 0.7)
            y += step
        return y


def board(title: str, line: str, *, made: date, page_size: str, made_by: str = "") -> Board:
    """Begin a poster with its title and the one line it teaches.

    Errors: OutOfRange for a paper that is neither A3 nor A4.
    """
    if page_size not in POSTER_PAPERS:
        known = " or ".join(POSTER_PAPERS)
        raise OutOfRange(
            f"The paper of a poster must be {known}: got “{page_size}”; choose one of the two.",
            quantity="paper",
            value=page_size,
            limit=known,
        )
    paper = POSTER_PAPERS[page_size]
    drawn = Board(
        paper,
        title=f"Poster: {title}",
        made=made,
        made_by=made_by,
        conventions=_INVENTED + CONVENTIONS,
        scale=paper.width / A3.width,
    )
    size = min(TITLE, TITLE * WIDTH / text_width(title, TITLE, is_bold=True))
    drawn.text(LEFT, 38, title, size, bold=True)
    y = drawn.paragraph((LEFT, 52), WIDTH, line, HEAD - 4, ink=ACCENT, bold=True)
    drawn.line((LEFT, y - 5), (RIGHT, y - 5), width=1.2)
    return drawn
