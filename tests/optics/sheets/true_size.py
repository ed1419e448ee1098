"""Reading true-size sheets back in mm, with another's arithmetic for where marks belong."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from optics.camera.camera import Helicoid, Turn
from optics.sheets.true_size import Signature
from tests.optics.scales.rings import OSTRIN, Engraver

MM = 25.4 / 72
SIGNED = Signature(date(2026, 3, 6), title="Ring of the Ostrin", made_by="A. Ferrow")
# The whole lens of 47 mm moves; 47 mm and its hiatus of 0.6 mm lie between it and the film.
ENGRAVER = Engraver(47.0, 47.6, 18.0)
CLOCKWISE = replace(OSTRIN, focusing=Helicoid(18.0, 6, Turn.CLOCKWISE, 52.0))
# Thickness of what is engraved, in mm: marks, the ∞ mark, depth marks, the index.
MARK, INFINITY, DEPTH, INDEX = 0.2, 0.35, 0.15, 0.3

Ends = tuple[tuple[float, float], tuple[float, float]]
HOSTILE = [
    "<b>Ostrin</b> &amp; <script>",
    "Ostrin \U0001f4f7 富",
    "Ostrin\x00\x1b[31m 35",
    "half \ud800 pair",
    r"C:\new (paren) \( %d",
    "A name without any end " * 40,
]


def lines_of(back: Any, width: float, page: int = 0) -> list[Ends]:
    """The ends of all lines of a thickness in mm."""
    return [
        tuple((float(x) * MM, float(y) * MM) for x, y in line["pts"])
        for line in back.pages[page].lines
        if abs(line["linewidth"] * MM - width) < 0.005
    ]


def uprights(
    back: Any, width: float, within: Callable[[float, float], bool], page: int = 0
) -> list[float]:
    """Where upright lines of a thickness stand whose top and bottom fulfil a condition."""
    found = []
    for (x0, y0), (x1, y1) in lines_of(back, width, page):
        if abs(x0 - x1) < 1e-6 and within(min(y0, y1), max(y0, y1)):
            found.append(x0)
    return sorted(found)


def place_of(back: Any, words: str, page: int = 0) -> tuple[float, float]:
    """Left and bottom of the first place where words stand."""
    found = back.pages[page].search(words, regex=False)[0]
    return found["x0"] * MM, found["bottom"] * MM


def angle_of(centre: tuple[float, float], point: tuple[float, float]) -> float:
    """The angle of a point about a centre, clockwise from the top, from 0 to a whole turn."""
    return math.atan2(point[0] - centre[0], centre[1] - point[1]) % math.tau
