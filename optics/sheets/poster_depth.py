"""Poster: depth of focus at the film, and depth of field before the camera."""

import math
from datetime import date

import numpy as np

from optics.camera.stops import Stops, set_stop
from optics.drawing.page import ACCENT, DARK, MID, PALE, Sheet
from optics.scales.depth_table import depth_table
from optics.sheets.poster_board import ARROW, HEAD, LABEL, LEAST, LEFT, RIGHT, WIDTH, Board, board
from optics.teaching.shelf import OSTRIN
from optics.units import format_distance

TITLE = "Depth of focus, depth of field"
_LINE = "At the film the room is N·c each way; before the lens the same room is metres."
STOPS = (2.8, 5.6, 11.0)
FOCUSED = 3000.0
_NEAREST = 1000.0
_LENS, _FILM = LEFT + 50.0, RIGHT - 70.0
# Half the rim at f/1 and the disc still sharp, as drawn; all follows from them to scale.
_RIM, _DISC = 56.0, 4.0
# Before the lens an even scale in 1/D, infinity at the right.
_SCALE_LEFT, _SCALE_RIGHT = LEFT + 30.0, RIGHT - 10.0


def poster_depth(*, made: date, page_size: str = "A3") -> Sheet:
    """Cones of light at the film for two stops, then what is sharp at three, and a table."""
    drawn = board(TITLE, _LINE, made=made, page_size=page_size)
    for stop, y in zip((STOPS[0], STOPS[-1]), (102.0, 158.0), strict=True):
        _cone(drawn, stop, y)
    drawn.paragraph(
        (LEFT, 198),
        WIDTH,
        "The cone is as slim as the stop is small; where it is no wider than c, the circle of "
        "confusion, film may lie. Drawn far too wide, to be seen.",
        LEAST,
        ink=DARK,
    )
    _field(drawn)
    _table(drawn)
    return drawn


def _used(stop: float) -> float:
    return set_stop(stop, OSTRIN.lens.full_aperture)


def _cone(drawn: Board, stop: float, y: float) -> None:
    """A cone from the lens's rim to the film and beyond, c marked where it is reached."""
    half = _RIM / _used(stop)
    room = (_FILM - _LENS) * _DISC / (2 * half)
    drawn.box((_FILM - room, y - 24), 2 * room, 48, fill=PALE, ink=None)
    drawn.line((_LENS - 10, y), (RIGHT - 4, y), width=0.35, ink=MID)
    beyond = RIGHT - 8 - _FILM
    for side in (-1, 1):
        slope = side * half / (_FILM - _LENS)
        drawn.line((_LENS, y + side * half), (_FILM + beyond, y - slope * beyond), width=0.8)
    drawn.line((_FILM, y - 24), (_FILM, y + 24), width=1.8, ink=ACCENT)
    rim = [(_LENS - 4, y), (_LENS, y - half - 2), (_LENS + 4, y), (_LENS, y + half + 2)]
    drawn.shape(rim, fill=MID, width=0.7)
    drawn.text(LEFT, y - 9, f"f/{stop:g}", HEAD, bold=True)
    for side in (-1, 1):
        x = _FILM + side * room
        drawn.line((x, y - _DISC / 2), (x, y + _DISC / 2), width=2.2)
    drawn.arrow((_FILM, y + 21), (_FILM + room, y + 21), width=0.8, head=ARROW, ink=ACCENT)
    drawn.arrow((_FILM, y + 21), (_FILM - room, y + 21), width=0.8, head=ARROW, ink=ACCENT)
    table = depth_table(OSTRIN, _used(stop), math.inf)
    each = float(table.depth_each_way[0, 0])
    drawn.text(LEFT, y + 2, f"± {each:.3f}", LABEL, bold=True, ink=ACCENT)
    drawn.text(LEFT, y + 10, "mm", LABEL, bold=True, ink=ACCENT)
    drawn.text(_FILM + room + 2, y + 9, "c", LABEL, bold=True)


def _place(distance: float) -> float:
    share = _NEAREST / distance
    return _SCALE_RIGHT - share * (_SCALE_RIGHT - _SCALE_LEFT)


def _field(drawn: Board) -> None:
    """What is sharp at each stop, as bars on a scale even in 1/D."""
    drawn.text(
        LEFT,
        227,
        f"{OSTRIN.name} ({OSTRIN.lens.focal_length:g} mm, c "
        f"{OSTRIN.circle_of_confusion:g} mm) focused at {format_distance(FOCUSED)}",
        HEAD - 5,
        bold=True,
    )
    table = depth_table(OSTRIN, np.array([_used(stop) for stop in STOPS]), FOCUSED)
    for row, stop in enumerate(STOPS):
        y = 238.0 + 12 * row
        near, far = float(table.near[row, 0]), float(table.far[row, 0])
        drawn.box((_place(near), y), _place(far) - _place(near), 7.5, fill=ACCENT, ink=None)
        drawn.text(LEFT, y + 6.2, f"f/{stop:g}", LABEL, bold=True)
    axis = 278.0
    drawn.line((_SCALE_LEFT, axis), (_SCALE_RIGHT, axis), width=0.9)
    for metres in (1, 1.5, 2, 3, 5, 10, math.inf):
        x = _place(1000 * metres)
        drawn.line((x, axis), (x, axis + 3.5), width=0.9)
        drawn.text(x, axis + 11, format_distance(1000.0 * metres), LEAST, align="middle")
    x = _place(FOCUSED)
    drawn.line((x, 234), (x, axis), width=0.8, dash=(3, 2))


def _table(drawn: Board) -> None:
    table = depth_table(OSTRIN, np.array([_used(stop) for stop in STOPS]), FOCUSED)
    rows = [["", "sharp from", "to", "hyperfocal", "at the film"]]
    for row, stop in enumerate(STOPS):
        rows.append(
            [
                f"f/{stop:g}",
                _rounded(float(table.near[row, 0])),
                _rounded(float(table.far[row, 0])),
                _rounded(float(table.hyperfocal[row])),
                f"± {float(table.depth_each_way[row, 0]):.3f} mm",
            ]
        )
    y = drawn.table((LEFT, 308), [30.0, *[(WIDTH - 30) / 4] * 4], rows)
    drawn.paragraph(
        (LEFT, y + 5),
        WIDTH,
        f"Reckoned with {Stops.EXACT.words}; blur of geometry alone. A calibrated lens keeps to "
        "half of N·c at full aperture, so that film, gate and rangefinder have the other half.",
        LEAST,
        ink=DARK,
    )


def _rounded(mm: float) -> str:
    """A limit as it is said in a class: to the centimetre."""
    return "∞" if math.isinf(mm) else f"{mm / 1000:.2f} m"
