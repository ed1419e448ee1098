"""Posters read back: words with their boxes in mm, and what may not lie on what."""

from datetime import date
from itertools import combinations
from typing import Any

from optics.sheets.posters import poster

MADE = date(2026, 3, 6)
MM = 25.4 / 72


def drawn(title: str, page_size: str = "A3") -> bytes:
    """A poster as PDF."""
    return poster(title, made=MADE, page_size=page_size).pdf()


def overlapping(back: Any) -> list[tuple[str, str]]:
    """Pairs of words whose letters share room on the paper."""
    boxes = back.words()
    shrunk = [
        (w, x0 + 0.2, y0 + 0.12 * (y1 - y0), x1 - 0.2, y1 - 0.1 * (y1 - y0))
        for w, x0, y0, x1, y1 in boxes
    ]
    return [
        (a[0], b[0])
        for a, b in combinations(shrunk, 2)
        if a[1] < b[3] and b[1] < a[3] and a[2] < b[4] and b[2] < a[4]
    ]


def smallest_capital(back: Any, above: float) -> float:
    """The least height of a capital (mm) of all type above a place on the page."""
    sizes = [c["size"] for c in back.pages[0].chars if c["top"] * MM < above]
    # Capitals of the embedded type are 0.729 of its size (its own table says 1493 of 2048).
    return float(min(sizes)) * MM * 1493 / 2048
