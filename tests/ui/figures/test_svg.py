"""The strokes: where an arrow points, and that writing stays writing."""

import math

import pytest

from tests.ui.figures.drawn import corners, image_of, of_kind, strokes, texts
from ui.figures import svg
from ui.theme import DAY, NIGHT


@pytest.mark.parametrize("end", [(30.0, 0.0), (-30.0, 0.0), (0.0, 30.0), (18.0, -24.0)])
def test_arrow_points_at_its_end(end: tuple[float, float]) -> None:
    """The tip lies at the end, and the head's other corners lie behind it, evenly."""
    root = strokes(svg.picture((100, 100), "", [svg.arrow((0, 0), end, "error")]))
    (head,) = of_kind(root, "polygon", "error filled")
    tip, *base = corners(head)
    assert tip == pytest.approx(end, abs=0.01)
    behind = [(tip[0] - x) * end[0] + (tip[1] - y) * end[1] for x, y in base]
    assert behind == pytest.approx([7 * math.hypot(*end)] * 2, rel=0.01)
    assert math.dist(tip, base[0]) == pytest.approx(math.dist(tip, base[1]), abs=0.01)


def test_arrow_of_no_length_is_drawn_all_the_same() -> None:
    """An arrow from a point to itself has no direction and must not stop the page."""
    assert "polygon" in svg.arrow((5, 5), (5, 5), "error")


def test_writing_cannot_become_a_stroke() -> None:
    """Words with markup in them are drawn as they are, and the title too."""
    hostile = '</text><image href="x"/> & "quoted" <script>'
    drawing = svg.picture((10, 10), hostile, [svg.text((1, 2), hostile)])
    root = strokes(drawing)
    assert texts(root) == [hostile]
    assert image_of(drawing)["alt"] == hostile
    assert of_kind(root, "image", "") == []


def test_drawing_carries_both_palettes() -> None:
    """The image holds every colour of day and of night, so it can follow the scheme."""
    style = next(strokes(svg.picture((1, 1), "", [])).iter("{http://www.w3.org/2000/svg}style"))
    day, night = (style.text or "").split("@media (prefers-color-scheme: dark)")
    assert all(colour in day for colour in vars(DAY).values())
    assert all(colour in night for colour in vars(NIGHT).values())
