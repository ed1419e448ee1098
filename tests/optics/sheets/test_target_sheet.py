"""The focusing target, read back in millimetres."""

import math
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.drawing.page import MARGIN
from optics.rangefinder.target import LINE_WIDTHS, FocusingTarget
from optics.sheets.target_sheet import target_sheet

MM = 25.4 / 72
OSTRIN = Camera("Ostrin 35", Lens(50.0, 2.8), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)


def drawn(distance: float = 1000.0, page_size: str = "A4") -> bytes:
    """The target for a loupe of four."""
    target = FocusingTarget(OSTRIN, distance, 4.0)
    return target_sheet(target, title="", made=date(2026, 3, 6), page_size=page_size).pdf()


def test_every_width_is_there_both_ways(read_back: Callable[[bytes], Any], page_size: str) -> None:
    """Each width has four bars upright and four level, and gaps as wide as the bars."""
    rects = read_back(drawn(page_size=page_size)).pages[0].rects
    boxes = [(r["x0"] * MM, r["top"] * MM, r["width"] * MM, r["height"] * MM) for r in rects]
    for width in LINE_WIDTHS:
        upright = sorted(b[0] for b in boxes if abs(b[2] - width) < 0.005 and b[3] > b[2])
        level = sorted(b[1] for b in boxes if abs(b[3] - width) < 0.005 and b[2] > b[3])
        for places in (upright, level):
            assert [p - places[0] for p in places] == pytest.approx(
                [0, 2 * width, 4 * width, 6 * width], abs=0.02
            )


def test_the_star_narrows_as_it_says(read_back: Callable[[bytes], Any]) -> None:
    """Each of 36 sectors is as wide as its gap, and 1 mm wide where the sheet says."""
    back = read_back(drawn())
    sectors = [c["pts"] for c in back.pages[0].curves if len(c["pts"]) in (4, 5)]
    centre = max((p[0] for p in sectors), key=[p[0] for p in sectors].count)
    star = [p for p in sectors if p[0] == centre]
    assert len(star) == 36
    (x0, y0), (x1, y1) = star[0][1], star[0][3]
    radius = math.hypot(x0 - centre[0], y0 - centre[1]) * MM
    chord = math.hypot(x1 - x0, y1 - y0) * MM
    assert math.asin(chord / 2 / radius) == pytest.approx(math.pi / 72, abs=1e-4)
    # The circle of 72 mm round holds 36 black and 36 white lines of 1 mm.
    assert f"1 mm wide {72 / (2 * math.pi):.1f} mm from the middle" in back.text


def test_the_target_says_which_bars_to_use(read_back: Callable[[bytes], Any]) -> None:
    """The sheet names the finest bars to be seen, or asks to come nearer."""
    # 250 mm × π/10800 / 4 = 0.0182 mm on the glass; m = 2.7864/50 at 1 m.
    text = read_back(drawn()).text
    assert "shows lines of 0.33 mm and wider: focus on the bars marked 0.35" in text
    assert "too fine there, so come nearer" in read_back(drawn(20_000)).text


def test_the_target_stays_inside_the_margins(
    read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """The target stays inside the margins of one page, its bars clear of the rulers."""
    back = read_back(drawn(page_size=page_size))
    (page,) = back.pages
    left, _, right, bottom = back.extent()
    assert left >= MARGIN - 0.2
    assert right <= float(page.width) * MM - MARGIN + 0.2
    assert bottom <= float(page.height) * MM - MARGIN + 0.2
    (up,) = [x for x in back.lines() if x[3] - x[1] == pytest.approx(100, abs=0.02)]
    assert max(r["bottom"] for r in page.rects) * MM < up[1] - 1
    assert any(x[2] - x[0] == pytest.approx(100, abs=0.02) for x in back.lines())


def test_the_same_target_has_the_same_bytes() -> None:
    """The same target and date give the same bytes."""
    assert drawn() == drawn()
