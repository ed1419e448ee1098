"""The poster of depth of focus and of field."""

from collections.abc import Callable
from typing import Any

import pytest

from optics.sheets.poster_depth import STOPS, TITLE
from optics.teaching.shelf import OSTRIN
from tests.optics.sheets.posters_read import MM, drawn

# Wide open as engraved; the others exact, from the Dictionary of Optometry, table F1.
USED = (2.8, 5.657, 11.314)


def boxes(back: Any, height: float) -> list[tuple[float, float]]:
    """Left and right ends (mm) of the boxes of one height, from the top."""
    rects = sorted(back.pages[0].rects, key=lambda r: float(r["top"]))
    return [
        (r["x0"] * MM, r["x1"] * MM)
        for r in rects
        if (r["bottom"] - r["top"]) * MM == pytest.approx(height, abs=0.05)
    ]


def test_the_room_at_the_film_is_drawn_to_scale(read_back: Callable[[bytes], Any]) -> None:
    """From f/2.8 to f/11 the shaded room grows as the f-numbers do, and is N·c as printed."""
    back = read_back(drawn(TITLE))
    wide, slim = boxes(back, 48)
    assert (slim[1] - slim[0]) / (wide[1] - wide[0]) == pytest.approx(11.314 / 2.8, rel=1e-3)
    for printed in ("± 0.084 mm", "± 0.339 mm"):  # N·c by hand: 2.8 and 11.314 times 0.03
        assert printed in back.text


def test_bars_end_where_the_disc_is_the_circle_of_confusion(
    read_back: Callable[[bytes], Any],
) -> None:
    """Each bar, read off on its scale, ends where similar triangles at the lens give the disc c."""
    bars = boxes(read_back(drawn(TITLE)), 7.5)
    assert len(bars) == len(STOPS)
    # The scale is even in 1/D: 1 m at 52 mm and infinity at 265 mm across the sheet.
    for stop, ends in zip(USED, bars, strict=True):
        for end in ends:
            distance = 1000 / ((265 - end) / (265 - 52))
            assert disc(distance, stop) == pytest.approx(OSTRIN.circle_of_confusion, rel=0.01)


def disc(distance: float, stop: float) -> float:
    """The blur (mm) of a point, the lens focused at 3 m: a thin lens's similar triangles."""
    focal, hiatus = OSTRIN.lens.focal_length, OSTRIN.lens.hiatus
    film = focal
    for _ in range(60):  # image distance for 3 m from the film, by repeating the lens equation
        film = 1 / (1 / focal - 1 / (3000 - hiatus - film))
    image = 1 / (1 / focal - 1 / (distance - hiatus - film))
    return abs(image - film) / image * focal / stop
