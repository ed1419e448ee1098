"""A ring's marks as they should stand over the marks as they do, at true size and enlarged."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.drawing.column import Column
from optics.drawing.page import BLACK, DARK, PALE, Sheet
from optics.drawing.strips import (
    Sign,
    Strip,
    StripWord,
    Tick,
    draw_crosses,
    draw_marks,
    figure_width,
    tiles,
)
from optics.errors import NoAnswer
from optics.scales.account import scale_account
from optics.scales.engraving import ScaleUnit, figure_of
from optics.scales.layout_wording import SCALE_CONVENTIONS, source_line, strip_runs_line
from optics.scales.scale_check import ScaleCheck
from optics.scales.scale_fit import ScaleFit, arc_of, threaded
from optics.scales.scale_layout import (
    ScaleOn,
    Towards,
    clear_of_each_other,
    runs,
    runs_right,
)
from optics.sheets.true_size import Room, Signature, TrueSize, true_size

COMPUTED, MEASURED = "where the marks belong", "where the marks are"
TICK = 2.6
_FIGURE, _WORD, _GAP = 1.8, 1.5, 0.8
_HEIGHT = 16.6
_MIDDLE = 6.0
_END = 5.0
_NOTE, _SMALL, _FINE = 6.8, 6.2, 6.4
_COLUMNS = (15.0, 33.0, 51.0, 69.0, 87.0, 93.0, 112.0)
_HEADS = ("mark", "belongs at", "stands at", "off by", "off by", "towards", "")
_ROW = 2.9
_ENLARGED = (20, 10, 5, 4, 3, 2)


@dataclass(frozen=True)
class OverlayMark:
    """A mark's distance in mm, where it belongs and where it stands in rad, and the verdict.

    Angles are plus towards the near marks, both from one reference.
    """

    distance: float
    computed: float
    measured: float
    is_wrong: bool = False
    verdict: str = ""

    @property
    def off(self) -> float:
        """How far it stands towards the near marks, in rad."""
        return self.measured - self.computed

    @property
    def words(self) -> str:
        """The verdict, in words whatever else flags it."""
        return self.verdict or ("wrong" if self.is_wrong else "agrees")


def overlay_marks(fit: ScaleFit) -> tuple[OverlayMark, ...]:
    """The marks of a fitted scale, with what it says of each."""
    found = []
    for number, mark in enumerate(fit.marks):
        is_wrong = mark.disagrees or number in fit.wrong
        untested = "" if is_wrong or mark.standardised is not None else "cannot be tested"
        found.append(OverlayMark(mark.distance, mark.expected, mark.measured, is_wrong, untested))
    return tuple(found)


def check_overlay(
    check: ScaleCheck,
    signature: Signature,
    *,
    unit: ScaleUnit = ScaleUnit.METRES,
    tops: Towards = Towards.FRONT,
) -> Sheet:
    """The overlay of a scale check: the ring against the camera's own figures.

    Errors: as `scale_overlay`.
    """
    marks, says = overlay_marks(check.as_it_stands), scale_account(check, None, ()).at_bench
    return scale_overlay(check.camera, marks, signature, unit=unit, tops=tops, says=says)


def scale_overlay(
    camera: Camera,
    marks: Sequence[OverlayMark],
    signature: Signature,
    *,
    unit: ScaleUnit = ScaleUnit.METRES,
    tops: Towards = Towards.FRONT,
    says: Sequence[str] = (),
) -> Sheet:
    """Two rows of marks that meet on a line, to be held against the ring, and their differences.

    Marks called wrong bear a diamond and the word; a table gives every difference in degrees
    and along the edge. `says` are sentences to go with it.
    Errors: NoAnswer for a camera without a thread or without a ring diameter, or no marks.
    """
    diameter = _edge_of(camera, marks)
    true = _strip(camera, marks, unit, tops, diameter)
    page = true_size(
        camera, signature, "Marks over marks, true size", SCALE_CONVENTIONS, true.length
    )
    room = page.page()
    for line in (*says, strip_runs_line(camera, ScaleOn.RING, tops), source_line(camera)):
        room.words.say(line, _NOTE, hang=2)
    room.words.gap(1.5)
    _table(room.words, marks, unit, diameter)
    room, y = _draw(page, room, room.top, true, f"True size, ring ⌀ {diameter:g} mm")
    _draw_enlarged(page, room, y, (camera, marks, unit, tops), diameter)
    return page.sheet


def _edge_of(camera: Camera, marks: Sequence[OverlayMark]) -> float:
    diameter = threaded(camera).ring_diameter
    if diameter is None or not marks:
        missing = "at least one mark" if diameter is not None else "the ring's diameter"
        raise NoAnswer(
            f"To lay marks over marks at true size, {missing} must be known: got none; "
            "measure and enter it.",
            quantity="ring_diameter" if diameter is None else "marks",
        )
    return diameter


def _strip(
    camera: Camera,
    marks: Sequence[OverlayMark],
    unit: ScaleUnit,
    tops: Towards,
    diameter: float,
) -> Strip:
    """Ticks of where marks belong above a line, of where they stand below it."""
    way = 1 if runs_right(runs(camera), tops) else -1
    upper = [way * arc_of(mark.computed, diameter) for mark in marks]
    lower = [way * arc_of(mark.measured, diameter) for mark in marks]
    start = min(*upper, *lower) - _END
    upper, lower = ([at - start for at in row] for row in (upper, lower))
    figures = [figure_of(mark.distance, unit) for mark in marks]
    flagged = [number for number, mark in enumerate(marks) if mark.is_wrong]
    ticks = [Tick(at, _MIDDLE - TICK, _MIDDLE) for at in upper]
    ticks += [Tick(at, _MIDDLE, _MIDDLE + TICK) for at in lower]
    words = [
        *_figures(upper, figures, flagged, _MIDDLE - TICK - 0.7),
        *_figures(lower, figures, flagged, _MIDDLE + TICK + 0.7 + _FIGURE),
    ]
    signs = [_diamond(lower[number]) for number in flagged]
    words += _wrong_words(lower, flagged)
    length = max(*upper, *lower) + _END
    return Strip(length, _HEIGHT, tuple(ticks), tuple(words), tuple(signs))


def _figures(
    places: Sequence[float], texts: Sequence[str], flagged: Sequence[int], baseline: float
) -> Iterator[StripWord]:
    """The figures that have room, those of wrong marks before all others."""
    widths = [figure_width(text, _FIGURE) for text in texts]
    order = dict.fromkeys([*flagged, 0, len(places) - 1, *range(len(places))])
    for at, text, has_room in zip(
        places, texts, clear_of_each_other(places, widths, list(order), _GAP), strict=True
    ):
        if has_room:
            yield StripWord(at, baseline, text, _FIGURE)


def _diamond(at: float) -> Sign:
    middle = _MIDDLE + TICK + _FIGURE + 2.4
    return Sign(at, ((0.0, middle - 1.1), (0.8, middle), (0.0, middle + 1.1), (-0.8, middle)))


def _wrong_words(places: Sequence[float], flagged: Sequence[int]) -> Iterator[StripWord]:
    at = [places[number] for number in flagged]
    widths = [figure_width("wrong", _WORD)] * len(at)
    for place, has_room in zip(
        at, clear_of_each_other(at, widths, range(len(at)), _GAP), strict=True
    ):
        if has_room:
            yield StripWord(place, _HEIGHT - 0.2, "wrong", _WORD)


def _draw(page: TrueSize, room: Room, y: float, strip: Strip, label: str) -> tuple[Room, float]:
    """The strip in as many tiles as it needs, each with its line and the names of its rows."""
    parts = tiles(0.0, strip.length, room.width)
    for tile in parts:
        if y + 9 + strip.height + 6 > room.bottom:
            room = page.next_page(" · continued")
            y = room.top
        part = "" if len(parts) == 1 else f" · part {tile.number + 1} of {len(parts)}"
        names = f"above the line {COMPUTED}, below it {MEASURED}"
        page.sheet.text(room.left, y + 2.2, f"{label}{part}: {names}", _SMALL, ink=DARK)
        corner = (room.left, y + 9)
        line = corner[1] + _MIDDLE
        page.sheet.line((corner[0], line), (corner[0] + tile.end - tile.begin, line))
        draw_crosses(page.sheet, strip, tile, parts, corner)
        draw_marks(page.sheet, strip, tile, corner)
        y = corner[1] + strip.height + 6
    return room, y


def _draw_enlarged(
    page: TrueSize,
    room: Room,
    y: float,
    what: tuple[Camera, Sequence[OverlayMark], ScaleUnit, Towards],
    diameter: float,
) -> None:
    """The same once more, as large as fits the page, if that is at least twice."""
    for times in _ENLARGED:
        strip = _strip(*what, times * diameter)
        if strip.length <= room.width and y + 9 + strip.height + 6 <= room.bottom:
            _draw(page, room, y, strip, f"Enlarged {times} times, not to be measured")
            return


def _table(column: Column, marks: Sequence[OverlayMark], unit: ScaleUnit, diameter: float) -> None:
    """Every mark and its difference; a diamond stands by the wrong ones."""
    sheet = column.sheet
    _cells(column, _HEADS, DARK)
    sheet.line((column.x, column.y), (column.x + _COLUMNS[-1] + 22, column.y))
    room = int((sheet.bottom - 12 - column.y) / _ROW)
    for mark in marks[:room]:
        name = f"{figure_of(mark.distance, unit)} {unit}".replace("∞ " + unit, "∞")
        off, edge = math.degrees(abs(mark.off)), abs(arc_of(mark.off, diameter))
        towards = "near end" if mark.off > 0 else "far end" if mark.off < 0 else ""
        angles = (_said_angle(mark.computed), _said_angle(mark.measured))
        amounts = (f"{off:.2f}°", f"{edge:.2f} mm", towards, mark.words)
        _cells(column, (name, *angles, *amounts), BLACK)
        if mark.is_wrong:
            x, y = column.x + _COLUMNS[-1] - 2.4, column.y - 1.5
            sheet.shape(
                [(x, y - 1.0), (x + 0.8, y), (x, y + 1.0), (x - 0.8, y)], fill=BLACK, ink=None
            )
        sheet.line((column.x, column.y), (column.x + _COLUMNS[-1] + 22, column.y), ink=PALE)
    if len(marks) > room:
        column.say(f"{len(marks) - room} more marks are on the strip only.", _FINE, ink=DARK)


def _said_angle(angle: float) -> str:
    return f"{math.degrees(angle):.2f}°".replace("-", "−")


def _cells(column: Column, cells: Sequence[str], ink: tuple[float, float, float]) -> None:
    """A row: figures end at their column's place, words begin there."""
    column.gap(_ROW)
    for place, cell in zip(_COLUMNS, cells, strict=True):
        is_figure = place < _COLUMNS[-2] - 1
        x = column.x + place
        column.sheet.text(
            x, column.y - 0.7, cell, _FINE, ink=ink, align="right" if is_figure else "left"
        )
