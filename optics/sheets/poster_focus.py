"""Poster: where focus error comes from, and which reading each cause disturbs."""

from datetime import date

from optics.drawing.drawing import Point
from optics.drawing.page import ACCENT, BLACK, DARK, MID, PALE, Sheet
from optics.finding.causes import IN_ORDER
from optics.readings.spots import Spot
from optics.sheets.poster_board import ARROW, HEAD, LABEL, LEAST, LEFT, RIGHT, Board, board

TITLE = "Where focus error comes from"
_LINE = "Each part has its own place in the error. Which readings agree tells which part it is."
_HEADS = {
    Spot.GAUGE: ("depth", "gauge"),
    Spot.STOP: ("the", "stop"),
    Spot.INFINITY: ("the ∞", "mark"),
    Spot.NEAR: ("a near", "mark"),
    Spot.COINCIDENCE: ("range-", "finder"),
    Spot.GATE: ("film", "gate"),
}
_AXIS, _FILM, _SEAT, _LENS = 122.0, 58.0, 138.0, 190.0
_FIRST, _ROW = 262.0, 11.4
_COLUMN = 24.0
_TABLE = RIGHT - _COLUMN * len(_HEADS)


def poster_focus(*, made: date, page_size: str = "A3") -> Sheet:
    """A section through a camera with its sources of error numbered, over the evidence table."""
    drawn = board(TITLE, _LINE, made=made, page_size=page_size)
    _camera(drawn)
    _labels(drawn)
    _evidence(drawn)
    return drawn


def _camera(drawn: Board) -> None:
    """Film, gate, seat with shim, helicoid, ring, stop and lens, from the left."""
    drawn.line((LEFT, _AXIS), (RIGHT, _AXIS), width=0.4, ink=MID)
    drawn.box((_FILM - 5, _AXIS - 30), 3.0, 60, fill=MID, ink=None)
    drawn.line((_FILM, _AXIS - 28), (_FILM, _AXIS + 28), width=1.8, ink=ACCENT)
    for side in (-1, 1):
        _half(drawn, side)
    drawn.shape(_lens_outline(), fill=PALE, width=0.7)
    drawn.shape([(_LENS + 20, _AXIS), (RIGHT - 30, _AXIS - 14), (RIGHT - 30, _AXIS + 14)], ink=None)
    for edge in (-15.0, 15.0):
        drawn.line((_LENS, _AXIS + edge), (_FILM, _AXIS), width=0.5, ink=DARK)
        drawn.line((_LENS, _AXIS + edge), (RIGHT, _AXIS + edge), width=0.5, ink=DARK)


def _half(drawn: Board, side: int) -> None:
    """What stands above and below the axis alike."""

    def box(x: float, inner: float, width: float, height: float, shade: bool = False) -> None:
        top = _AXIS + (inner if side > 0 else -inner - height)
        drawn.box((x, top), width, height, fill=MID if shade else PALE, line=0.7)

    box(_FILM + 1.5, 30, _SEAT - _FILM - 3.5, 6)
    box(_SEAT - 2, 20, 2.0, 16, shade=True)
    box(_SEAT, 20, 6, 16)
    box(_SEAT + 6, 22, 40, 5)
    box(_SEAT + 20, 16, 40, 5.4)
    box(_SEAT + 40, 27.5, 14, 5)
    box(_SEAT + 14, 28, 6, 6, shade=True)
    for step in range(6):
        x = _SEAT + 22 + 4 * step
        drawn.line((x, _AXIS + side * 21), (x + 2, _AXIS + side * 23.5), width=0.6)


def _lens_outline() -> list[Point]:
    right = [(_LENS + 5 - 0.022 * y * y, _AXIS + y) for y in range(-15, 16)]
    left = [(_LENS - 5 + 0.022 * y * y, _AXIS + y) for y in range(15, -16, -1)]
    return [*right, *left]


def _labels(drawn: Board) -> None:
    """Numbers at the parts, in the order of the table, and the register's dimension."""
    places = {
        1: ((_FILM, _AXIS - 28), (_FILM - 12, _AXIS - 45)),
        2: ((_SEAT + 3, _AXIS - 36), (_SEAT - 16, _AXIS - 45)),
        3: ((_SEAT - 1, _AXIS + 36), (_SEAT - 12, _AXIS + 48)),
        4: ((_SEAT + 30, _AXIS - 23), (_SEAT + 32, _AXIS - 45)),
        5: ((_SEAT + 17, _AXIS + 34), (_SEAT + 17, _AXIS + 48)),
        6: ((_SEAT + 48, _AXIS + 33), (_SEAT + 54, _AXIS + 48)),
        7: ((_LENS, _AXIS - 15), (_LENS + 14, _AXIS - 45)),
    }
    for number, (part, disc) in places.items():
        drawn.line(part, disc, width=0.6, ink=ACCENT)
        drawn.number(disc, number)
    y = _AXIS + 60
    for x in (_FILM, _SEAT):
        drawn.line((x, _AXIS + 38), (x, y + 3), width=0.4, ink=DARK)
    drawn.arrow((_FILM, y), (_SEAT, y), width=0.8, head=ARROW, both=True)
    middle = (_FILM + _SEAT) / 2
    drawn.text(middle, y - 3, "register", LABEL, bold=True, align="middle")
    y = _AXIS + 78
    drawn.arrow((_LENS, y), (_LENS - 30, y), width=1.4, head=ARROW, ink=ACCENT)
    drawn.arrow((_LENS, y), (_LENS + 30, y), width=1.4, head=ARROW, ink=ACCENT)
    drawn.text(_LENS - 33, y + 2.4, "− too far in", LABEL, bold=True, align="right")
    drawn.text(_LENS + 33, y + 2.4, "+ too far out", LABEL, bold=True)


def _evidence(drawn: Board) -> None:
    """Which cause disturbs which reading; a filled disc where it does."""
    drawn.text(LEFT, _FIRST - 34, "Which reading feels it", HEAD, bold=True)
    for column, (upper, lower) in enumerate(_HEADS.values()):
        x = _TABLE + _COLUMN * (column + 0.5)
        drawn.text(x, _FIRST - 19, upper, LEAST, bold=True, ink=DARK, align="middle")
        drawn.text(x, _FIRST - 12, lower, LEAST, bold=True, ink=DARK, align="middle")
    for row, cause in enumerate(IN_ORDER):
        y = _FIRST + _ROW * row
        drawn.line((LEFT, y - 0.68 * _ROW), (RIGHT, y - 0.68 * _ROW), width=0.35, ink=MID)
        words = cause.words
        drawn.number((LEFT + 5.2, y - 2.4), row + 1)
        drawn.text(LEFT + 13, y, words, LEAST, bold=True)
        for column, spot in enumerate(_HEADS):
            centre = (_TABLE + _COLUMN * (column + 0.5), y - 2.4)
            if spot in cause.spots:
                drawn.circle(centre, 3.4, fill=BLACK, ink=None)
    y = _FIRST + _ROW * len(IN_ORDER) + 1
    drawn.paragraph(
        (LEFT, y),
        RIGHT - LEFT,
        "1 shows on film only, 2 off the centre only; 8 and 9 sit in the rangefinder. Where rows "
        "are alike, take a reading that parts them first.",
        LEAST,
        ink=DARK,
    )
