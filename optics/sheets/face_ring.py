"""The scale of a ring's face at true size, seen from the front."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optics.camera.camera import Turn
from optics.drawing.column import Column
from optics.drawing.drawing import Point, on_circle
from optics.drawing.page import DARK, Sheet
from optics.drawing.strips import figure_width, type_size
from optics.errors import OutOfRange
from optics.scales.layout_wording import (
    SCALE_CONVENTIONS,
    depth_marks_line,
    face_runs_line,
    source_line,
    turning_line,
)
from optics.scales.scale_layout import DepthRow, ScaleRow, runs
from optics.sheets.scale_plan import ScalePlan, scale_tables
from optics.sheets.true_size import Artwork, Room, Signature, check_between, true_size

TICK = 1.5
_CLEAR, _EDGE = 0.5, 0.5
_NOTE = 6.8
_CROSS = 4.0


@dataclass(frozen=True)
class Face:
    """A ring's face: diameters in mm, where ∞ stands, and where the index is.

    `infinity_at` is in rad clockwise from the top. The index ring, `index_width` wide, lies
    round the scale's outer edge, or inside its inner edge; 0 leaves it out.
    """

    outer_diameter: float
    inner_diameter: float
    infinity_at: float = 0.0
    index_width: float = 4.2
    is_index_outside: bool = True

    def __post_init__(self) -> None:
        """Refuse what no ring is."""
        check_between("ring's outer diameter", self.outer_diameter, 8.0, 160.0)
        check_between("ring's inner diameter", self.inner_diameter, 1.0, self.outer_diameter - 2)
        check_between("width of the index ring", self.index_width, 0.0, 20.0)
        if self.index_width and not self.is_index_outside:
            check_between(
                "ring's inner diameter", self.inner_diameter, 2 * self.index_width + 4, 160.0
            )

    @property
    def width(self) -> float:
        """From the inner to the outer edge."""
        return (self.outer_diameter - self.inner_diameter) / 2

    @property
    def edge(self) -> float:
        """The radius at which scale and index meet."""
        return (self.outer_diameter if self.is_index_outside else self.inner_diameter) / 2

    @property
    def away(self) -> int:
        """Which way the scale's ticks run from that edge: −1 inwards."""
        return -1 if self.is_index_outside else 1

    @property
    def cuts(self) -> tuple[float, ...]:
        """The radii to cut at."""
        radii = (self.inner_diameter / 2, self.outer_diameter / 2)
        if not self.index_width:
            return radii
        return (*radii, self.edge - self.away * self.index_width)

    @property
    def reach(self) -> float:
        """The radius of all that is printed."""
        return max(self.cuts)

    @property
    def innermost(self) -> float:
        """The diameter of the hole."""
        return 2 * min(self.cuts)


@dataclass(frozen=True)
class _Ring:
    """Where a face is drawn, and which way round it runs on the paper."""

    sheet: Sheet
    centre: Point
    zero: float
    way: int
    mirrored: bool

    def angle(self, from_zero: float) -> float:
        """The angle on paper, clockwise from the top, of one along the scale."""
        turned = self.zero + self.way * from_zero
        return -turned if self.mirrored else turned

    def tick(self, from_zero: float, radius: float, length: float, width: float) -> None:
        angle = self.angle(from_zero)
        ends = (on_circle(self.centre, r, angle) for r in (radius, radius + length))
        self.sheet.line(*ends, width=width)

    def figure(self, from_zero: float, radius: float, text: str, height: float) -> None:
        """A word whose tops point outwards, the foot of its figures at a radius."""
        angle = self.angle(from_zero)
        x, y = on_circle(self.centre, radius, angle)
        turned = math.degrees(angle if self.mirrored else -angle)
        self.sheet.text(
            x, y, text, type_size(height), align="middle", turned=turned, mirrored=self.mirrored
        )


@dataclass(frozen=True)
class _Band:
    """Where a row's ticks begin, and the foot and the middle of its figures, as radii."""

    ticks: float
    foot: float
    middle: float


def face_ring(
    plan: ScalePlan, face: Face, signature: Signature, artwork: Artwork = Artwork.PAPER
) -> Sheet:
    """The scale of a ring's face and of the index beside it, with lines to cut by.

    Marks stand at their true angles from ∞; the figures' tops point outwards. Clean artwork
    has nothing but the marks and the centre.
    Errors: NoAnswer for a bed or struts; OutOfRange for what does not fit ring or page.
    """
    bands = _bands(plan, face)
    rows = [plan.row(u, 2 * b.middle) for u, b in zip(plan.units, bands, strict=True)]
    depth = plan.depth(2 * face.edge)
    kind = "Scale ring" if artwork is Artwork.PAPER else "Scale artwork"
    page = true_size(
        plan.camera, signature, f"{kind}, true size", SCALE_CONVENTIONS, 2 * face.reach
    )
    room = page.page(f" · {artwork.value}")
    _refuse_too_large(face, room)
    _say(room.words, plan, face, rows, depth, artwork)
    way = 1 if runs(plan.camera, plan.scale_on) is Turn.CLOCKWISE else -1
    centre = ((room.left + room.right) / 2, (room.top + room.bottom) / 2)
    ring = _Ring(page.sheet, centre, face.infinity_at, way, artwork is Artwork.MIRRORED)
    for row, band in zip(rows, bands, strict=True):
        _draw_row(ring, row, band, face.away, plan.figure_height)
    if face.index_width:
        _draw_index(ring, plan, face, depth)
    _draw_centre(ring, face)
    if artwork is Artwork.PAPER:
        _draw_cuts(ring, face)
    return page.sheet


def _bands(plan: ScalePlan, face: Face) -> list[_Band]:
    """A band for each unit, the first at the edge where scale and index meet."""
    count, height = len(plan.units), plan.figure_height
    needed = count * (TICK + _CLEAR + height + _EDGE)
    if face.width < needed - 1e-9:
        raise OutOfRange(
            f"The ring must be at least {needed:.1f} mm wide for its figures: got "
            f"{face.width:g} mm between inner and outer edge; choose smaller figures or one unit.",
            quantity="ring width",
            value=face.width,
            limit=needed,
        )
    starts = [face.edge + face.away * number * face.width / count for number in range(count)]
    return [_band(start, face.away, height) for start in starts]


def _band(start: float, away: int, height: float) -> _Band:
    foot = start + away * (TICK + _CLEAR) - (height if away < 0 else 0.0)
    return _Band(start, foot, foot + height / 2)


def _refuse_too_large(face: Face, room: Room) -> None:
    limit = min(room.width, room.height) - 2
    if 2 * face.reach > limit:
        raise OutOfRange(
            f"The ring with its index must be at most {limit:.0f} mm across on this page: got "
            f"{2 * face.reach:.1f} mm; leave the index ring out or choose the longer paper.",
            quantity="ring's outer diameter",
            value=2 * face.reach,
            limit=limit,
        )


def _draw_row(ring: _Ring, row: ScaleRow, band: _Band, away: int, height: float) -> None:
    for mark in row.marks:
        ring.tick(mark.angle, band.ticks, away * TICK, 0.35 if math.isinf(mark.distance) else 0.2)
        if mark.has_figure:
            ring.figure(mark.angle, band.foot, mark.figure, height)
    nearest, small = row.marks[-1], 0.85 * height
    beside = (figure_width(nearest.figure, height) + figure_width(row.unit, small)) / 2 + 1.0
    ring.figure(nearest.angle + beside / band.middle, band.foot, row.unit, small)


def _draw_index(ring: _Ring, plan: ScalePlan, face: Face, depth: DepthRow) -> None:
    away, height = -face.away, plan.depth_figure_height
    band = _band(face.edge, away, height)
    check_between("width of the index ring", face.index_width, TICK + _CLEAR + height + _EDGE, 20)
    ring.tick(0.0, face.edge, away * face.index_width, 0.3)
    for mark in depth.marks:
        for angle in (-mark.angle, mark.angle):
            ring.tick(angle, face.edge, away * TICK, 0.15)
            if mark.has_figure:
                ring.figure(angle, band.foot, mark.figure, height)


def _draw_centre(ring: _Ring, face: Face) -> None:
    (x, y), arm = ring.centre, min(_CROSS, max(0.5, face.innermost / 2 - 1))
    ring.sheet.line((x - arm, y), (x + arm, y))
    ring.sheet.line((x, y - arm), (x, y + arm))


def _draw_cuts(ring: _Ring, face: Face) -> None:
    for radius in face.cuts:
        ring.sheet.circle(ring.centre, radius, ink=DARK)


def _say(
    words: Column,
    plan: ScalePlan,
    face: Face,
    rows: Sequence[ScaleRow],
    depth: DepthRow,
    artwork: Artwork,
) -> None:
    """How the scale runs, how to cut and fit it, and every mark in figures."""
    for line in _lines(plan, face, rows, depth, artwork):
        words.say(line, _NOTE, hang=2)
    words.gap(1.5)
    edge = 2 * face.edge
    scale_tables(words, rows, depth if face.index_width else None, (edge, edge), "at the edge")


def _lines(
    plan: ScalePlan, face: Face, rows: Sequence[ScaleRow], depth: DepthRow, artwork: Artwork
) -> Iterator[str]:
    yield face_runs_line(plan.camera, plan.scale_on)
    yield turning_line(plan.camera, plan.scale_on)
    circles = ", ".join(f"{2 * radius:.4g} mm" for radius in sorted(face.cuts))
    if artwork is Artwork.PAPER:
        yield f"Cut along the circles of ⌀ {circles}, with the compass on the cross."
        yield (
            "With the lens truly at infinity, checked by target or collimator, set ∞ to the "
            "index; then glue."
        )
    else:
        yield f"Edges, not printed: ⌀ {circles}. Scale and index meet at ⌀ {2 * face.edge:g} mm."
    if artwork is Artwork.MIRRORED:
        yield "Printed mirrored: once transferred, it reads as said here."
    if face.index_width and depth.marks:
        yield depth_marks_line(plan.camera, depth)
    for notes in (*(row.notes for row in rows), depth.notes):
        yield from notes
    yield source_line(plan.camera)
