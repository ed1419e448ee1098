"""Poster: the unrolled six-start thread, and what one start is worth."""

import math
from datetime import date

from optics.body.witness.thread import Thread
from optics.camera.true_lens import pitch_of
from optics.drawing.page import ACCENT, BLACK, DARK, MID, PALE, Sheet
from optics.sheets.poster_board import (
    ARROW,
    HEAD,
    LABEL,
    LEAST,
    LEFT,
    RIGHT,
    TEXT,
    WIDTH,
    Board,
    board,
)
from optics.teaching.shelf import LEAD, OSTRIN, STARTS

TITLE = "Which start? A thread unrolled"
_LINE = "A helicoid goes together in as many places as it has starts. Only one of them is right."
_X0, _X1 = LEFT + 26.0, RIGHT - 28.0
_FOOT, _HEIGHT = 232.0, 150.0
# The window on the thread: so many mm along the axis.
_SHOWN = LEAD * 1.25


def poster_starts(*, made: date, page_size: str = "A3") -> Sheet:
    """The thread laid flat, one start in colour, over a table of every wrong start."""
    drawn = board(TITLE, _LINE, made=made, page_size=page_size)
    _threads(drawn)
    _dimensions(drawn)
    _worth(drawn)
    return drawn


def _at(turn: float, along: float) -> tuple[float, float]:
    """A place on the unrolled barrel: part of a turn, and mm along the axis."""
    return _X0 + turn * (_X1 - _X0), _FOOT - along / _SHOWN * _HEIGHT


def _threads(drawn: Board) -> None:
    pitch = pitch_of(OSTRIN)
    drawn.box((_X0, _FOOT - _HEIGHT), _X1 - _X0, _HEIGHT, fill=(0.965, 0.965, 0.965), line=0.7)
    for sixth in range(STARTS + 1):
        x, _ = _at(sixth / STARTS, 0)
        drawn.line((x, _FOOT), (x, _FOOT - _HEIGHT), width=0.3, ink=PALE)
        drawn.line((x, _FOOT), (x, _FOOT + 3), width=0.7)
        drawn.text(x, _FOOT + 10, f"{360 * sixth // STARTS}°", LEAST, align="middle")
    for start in range(-STARTS, STARTS + 2):
        ends = _clipped(start * pitch)
        if ends:
            is_one = start in (0, -STARTS, STARTS)
            drawn.line(
                _at(*ends[0]),
                _at(*ends[1]),
                width=2.6 if is_one else 1.3,
                ink=ACCENT if is_one else MID,
            )
    drawn.text((_X0 + _X1) / 2, _FOOT + 20, "once round the barrel", LABEL, align="middle")


def _clipped(foot: float) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The part of a thread inside the window, from turn 0 to 1."""
    begin = max(0.0, -foot / LEAD)
    end = min(1.0, (_SHOWN - foot) / LEAD)
    return ((begin, foot + begin * LEAD), (end, foot + end * LEAD)) if begin < end else None


def _dimensions(drawn: Board) -> None:
    """Pitch at the left edge and lead at the right, and where each start enters."""
    pitch = pitch_of(OSTRIN)
    low, high = _at(0, 2 * pitch)[1], _at(0, 3 * pitch)[1]
    for y in (low, high):
        drawn.line((_X0 - 16, y), (_X0, y), width=0.4, ink=DARK)
    drawn.arrow((_X0 - 8, low), (_X0 - 8, high), width=0.9, head=ARROW, both=True)
    drawn.text(_X0 - 19, (low + high) / 2 + 3, "P", TEXT, bold=True, align="middle")
    bottom, top = _at(1, 0)[1], _at(1, LEAD)[1]
    for y in (bottom, top):
        drawn.line((_X1, y), (_X1 + 16, y), width=0.4, ink=DARK)
    drawn.arrow((_X1 + 8, bottom), (_X1 + 8, top), width=0.9, head=ARROW, both=True)
    drawn.text(_X1 + 19, (bottom + top) / 2 + 3, "L", TEXT, bold=True, align="middle")


def _worth(drawn: Board) -> None:
    pitch, thread = pitch_of(OSTRIN), Thread.of(OSTRIN)
    ring = math.degrees(abs(thread.entry_turn(1)))
    y = 270.0
    drawn.text(
        LEFT,
        y,
        f"{OSTRIN.name}: lead L {LEAD:g} mm, {STARTS} starts, pitch P {pitch:g} mm",
        HEAD - 3,
        bold=True,
    )
    y = drawn.paragraph(
        (LEFT, y + 12),
        WIDTH,
        f"One start wrong moves the lens {pitch:.2f} mm, as much as {ring:.0f}° of ring. The depth "
        f"of focus at f/{OSTRIN.lens.full_aperture:g} is ± {OSTRIN.depth_of_focus:.3f} mm: no shim "
        "cures that, and none should.",
    )
    moved = [k for k in thread.starts_to_try() if k and k > -STARTS // 2]
    rows = [
        ["starts moved out", *(_signed(k, 0) for k in moved)],
        ["lens, mm", *(_signed(k * pitch, 2) for k in moved)],
        ["as ring turn, °", *(_signed(k * ring, 0) for k in moved)],
    ]
    y = drawn.table((LEFT, y + 6), [70.0, *[(WIDTH - 70) / len(moved)] * len(moved)], rows)
    drawn.paragraph(
        (LEFT, y + 5),
        WIDTH,
        "Before parting: scribe where the thread lets go, and note the ring. A shift of whole "
        "pitches is a start, tenths of a mm a slipped ring, hundredths to tenths a shim.",
        LEAST + 1,
        ink=BLACK,
    )


def _signed(value: float, places: int) -> str:
    return f"{value:+.{places}f}".replace("-", "−")
