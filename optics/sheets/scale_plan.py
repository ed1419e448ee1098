"""What is to be engraved on a scale, and the words and tables that go with every scale sheet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from optics.camera.camera import Camera
from optics.camera.stops import Stops
from optics.drawing.column import Column
from optics.drawing.page import DARK, PALE
from optics.drawing.strips import figure_width
from optics.errors import OutOfRange
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_fit import arc_of
from optics.scales.scale_layout import DepthRow, ScaleOn, ScaleRow, depth_row, scale_row
from optics.sheets.true_size import check_between

_FINE = 6.4
_COLUMNS = (9.0, 22.0, 36.0)
TABLE_WIDTH = 40.0
LONGEST_TABLE = 26


@dataclass(frozen=True)
class ScalePlan:
    """A camera's scale: units (the one nearest the index first), distances, depth marks.

    Distances in mm by unit; a unit without any gets the usual series, from `nearest` on.
    `f_numbers` as engraved; none at all for a scale without depth marks. Figure heights in mm.
    """

    camera: Camera
    units: tuple[ScaleUnit, ...] = (ScaleUnit.METRES,)
    distances: dict[ScaleUnit, tuple[float, ...]] = field(default_factory=dict)
    nearest: float | None = None
    f_numbers: tuple[float, ...] | None = None
    stops: Stops = Stops.EXACT
    circle_of_confusion: float | None = None
    scale_on: ScaleOn = ScaleOn.RING
    figure_height: float = 1.8
    depth_figure_height: float = 1.4

    def __post_init__(self) -> None:
        """Refuse what no scale could be drawn from."""
        if not self.units or len(set(self.units)) < len(self.units):
            raise OutOfRange(
                "A scale needs one or two different units: got "
                f"{', '.join(self.units) or 'none'}; choose m, ft or both.",
                quantity="units",
                value=self.units,
            )
        for height in (self.figure_height, self.depth_figure_height):
            check_between("figure height", height, 0.8, 6.0)

    def row(self, unit: ScaleUnit, diameter: float) -> ScaleRow:
        """The distance marks of a unit on an edge of a diameter."""
        return scale_row(
            self.camera,
            unit,
            diameter,
            distances=self.distances.get(unit),
            nearest=self.nearest,
            figure_width=lambda figure: figure_width(figure, self.figure_height),
        )

    def depth(self, diameter: float) -> DepthRow:
        """The depth marks on an edge of a diameter."""
        return depth_row(
            self.camera,
            diameter,
            f_numbers=self.f_numbers,
            stops=self.stops,
            circle_of_confusion=self.circle_of_confusion,
            figure_width=lambda figure: figure_width(figure, self.depth_figure_height),
        )


def scale_tables(
    words: Column,
    rows: Sequence[ScaleRow],
    depth: DepthRow | None,
    diameters: tuple[float, float],
    where: str,
) -> None:
    """Every mark with its angle and its arc, so that a dividing head can be set by them too.

    `diameters` are those on which scale and index are measured, `where` says it in words.
    """
    scale, index = diameters
    tables = [
        (
            f"{row.unit.words} from ∞",
            [(mark.figure, mark.angle, arc_of(mark.angle, scale)) for mark in row.marks],
        )
        for row in rows
    ]
    if depth is not None and depth.marks:
        lines = [(mark.figure, mark.angle, arc_of(mark.angle, index)) for mark in depth.marks]
        tables.append(("f/, ± from the index", lines))
    begin = words.y
    for number, (head, lines) in enumerate(tables):
        column = words.beside(words.x + number * (TABLE_WIDTH + 3), TABLE_WIDTH)
        column.y = begin
        _table(column, head, where, lines)
        words.below(column)


def _table(
    column: Column, head: str, where: str, lines: Sequence[tuple[str, float, float]]
) -> None:
    sheet, ends = column.sheet, [column.x + at for at in _COLUMNS]
    column.say(head, _FINE, bold=True)
    column.gap(2.6)
    for end, word in zip(ends[1:], ("angle", where), strict=True):
        sheet.text(end, column.y - 0.6, word, _FINE, ink=DARK, align="right")
    sheet.line((column.x, column.y), (ends[-1], column.y))
    for figure, angle, arc in lines[:LONGEST_TABLE]:
        column.gap(2.75)
        cells = (figure, f"{math.degrees(angle):.2f}°", f"{arc:.2f} mm")
        for end, cell in zip(ends, cells, strict=True):
            sheet.text(end, column.y - 0.6, cell, _FINE, align="right")
        sheet.line((column.x, column.y), (ends[-1], column.y), ink=PALE)
    if len(lines) > LONGEST_TABLE:
        column.say(f"{len(lines) - LONGEST_TABLE} more are on the strip only.", _FINE, ink=DARK)
