"""Strips of marks at true size: laid out flat, cut into tiles where the page is too narrow."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar

from optics.drawing.drawing import Point
from optics.drawing.lettering import MM_PER_POINT, text_width
from optics.drawing.page import BLACK, DARK, MID, PALE, Sheet

OVERLAP = 12.0
"""How much of a strip neighbouring tiles have in common, in mm."""
CROSS_INSET = 2.0
CROSS_ROOM = 3.2
_ARM = 1.6
# The height of figures and capitals of the type, over its size.
_FIGURE = 0.729
_FINE = 5.8


@dataclass(frozen=True)
class Tick:
    """A line across the strip, `at` mm along it, between two heights from its top."""

    at: float
    top: float
    bottom: float
    width: float = 0.2

    @property
    def half(self) -> float:
        """A tick is placed by its middle, however thick it is."""
        return 0.0


def tick_from(at: float, edge: float, length: float, width: float = 0.2) -> Tick:
    """A tick that begins at an edge and goes down, or up for a length of less than nothing."""
    return Tick(at, min(edge, edge + length), max(edge, edge + length), width)


@dataclass(frozen=True)
class StripWord:
    """A word in the middle over a place, its baseline at a height from the strip's top."""

    at: float
    baseline: float
    text: str
    height: float
    bold: bool = False

    @property
    def half(self) -> float:
        """Half of its width, in mm."""
        return figure_width(self.text, self.height, self.bold) / 2


@dataclass(frozen=True)
class Sign:
    """A filled shape at a place; its points are mm along from there, and heights."""

    at: float
    points: tuple[Point, ...]

    @property
    def half(self) -> float:
        """Half of its width, in mm."""
        return max(abs(along) for along, _ in self.points)


AnyMark = TypeVar("AnyMark", Tick, StripWord, Sign)


@dataclass(frozen=True)
class Strip:
    """A strip of marks laid flat, `flap` mm of glue flap beyond its length."""

    length: float
    height: float
    ticks: tuple[Tick, ...]
    figures: tuple[StripWord, ...]
    signs: tuple[Sign, ...] = ()
    flap: float = 0.0


@dataclass(frozen=True)
class Tile:
    """The part of a strip from one place to another."""

    number: int
    begin: float
    end: float


def type_size(figure_height: float) -> float:
    """The type size in points whose figures are so many mm high."""
    return figure_height / _FIGURE / MM_PER_POINT


def figure_width(text: str, figure_height: float, is_bold: bool = False) -> float:
    """How wide a figure of a height runs, in mm."""
    return text_width(text, type_size(figure_height), is_bold)


def tiles(begin: float, end: float, width: float) -> tuple[Tile, ...]:
    """The fewest tiles no wider than `width` that cover a strip, each with `OVERLAP` in common."""
    # Each tile begins where the one before still runs, so that crosses on both can be laid over
    # each other: the joint then lies between crosses, not at an edge that scissors made.
    found = [Tile(0, begin, min(end, begin + width))]
    while found[-1].end < end - 1e-9:
        start = found[-1].end - OVERLAP
        found.append(Tile(len(found), start, min(end, start + width)))
    return tuple(found)


def draw_marks(
    sheet: Sheet, strip: Strip, tile: Tile, corner: Point, *, mirrored: bool = False
) -> None:
    """Draw every mark that lies wholly on a tile whose top left corner is given.

    What crosses a tile's end lies wholly on its neighbour, for nothing is wider than `OVERLAP`.
    """

    # Mirrored, the strip runs from right to left within its tile, for a print that is turned over.
    def x_of(at: float) -> float:
        return corner[0] + (tile.end - at if mirrored else at - tile.begin)

    y = corner[1]
    for tick in _on(tile, strip.ticks):
        sheet.line(
            (x_of(tick.at), y + tick.top), (x_of(tick.at), y + tick.bottom), width=tick.width
        )
    for sign in _on(tile, strip.signs):
        sheet.shape([(x_of(sign.at + a), y + v) for a, v in sign.points], fill=BLACK, ink=None)
    for figure in _on(tile, strip.figures):
        sheet.text(
            x_of(figure.at),
            y + figure.baseline,
            figure.text,
            type_size(figure.height),
            bold=figure.bold,
            align="middle",
            mirrored=mirrored,
        )


def _on(tile: Tile, marks: Sequence[AnyMark]) -> Iterator[AnyMark]:
    for mark in marks:
        if tile.begin - 1e-9 <= mark.at - mark.half and mark.at + mark.half <= tile.end + 1e-9:
            yield mark


def draw_cut_lines(sheet: Sheet, strip: Strip, tile: Tile, corner: Point) -> None:
    """The lines to cut along, and on the last tile the closing line and the glue flap."""
    (x, y), h = corner, strip.height
    # A tile may run on past the strip, into its flap, which is not cut along the strip's edges.
    end = min(tile.end, strip.length)
    for edge in (y, y + h):
        sheet.line((x, edge), (x + end - tile.begin, edge), ink=DARK)
    if tile.begin <= 0:
        sheet.line((x, y - 1.5), (x, y + h + 1.5), ink=DARK)
        sheet.text(x - 0.9, y + h / 2, "cut", _FINE, ink=DARK, align="middle", turned=90)
    if tile.end >= strip.length:
        closing = x + strip.length - tile.begin
        sheet.line((closing, y - 1.5), (closing, y + h + 1.5), ink=DARK)
        if strip.flap:
            _draw_flap(sheet, (closing, y), h, strip.flap)


def _draw_flap(sheet: Sheet, corner: Point, height: float, flap: float) -> None:
    """A flap that tapers, so that it goes under without showing."""
    (x, y), slant = corner, min(1.0, height / 6)
    outline = [(x, y), (x + flap, y + slant), (x + flap, y + height - slant), (x, y + height)]
    sheet.shape(outline, fill=PALE, ink=DARK)
    sheet.text(x + flap / 2, y + height / 2 + 0.7, "glue", _FINE, ink=DARK, align="middle")
    sheet.text(x, y - 2.2, "closing line", _FINE, ink=DARK, align="middle")


def cross_places(tile: Tile, others: Sequence[Tile]) -> Iterator[tuple[str, float]]:
    """The joints of a tile and the places of their register crosses along the strip."""
    for first, second in pairwise(others):
        if tile in (first, second):
            letter = chr(ord("A") + first.number % 26)
            yield letter, second.begin + CROSS_INSET
            yield letter, first.end - CROSS_INSET


def draw_crosses(
    sheet: Sheet,
    strip: Strip,
    tile: Tile,
    others: Sequence[Tile],
    corner: Point,
    *,
    mirrored: bool = False,
) -> None:
    """Register crosses over and under a tile, where they fall on its neighbour's."""
    for letter, at in cross_places(tile, others):
        x = corner[0] + (tile.end - at if mirrored else at - tile.begin)
        for y in (corner[1] - CROSS_ROOM, corner[1] + strip.height + CROSS_ROOM):
            sheet.line((x - _ARM, y), (x + _ARM, y), ink=BLACK)
            sheet.line((x, y - _ARM), (x, y + _ARM), ink=BLACK)
            sheet.text(x + 0.5, y - 0.5, letter, _FINE, ink=MID)
