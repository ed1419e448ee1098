"""Poster: the rangefinder's triangle, zero and gain, and the error a straight coupling leaves."""

import math
from collections.abc import Callable
from datetime import date

import numpy as np

from optics.drawing.drawing import Point
from optics.drawing.page import ACCENT, DARK, MID, PALE, Sheet
from optics.rangefinder.acuity import WORKING
from optics.rangefinder.curve import ErrorCurve, curve
from optics.rangefinder.near_setting import NearAdvice, where_to_set
from optics.sheets.poster_board import ARROW, HEAD, LABEL, LEAST, LEFT, RIGHT, WIDTH, Board, board
from optics.teaching.shelf import FINDERS
from optics.units import format_distance

TITLE = "The coupled rangefinder"
_LINE = "Zero moves the whole curve, gain tilts it. Set right at two distances, it errs between."
FINDER = FINDERS[0]
_LEFT, _RIGHT = LEFT + 30.0, RIGHT - 6.0
_TOP, _FOOT = 238.0, 322.0


def poster_rangefinder(*, made: date, page_size: str = "A3") -> Sheet:
    """The triangle with its figures, the two adjusters, and the coupling's error curve."""
    drawn = board(TITLE, _LINE, made=made, page_size=page_size)
    _triangle(drawn)
    _adjusters(drawn)
    advice = where_to_set(FINDER.camera, FINDER.rangefinder, FINDER.near_end)
    _plot(drawn, advice)
    _said(drawn, advice)
    return drawn


def _triangle(drawn: Board) -> None:
    """Base, windows, subject, the angle of convergence and the mirror that turns by half."""
    left, base, subject = LEFT + 34.0, 48.0, LEFT + 190.0
    y0, y1 = 84.0, 84.0 + base
    drawn.line((left, y0), (subject + 20, y0), width=0.8)
    drawn.line((left, y1), (subject, y0), width=1.6, ink=ACCENT)
    drawn.line((left, y1), (left, y0), width=0.5, ink=MID)
    for y, tip in ((y0, 45.0), (y1, 36.0)):
        dx, dy = (7 * f(math.radians(tip)) for f in (math.cos, math.sin))
        drawn.line((left - dx, y + dy), (left + dx, y - dy), width=2.2)
    drawn.circle((subject, y0), 3.2, fill=ACCENT, ink=None)
    drawn.text(subject - 4, y0 - 6, "subject", LABEL, bold=True, align="middle")
    drawn.arrow((left - 17, y0), (left - 17, y1), width=0.8, head=ARROW, both=True)
    finder = FINDER.rangefinder
    drawn.text(left - 21, (y0 + y1) / 2, "b", HEAD, bold=True, align="right")
    drawn.text(subject - 62, y0 + 9.5, "γ", HEAD, bold=True)
    near = FINDER.near_end
    angle = finder.convergence(near)
    mirror = finder.compensator_movement(angle)
    x, y = LEFT + 146.0, y1 - 8
    for text in (
        f"base b {finder.base:g} mm",
        f"at {format_distance(near)}: γ {math.degrees(angle):.2f}°",
        f"mirror turns γ/2: {math.degrees(mirror):.2f}°",
    ):
        drawn.text(x, y, text, LABEL, bold=True)
        y += 9
    drawn.text(left - 12, y1 + 15, "the moving mirror", LEAST, ink=DARK)


def _adjusters(drawn: Board) -> None:
    """What zero and gain do, in two small curves."""
    for x, title, words, is_gain in (
        (LEFT, "Zero: at ∞", "the same angle at every distance", False),
        (LEFT + 132, "Gain: at the near mark", "more, the nearer the subject", True),
    ):
        drawn.text(x, 175, title, HEAD - 4, bold=True)
        drawn.text(x, 184, words, LEAST, ink=DARK)
        drawn.line((x, 212), (x + 104, 212), width=0.6)
        high = 194.0
        drawn.line((x, 212 if is_gain else high), (x + 104, high), width=2.0, ink=ACCENT)
        drawn.arrow(
            (x + 92, 211),
            (x + 92, high + 4 if is_gain else high + 1),
            width=0.9,
            head=ARROW,
        )
        drawn.text(x, 220, "∞", LEAST, ink=DARK)
        drawn.text(x + 104, 220, "near", LEAST, ink=DARK, align="right")


def _plot(drawn: Board, advice: NearAdvice) -> None:
    """Film error against 1/D for the usual setting and for the best near setting."""
    camera, finder = FINDER.camera, FINDER.rangefinder
    couplings = {"usual": advice.usual.coupling, "best": advice.best_near.coupling}
    found = curve(camera, finder, couplings, FINDER.near_end, WORKING)
    high = 1.15 * float(found.band.max())
    middle = (_TOP + _FOOT) / 2

    def at(per_metre: float, error: float) -> Point:
        share = per_metre / float(found.per_metre[-1])
        return _LEFT + share * (_RIGHT - _LEFT), middle - error / high * (_FOOT - _TOP) / 2

    _band(drawn, found, at)
    drawn.line((_LEFT, middle), (_RIGHT, middle), width=0.6)
    for name, width, ink in (("best", 1.2, DARK), ("usual", 2.4, ACCENT)):
        points = [
            at(float(p), float(e)) for p, e in zip(found.per_metre, found.errors[name], strict=True)
        ]
        drawn.shape(points, ink=ink, width=width, closed=False)
    for metres in (math.inf, 5, 3, 2, 1.5, 1.2, 0.9):
        x, _ = at(1 / metres, 0)
        drawn.line((x, _FOOT), (x, _FOOT + 3), width=0.7)
        said = "∞" if math.isinf(metres) else f"{metres:g}"
        drawn.text(x, _FOOT + 10, said, LEAST, align="middle")
    drawn.text(_RIGHT, _TOP - 2, "lens too far out ↑", LEAST, ink=DARK, align="right")
    step = 0.05
    for error in np.arange(-step, 1.5 * step, step):
        _, y = at(0, float(error))
        drawn.line((_LEFT - 3, y), (_LEFT, y), width=0.7)
        label = f"{error:+.2f}".replace("-", "−") if abs(error) > step / 2 else "0"
        drawn.text(_LEFT - 5, y + 2.2, label, LEAST, align="right")


def _band(drawn: Board, found: ErrorCurve, at: Callable[[float, float], Point]) -> None:
    """The depth of focus each way, shaded."""
    upper = [at(float(p), float(b)) for p, b in zip(found.per_metre, found.band, strict=True)]
    lower = [at(float(p), -float(b)) for p, b in zip(found.per_metre, found.band, strict=True)]
    drawn.shape([*upper, *reversed(lower)], fill=PALE, ink=None)


def _said(drawn: Board, advice: NearAdvice) -> None:
    usual, best = advice.usual, advice.best_near
    camera, reset = FINDER.camera, format_distance(round(best.exact_at[-1], -1))
    drawn.text(_LEFT, _TOP - 2, f"{camera.name}: error at the film, mm", LABEL, bold=True)
    drawn.text(
        (_LEFT + _RIGHT) / 2,
        _FOOT + 19,
        "subject's distance from the film, m",
        LEAST,
        ink=DARK,
        align="middle",
    )
    drawn.paragraph(
        (LEFT, _FOOT + 30),
        WIDTH,
        f"Set exact at ∞ and {format_distance(advice.near)} (thick), it errs by up to "
        f"{usual.worst:.3f} mm. Set exact at ∞ and {reset} (thin) "
        f"it errs by {best.worst:.3f} mm at most. Grey: the depth of focus at "
        f"f/{camera.lens.full_aperture:g}. Height first, then zero, then gain, then zero again.",
        LEAST + 1,
    )
