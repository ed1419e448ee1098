"""A pocket card of depth of field at true size: two faces, to cut out and fold."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optics.camera.stops import Stops
from optics.drawing.column import Column
from optics.drawing.drawing import Point
from optics.drawing.lettering import MM_PER_POINT, text_width, wrapped
from optics.drawing.page import DARK, MID, PALE, Sheet
from optics.errors import OutOfRange
from optics.readings.wording import said_camera
from optics.scales import depth_wording
from optics.scales.depth_table import DepthTable, MeasuredFrom
from optics.scales.engraving import ScaleUnit, figure_of, table_figure
from optics.scales.layout_wording import depth_source_line
from optics.sheets.true_size import Room, Signature, TrueSize, check_between, true_size
from optics.units.printing import trimmed

CARD = (85.0, 54.0)
"""The size of an everyday card in mm, common practice."""
SMALLEST, LARGEST = 4.8, 7.6
_COMFORTABLE = 5.6
_PAD, _LEADING, _GAP = 2.4, 1.28, 1.5
_TITLE, _FINE, _NOTE = 6.6, 4.8, 6.8
_HEAD, _FOOT = 3.6, 2.4
_DASH = "–"
_CALLED = {MeasuredFrom.FILM: "from the film", MeasuredFrom.LENS: "from the lens"}
_ACROSS = ("focus", "∞ sharp at", "and from")


@dataclass(frozen=True)
class _Cell:
    """Two figures either side of a dash, or one alone."""

    near: str
    far: str = ""


@dataclass(frozen=True)
class _Face:
    """A face's table: its stops across, a line for every distance, and the hyperfocal lines."""

    heads: tuple[str, ...]
    labels: tuple[str, ...]
    lines: tuple[tuple[_Cell, ...], ...]
    hyperfocal: tuple[tuple[_Cell, ...], ...]

    @property
    def rows(self) -> int:
        """Lines of type in all."""
        return 1 + len(self.lines) + len(self.hyperfocal)


def depth_card(
    table: DepthTable,
    stop_names: Sequence[str],
    signature: Signature,
    *,
    stops: Stops = Stops.EXACT,
    unit: ScaleUnit = ScaleUnit.METRES,
    size: tuple[float, float] = CARD,
) -> Sheet:
    """Near and far limits for the stops and distances of a table, on a card of a size in mm.

    `stop_names` are the stops as engraved and `stops` says which f-numbers the table has; the
    card states it, with the circle of confusion and where distances begin. Below the distances
    stand the hyperfocal distance and from where on it is then sharp. Stops that do not fit one
    face are shared with the back, which else explains the card.
    Errors: OutOfRange for a table that no legible type brings onto the card.
    """
    check_between("card's width", size[0], 50.0, 170.0)
    check_between("card's height", size[1], 35.0, 100.0)
    conventions = depth_wording.conventions_line(table)
    page = true_size(
        table.camera, signature, "Depth-of-field card, true size", conventions, max(size)
    )
    room = page.page()
    _explain(room.words, table, stops, unit)
    beside = 2 * size[0] <= room.width
    across = size[0] * (2 if beside else 1)
    corner = (room.left + (room.width - across) / 2, room.top + 8)
    other = (corner[0] + size[0], corner[1]) if beside else (corner[0], corner[1] + size[1])
    _refuse_too_high(room, other[1] + size[1])
    _draw_edges(page.sheet, corner, other, size)
    faces = _faces(table, stop_names, unit, size)
    points = min(_type_size(face, size) for face in faces)
    for face, at in zip(faces, (corner, other), strict=False):
        _draw_face(page, table, face, at, size, (stops, unit, signature), points)
    if len(faces) == 1:
        _draw_about(page, table, other, size, (stops, unit, signature))
    return page.sheet


def _refuse_too_high(room: Room, end: float) -> None:
    if end > room.bottom:
        raise OutOfRange(
            f"The card must end {end - room.bottom:.0f} mm higher to leave room for the rulers; "
            "choose a lower card, or one narrow enough to stand beside its back.",
            quantity="card's height",
        )


def _faces(
    table: DepthTable, names: Sequence[str], unit: ScaleUnit, size: tuple[float, float]
) -> list[_Face]:
    whole = _face(table, names, unit, range(len(names)))
    if _type_size(whole, size) >= _COMFORTABLE or len(names) == 1:
        _refuse_illegible(whole, size)
        return [whole]
    half = (len(names) + 1) // 2
    halves = [_face(table, names, unit, part) for part in (range(half), range(half, len(names)))]
    for face in halves:
        _refuse_illegible(face, size)
    return halves


def _face(table: DepthTable, names: Sequence[str], unit: ScaleUnit, part: Sequence[int]) -> _Face:
    def said(distance: float) -> str:
        return table_figure(float(distance), unit)

    return _Face(
        heads=tuple(names[row] for row in part),
        labels=tuple(_label(float(distance), unit) for distance in table.distances),
        lines=tuple(
            tuple(_Cell(said(table.near[row, at]), said(table.far[row, at])) for row in part)
            for at in range(len(table.distances))
        ),
        hyperfocal=(
            tuple(_Cell(said(table.hyperfocal[row])) for row in part),
            tuple(_Cell(said(table.near_at_hyperfocal[row])) for row in part),
        ),
    )


def _label(distance: float, unit: ScaleUnit) -> str:
    exact = figure_of(distance, unit)
    return exact if len(exact) <= 4 else table_figure(distance, unit)


def _type_size(face: _Face, size: tuple[float, float]) -> float:
    """The largest type at which a face holds its table; widths and heights grow with it."""
    room = size[1] - 2 * _PAD - _HEAD - _FOOT
    by_height = room / (face.rows * _LEADING * MM_PER_POINT)
    by_width = (size[0] - 2 * _PAD) / sum(_widths(face, 1.0))
    return min(by_height, by_width, LARGEST)


def _refuse_illegible(face: _Face, size: tuple[float, float]) -> None:
    found = _type_size(face, size)
    if found < SMALLEST:
        raise OutOfRange(
            f"The type on the card must be at least {SMALLEST} points: {len(face.lines)} distances "
            f"by {len(face.heads)} stops leave {found:.1f}; choose fewer, or a larger card.",
            quantity="type size",
            value=found,
            limit=SMALLEST,
        )


def _halves(face: _Face, column: int, size: float) -> tuple[float, float]:
    """The room a column takes on either side of its dash, in mm."""
    cells = [line[column] for line in face.lines]
    left = max(text_width(cell.near, size) for cell in cells)
    right = max(text_width(cell.far, size) for cell in cells)
    alone = [face.heads[column], *(line[column].near for line in face.hyperfocal)]
    spare = max(text_width(word, size, True) for word in alone) - left - right
    more = max(0.0, spare - text_width(_DASH, size)) / 2
    return left + more, right + more


def _widths(face: _Face, size: float) -> list[float]:
    """Each column's width in mm, the gap before it in it."""
    first = max(text_width(word, size, True) for word in (*face.labels, *_ACROSS))
    dash, gap = text_width(_DASH, size), _GAP * size * MM_PER_POINT
    return [first, *(sum(_halves(face, i, size)) + dash + gap for i in range(len(face.heads)))]


def _draw_edges(sheet: Sheet, corner: Point, other: Point, size: tuple[float, float]) -> None:
    """The line to cut along and the line to fold at."""
    (x, y), across = corner, other[0] + size[0] - corner[0]
    sheet.box(corner, across, other[1] + size[1] - y, ink=DARK)
    if other[1] == y:
        sheet.line((other[0], y - 4), (other[0], y + size[1] + 4), ink=DARK, dash=(1.5, 1))
        sheet.text(other[0], y - 5, "fold back", 5.8, ink=DARK, align="middle")
    else:
        sheet.line((x - 4, other[1]), (x + across + 4, other[1]), ink=DARK, dash=(1.5, 1))
        sheet.text(x - 5, other[1], "fold back", 5.8, ink=DARK, align="middle", turned=90)
    sheet.text(x, y - 1.2, "cut", 5.8, ink=DARK)


def _draw_face(
    page: TrueSize,
    table: DepthTable,
    face: _Face,
    corner: Point,
    size: tuple[float, float],
    said: tuple[Stops, ScaleUnit, Signature],
    points: float,
) -> None:
    sheet = page.sheet
    x, y = corner[0] + _PAD, corner[1] + _PAD
    _draw_title(sheet, table, (x, y), size[0] - 2 * _PAD, said[1])
    widths = _widths(face, points)
    spare = (size[0] - 2 * _PAD - sum(widths)) / max(1, len(face.heads))
    line = (size[1] - 2 * _PAD - _HEAD - _FOOT) / face.rows
    line = min(line, 1.7 * points * MM_PER_POINT)
    middles = []
    at = x + widths[0]
    for column, width in enumerate(widths[1:]):
        at += width + spare
        middles.append(at - _halves(face, column, points)[1] - text_width(_DASH, points) / 2)
    y += _HEAD
    ends = (x, corner[0] + size[0] - _PAD)
    for number, (label, cells) in enumerate(_lines(face)):
        y += line
        is_head = number == 0
        sheet.text(x, y, label, points, bold=True)
        for column, (middle, cell) in enumerate(zip(middles, cells, strict=True)):
            _draw_cell(sheet, face, column, (middle, y), cell, points, is_bold=is_head)
        rule = y + line * 0.3
        last = number in (0, len(face.lines))
        sheet.line((ends[0], rule), (ends[1], rule), ink=DARK if last else PALE)
    foot = corner[1] + size[1] - _PAD + 0.6
    sheet.text(x, foot, _foot(table, said), _FINE, ink=DARK)


def _lines(face: _Face) -> Iterator[tuple[str, tuple[_Cell, ...]]]:
    yield _ACROSS[0], tuple(_Cell(head) for head in face.heads)
    yield from zip(face.labels, face.lines, strict=True)
    yield from zip(_ACROSS[1:], face.hyperfocal, strict=True)


def _draw_cell(
    sheet: Sheet,
    face: _Face,
    column: int,
    at: Point,
    cell: _Cell,
    points: float,
    *,
    is_bold: bool,
) -> None:
    """Near and far with their dashes under each other; what stands alone, in the middle."""
    x, y = at
    if not cell.far:
        left, right = _halves(face, column, points)
        sheet.text(x + (right - left) / 2, y, cell.near, points, bold=is_bold, align="middle")
        return
    half = text_width(_DASH, points) / 2
    sheet.text(x - half, y, cell.near, points, align="right")
    sheet.text(x, y, _DASH, points, ink=MID, align="middle")
    sheet.text(x + half, y, cell.far, points)


def _draw_title(sheet: Sheet, table: DepthTable, at: Point, width: float, unit: ScaleUnit) -> None:
    begin = f"{unit.words} {_CALLED[table.measured_from]}"
    name = table.camera.name.strip() or f"{table.camera.lens.focal_length:g} mm"
    (shown,) = wrapped(name, width - text_width(begin, _FINE) - 2, _TITLE, True, most=1)
    sheet.text(at[0], at[1] + 1.8, shown, _TITLE, bold=True)
    sheet.text(at[0] + width, at[1] + 1.8, begin, _FINE, ink=DARK, align="right")


def _foot(table: DepthTable, said: tuple[Stops, ScaleUnit, Signature]) -> str:
    stops, _, signature = said
    return (
        f"{table.camera.lens.focal_length:g} mm · circle of confusion "
        f"{trimmed(table.circle_of_confusion, 4)} mm · {stops.value} stops · "
        f"{signature.made.isoformat()}"
    )


def _draw_about(
    page: TrueSize,
    table: DepthTable,
    corner: Point,
    size: tuple[float, float],
    said: tuple[Stops, ScaleUnit, Signature],
) -> None:
    """The back of a card whose table fits on the front: what it means and rests on."""
    sheet, width = page.sheet, size[0] - 2 * _PAD
    _draw_title(sheet, table, (corner[0] + _PAD, corner[1] + _PAD), width, said[1])
    column = Column(sheet, corner[0] + _PAD, corner[1] + _PAD + _HEAD, width)
    for line in (said_camera(table.camera), *_meaning(table, *said[:2])):
        column.say(line, 6.0)
        column.gap(0.6)
    foot = corner[1] + size[1] - _PAD + 0.6
    sheet.text(corner[0] + _PAD, foot, _foot(table, said), _FINE, ink=DARK)


def _meaning(table: DepthTable, stops: Stops, unit: ScaleUnit) -> Iterator[str]:
    yield f"Sharp from – to, focused at the distance in the first column, in {unit.words}."
    yield f"“{_ACROSS[1]}”: focused there, all is sharp from the distance under it to ∞."
    yield f"Reckoned with {stops.words}."
    yield depth_wording.conventions_line(table)


def _explain(words: Column, table: DepthTable, stops: Stops, unit: ScaleUnit) -> None:
    for line in _meaning(table, stops, unit):
        words.say(line, _NOTE, hang=2)
    words.say("Cut along the outline, fold back at the dashed line, and glue.", _NOTE, hang=2)
    words.say(depth_source_line(table.camera), _NOTE, hang=2)
