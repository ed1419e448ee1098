"""Text that flows down a column of a sheet."""

from optics.drawing.drawing import Ink
from optics.drawing.lettering import MM_PER_POINT, wrapped
from optics.drawing.page import ACCENT, BLACK, Sheet

SMALLEST = 5.8
_LEADING = 1.3


class Column:
    """A column with a place `y` down to which it is filled; sizes in points times `scale`."""

    def __init__(self, sheet: Sheet, x: float, y: float, width: float, scale: float = 1.0) -> None:
        self.sheet = sheet
        self.x = x
        self.y = y
        self.width = width
        self.scale = scale

    def beside(self, x: float, width: float) -> "Column":
        """Another column that begins at the same height."""
        return Column(self.sheet, x, self.y, width, self.scale)

    def say(
        self,
        text: str,
        size: float,
        *,
        bold: bool = False,
        ink: Ink = BLACK,
        most: int | None = None,
        hang: float = 0.0,
    ) -> None:
        """A paragraph; at most so many lines, all but the first indented by `hang` mm."""
        size = max(size * self.scale, SMALLEST)
        for number, line in enumerate(wrapped(text, self.width - hang, size, bold, most)):
            self.y += size * _LEADING * MM_PER_POINT
            x = self.x + (hang if number else 0)
            # The baseline lies a quarter of the type size above the line's foot.
            self.sheet.text(x, self.y - size * 0.3 * MM_PER_POINT, line, size, bold=bold, ink=ink)

    def gap(self, height: float) -> None:
        """Empty room, in mm before scaling."""
        self.y += height * self.scale

    def below(self, *others: "Column") -> None:
        """Go on under the lowest of these columns."""
        self.y = max(self.y, *(other.y for other in others))


def headed(
    sheet: Sheet, kind: str, title: str, *, width: float = 0.0, size: float = 13.0, most: int = 2
) -> Column:
    """What kind of sheet it is, and its title under that; the column goes on below them.

    Across the page unless its `width` is told; a title of more than `most` lines is cut short.
    """
    head = Column(sheet, sheet.left, sheet.top - 0.8, width or sheet.right - sheet.left)
    head.say(kind, 8.2, bold=True, ink=ACCENT, most=1)
    head.say(title, size, bold=True, most=most)
    return head
