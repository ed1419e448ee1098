"""The scale of a barrel, unrolled at true size: to cut out and glue on, or as clean artwork."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optics.drawing.column import Column
from optics.drawing.drawing import Point
from optics.drawing.page import DARK, Sheet
from optics.drawing.strips import (
    CROSS_ROOM,
    Sign,
    Strip,
    StripWord,
    Tick,
    Tile,
    draw_crosses,
    draw_cut_lines,
    draw_marks,
    figure_width,
    tick_from,
    tiles,
)
from optics.errors import OutOfRange
from optics.scales.layout_wording import (
    SCALE_CONVENTIONS,
    depth_marks_line,
    source_line,
    strip_runs_line,
    turning_line,
)
from optics.scales.scale_layout import DepthRow, ScaleRow, Towards, runs, runs_right
from optics.sheets.scale_plan import ScalePlan, scale_tables
from optics.sheets.true_size import Artwork, Room, Signature, TrueSize, check_between, true_size

FLAP = 8.0
TICK = 1.8
_CLEAR = 0.6
_EDGE = 0.8
_INSET = 4.0
_ABOVE, _BELOW = CROSS_ROOM + 6.0, CROSS_ROOM + 2.4
_NOTE, _SMALL = 6.8, 6.2


@dataclass(frozen=True)
class StripBarrel:
    """The barrel a strip goes round: diameters and paper in mm.

    `index_diameter` is that of the part that bears the index, if it is another; `tops` says
    where the figures' tops point and `index` on which side of the scale the index lies.
    `height` is the strip's width along the axis, as its figures need unless given.
    """

    diameter: float
    paper_thickness: float = 0.1
    index_diameter: float | None = None
    tops: Towards = Towards.FRONT
    index: Towards = Towards.FILM
    height: float | None = None

    def __post_init__(self) -> None:
        """Refuse what no barrel or paper is."""
        check_between("barrel diameter", self.diameter, 5.0, 400.0)
        check_between("paper thickness", self.paper_thickness, 0.0, 1.0)
        if self.index_diameter is not None:
            check_between("diameter of the part with the index", self.index_diameter, 5.0, 400.0)

    @property
    def neutral(self) -> float:
        """The diameter at which the paper neither stretches nor shrinks when it is bent."""
        return self.diameter + self.paper_thickness

    @property
    def index_neutral(self) -> float:
        """The same for the part with the index."""
        return (self.index_diameter or self.diameter) + self.paper_thickness

    @property
    def length(self) -> float:
        """How long paper must be to go round once, in mm."""
        return math.pi * self.neutral

    @property
    def is_index_below(self) -> bool:
        """Whether the index lies under the upright figures."""
        return self.tops is not self.index


def scale_strip(
    plan: ScalePlan, barrel: StripBarrel, signature: Signature, artwork: Artwork = Artwork.PAPER
) -> Sheet:
    """A scale to wrap round a barrel, its index and depth marks, and how to fit them.

    The strip is π(d + t) long, d the barrel's diameter and t the paper's thickness, for the
    middle of bent paper keeps its length; marks stand at their angles on that. Clean artwork
    has nothing but the marks; a strip too long for the page comes in tiles with crosses.
    Errors: NoAnswer for a bed or struts; OutOfRange for what has no meaning or does not fit.
    """
    rows = [plan.row(unit, barrel.neutral) for unit in plan.units]
    depth = plan.depth(barrel.index_neutral)
    scale, index = scale_marks(plan, barrel, rows), index_marks(plan, barrel, depth)
    kind = "Scale strip" if artwork is Artwork.PAPER else "Scale artwork"
    page = true_size(plan.camera, signature, f"{kind}, true size", SCALE_CONVENTIONS, scale.length)
    room = page.page(f" · {artwork.value}")
    _say(room.words, plan, barrel, rows, depth, artwork)
    side = "front of the lens" if barrel.tops is Towards.FRONT else "film"
    words = f"upper edge towards the {side}"
    room, y = _draw_piece(page, room, room.top, scale, f"Scale, {words}", artwork)
    _draw_piece(page, room, y, index, f"Index and depth marks, {words}", artwork)
    return page.sheet


def scale_marks(plan: ScalePlan, barrel: StripBarrel, rows: Sequence[ScaleRow]) -> Strip:
    """The strip with the distances, once round, its gap in the middle at the closing line."""
    band = TICK + _CLEAR + plan.figure_height + _EDGE
    height = _height_of(barrel.height, len(rows) * band)
    band = height / len(rows)
    way = 1 if runs_right(runs(plan.camera, plan.scale_on), barrel.tops) else -1
    span = max(max(map(row.arc, row.marks)) for row in rows)
    infinity = (barrel.length - way * span) / 2
    ticks: list[Tick] = []
    figures: list[StripWord] = []
    for number, row in enumerate(rows):
        inner, sign = (height - number * band, -1) if barrel.is_index_below else (number * band, 1)
        baseline = _baseline(inner, sign, plan.figure_height)
        for mark in row.marks:
            at = infinity + way * row.arc(mark)
            weight = 0.35 if math.isinf(mark.distance) else 0.2
            ticks.append(tick_from(at, inner, sign * TICK, weight))
            if mark.has_figure:
                figures.append(StripWord(at, baseline, mark.figure, plan.figure_height))
        figures.append(_unit_label(row, infinity, way, baseline, plan.figure_height))
    return Strip(barrel.length, height, tuple(ticks), tuple(figures), flap=FLAP)


def _height_of(wanted: float | None, needed: float) -> float:
    if wanted is None:
        return needed
    if wanted < needed - 1e-9:
        raise OutOfRange(
            f"The strip's width must be at least {needed:.1f} mm for its figures: got "
            f"{wanted:g} mm; choose smaller figures or one unit.",
            quantity="height",
            value=wanted,
            limit=needed,
        )
    check_between("strip's width", wanted, needed, 60.0)
    return wanted


def _baseline(inner: float, sign: int, figure_height: float) -> float:
    """Where figures stand, beyond ticks that begin at a band's inner edge."""
    beyond = TICK + _CLEAR + (figure_height if sign > 0 else 0.0)
    return inner + sign * beyond


def _unit_label(
    row: ScaleRow, infinity: float, way: int, baseline: float, figure_height: float
) -> StripWord:
    nearest = row.marks[-1]
    height = figure_height * 0.85
    beside = figure_width(nearest.figure, figure_height) + figure_width(row.unit, height)
    at = infinity + way * (row.arc(nearest) + beside / 2 + 1.2)
    return StripWord(at, baseline, row.unit, height)


def index_marks(plan: ScalePlan, barrel: StripBarrel, depth: DepthRow) -> Strip:
    """The label with the index and the depth marks on either side of it."""
    height = TICK + _CLEAR + plan.depth_figure_height + _EDGE
    widest = max((depth.arc(mark) for mark in depth.marks), default=0.0)
    half = max(10.0, widest + 4.0)
    edge, sign = (0.0, 1) if barrel.is_index_below else (height, -1)
    baseline = _baseline(edge, sign, plan.depth_figure_height)
    ticks, figures = [Tick(half, 0.0, height, 0.3)], []
    for mark in depth.marks:
        for at in (half - depth.arc(mark), half + depth.arc(mark)):
            ticks.append(tick_from(at, edge, sign * TICK, 0.15))
            if mark.has_figure:
                figures.append(StripWord(at, baseline, mark.figure, plan.depth_figure_height))
    wedge = Sign(half, ((0.0, edge), (-0.45, edge + sign * TICK), (0.45, edge + sign * TICK)))
    return Strip(2 * half, height, tuple(ticks), tuple(figures), (wedge,))


def _draw_piece(
    page: TrueSize, room: Room, y: float, piece: Strip, name: str, artwork: Artwork
) -> tuple[Room, float]:
    """Draw a strip in as many tiles as it needs, under each other; where the last one ends."""
    begin, end = _extent(piece, artwork)
    parts = tiles(begin, end, room.width - 2 * _INSET)
    for tile in parts:
        if y + _ABOVE + piece.height + _BELOW > room.bottom:
            room = page.next_page(f" · {artwork.value}, continued")
            y = room.top
        label = name if len(parts) == 1 else f"{name} · part {tile.number + 1} of {len(parts)}"
        page.sheet.text(room.left, y + 2.2, label, _SMALL, ink=DARK)
        corner = (room.left + _INSET, y + _ABOVE)
        _draw_tile(page.sheet, piece, tile, parts, corner, artwork)
        y += _ABOVE + piece.height + _BELOW
    return room, y


def _extent(piece: Strip, artwork: Artwork) -> tuple[float, float]:
    """The whole strip with its flap, or for artwork alone as far as there are marks."""
    if artwork is Artwork.PAPER:
        return 0.0, piece.length + piece.flap
    marks: list[Tick | StripWord | Sign] = [*piece.ticks, *piece.figures, *piece.signs]
    return min(m.at - m.half for m in marks) - 1, max(m.at + m.half for m in marks) + 1


def _draw_tile(
    sheet: Sheet, piece: Strip, tile: Tile, parts: Sequence[Tile], corner: Point, artwork: Artwork
) -> None:
    mirrored = artwork is Artwork.MIRRORED
    if artwork is Artwork.PAPER:
        draw_cut_lines(sheet, piece, tile, corner)
    draw_crosses(sheet, piece, tile, parts, corner, mirrored=mirrored)
    draw_marks(sheet, piece, tile, corner, mirrored=mirrored)


def _say(
    words: Column,
    plan: ScalePlan,
    barrel: StripBarrel,
    rows: Sequence[ScaleRow],
    depth: DepthRow,
    artwork: Artwork,
) -> None:
    """How the scale runs, how to fit the strip, and every mark in figures."""
    for line in _lines(plan, barrel, rows, depth, artwork):
        words.say(line, _NOTE, hang=2)
    words.gap(1.5)
    edges = (barrel.neutral, barrel.index_neutral)
    scale_tables(words, rows, depth, edges, "on the strip")


def _lines(
    plan: ScalePlan,
    barrel: StripBarrel,
    rows: Sequence[ScaleRow],
    depth: DepthRow,
    artwork: Artwork,
) -> Iterator[str]:
    yield strip_runs_line(plan.camera, plan.scale_on, barrel.tops)
    yield turning_line(plan.camera, plan.scale_on)
    yield length_line(barrel)
    yield from FITTING[artwork]
    if depth.marks:
        yield depth_marks_line(plan.camera, depth)
    for notes in (*(row.notes for row in rows), depth.notes):
        yield from notes
    yield source_line(plan.camera)


FITTING = {
    Artwork.PAPER: (
        "Cut along the long lines and at “cut”; leave the flap. Lay parts cross on cross, cut both "
        "through between the crosses, and join the cut ends.",
        "Wrap it round: the cut end must just touch the closing line. A gap or a lap of 0.3 mm "
        "means that the barrel is 0.1 mm larger or smaller than stated.",
        "With the lens truly at infinity, checked by target or collimator, set ∞ to the index; "
        "then glue.",
    ),
    Artwork.CLEAN: (),
    Artwork.MIRRORED: ("Printed mirrored: once transferred, it reads as said here.",),
}


def length_line(barrel: StripBarrel) -> str:
    """How long the strip is, and why."""
    return (
        f"Once round is {barrel.length:.2f} mm = π × ({barrel.diameter:g} + "
        f"{barrel.paper_thickness:g}) mm: barrel and paper, whose middle keeps its length."
    )
