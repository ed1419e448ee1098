"""The drawing's geometry: which side the lens is off, which way the ring turns and how far."""

import math
import re
from xml.etree import ElementTree

import pytest

from optics.drawing.lettering import MM_PER_POINT, text_width
from optics.readings.correction import Correction
from optics.readings.remedies import Remedy
from tests.ui.figures.drawn import SVG, arc_of, corners, image_of, of_kind, strokes, texts
from tests.ui.solved import correction
from ui.figures.focus_drawing import side_view, turn_drawing, turn_view


def x_of(path: ElementTree.Element) -> float:
    """Return where a lens stands along the axis."""
    found = re.match(r"M([\d.]+)", path.get("d", ""))
    assert found
    return float(found[1])


def ring_of(answer: Correction) -> Remedy:
    """Return the remedy at the focusing ring."""
    return next(r for r in answer.remedies if r.kind == "ring")


@pytest.mark.parametrize(("error", "side"), [(0.2, -1), (-0.2, 1), (40.0, -1), (-0.001, 1)])
def test_lens_is_drawn_on_the_side_it_is_off(error: float, side: int) -> None:
    """With the film to the right, too far out is drawn left of the right place, in right of it."""
    root = strokes(side_view(correction(error)))
    (ghost,), (glass,) = of_kind(root, "path", "ghost"), of_kind(root, "path", "glass")
    (film,) = of_kind(root, "line", "film")
    (head,) = of_kind(root, "polygon", "error")
    tip, base, _ = corners(head)
    (focus,) = of_kind(root, "circle", "error")
    assert x_of(ghost) < float(film.get("x1", ""))
    assert math.copysign(1, x_of(glass) - x_of(ghost)) == side
    assert math.copysign(1, tip[0] - base[0]) == side
    assert math.copysign(1, float(focus.get("cx", "")) - float(film.get("x1", ""))) == side


@pytest.mark.parametrize(
    ("error", "said"),
    [(0.2, "0.200 mm too far out"), (-0.2, "0.200 mm too far in"), (40, "40.000 mm too far out")],
)
def test_drawing_says_size_and_sense(error: float, said: str) -> None:
    """The same words stand in the drawing and in what is said of it to those who do not see it."""
    drawing = side_view(correction(error))
    assert said in texts(strokes(drawing))
    assert said in image_of(drawing)["alt"]


def test_rays_meet_at_the_drawn_focus() -> None:
    """Both rays behind the lens cross the axis at the marked point, in front of the film."""
    root = strokes(side_view(correction(0.2)))
    (focus,) = of_kind(root, "circle", "error")
    behind = [r for r in of_kind(root, "line", "ray") if r.get("y1") != r.get("y2")]
    assert len(behind) == 2
    for ray in behind:
        x1, y1, x2, y2 = (float(ray.get(name, "")) for name in ("x1", "y1", "x2", "y2"))
        axis = float(focus.get("cy", ""))
        crossing = x1 + (axis - y1) * (x2 - x1) / (y2 - y1)
        assert crossing == pytest.approx(float(focus.get("cx", "")), abs=0.2)


def test_right_lens_has_nothing_to_correct() -> None:
    """A lens that stands right is drawn once, without an arrow."""
    root = strokes(side_view(correction(0.0004)))
    assert of_kind(root, "path", "ghost") == []
    assert of_kind(root, "polygon", "error") == []
    assert "the lens stands right" in texts(root)


@pytest.mark.parametrize(
    ("error", "sense", "side"), [(0.2, "clockwise", 1), (-0.2, "counter-clockwise", -1)]
)
def test_turn_goes_round_the_way_it_is_said(error: float, sense: str, side: int) -> None:
    """From the index at the top clockwise goes to the right, and the arrow head goes on with it."""
    drawing = turn_view(ring_of(correction(error)))
    root = strokes(drawing)
    (path,) = of_kind(root, "path", "error")
    start, large, sweep, end = arc_of(path)
    (head,) = of_kind(root, "polygon", "error")
    tip, *base = corners(head)
    assert (end[0] - start[0]) * side > 10
    assert (tip[0] - sum(x for x, _ in base) / 2) * side > 0
    assert (large, sweep) == (0, int(side > 0))
    assert image_of(drawing)["alt"] == f"Turn 4.0° {sense}, seen from the front"


# 18 mm of lead, and the error to be turned away: 10 mm is 200°, 14.5 mm is 290°.
@pytest.mark.parametrize(("error", "degrees"), [(3.0, 60), (10.0, 200), (14.5, 290)])
def test_large_turn_ends_where_a_clock_hand_would(error: float, degrees: int) -> None:
    """A turn of more than half a circle is drawn the long way round, to its true angle."""
    (path,) = of_kind(strokes(turn_view(ring_of(correction(error)))), "path", "error")
    (x, y), large, sweep, end = arc_of(path)
    radius = 56
    hand = math.radians(degrees)
    assert end == pytest.approx(
        (x + radius * math.sin(hand), y + radius - radius * math.cos(hand)), abs=0.2
    )
    assert (large, sweep) == (int(degrees > 180), 1)


def test_turn_beyond_a_circle_keeps_its_figure() -> None:
    """More than a whole turn says its 540° and never draws a small one."""
    root = strokes(turn_drawing(math.radians(540), "clockwise", None))
    assert "540.0° clockwise" in texts(root)
    (path,) = of_kind(root, "path", "error")
    assert arc_of(path)[1] == 1


def test_turn_gives_the_arc_along_the_edge() -> None:
    """The arc of 60° on the 52 mm ring is 52π/6 = 27.2 mm."""
    assert "27.2 mm along its edge" in texts(strokes(turn_view(ring_of(correction(3.0)))))


def test_no_turn_is_drawn_for_a_shim() -> None:
    """A remedy without a turn has no turn to draw."""
    shim = next(r for r in correction(0.2).remedies if r.kind == "shim")
    assert turn_view(shim) == ""


def test_the_words_in_the_ring_stay_inside_its_glass() -> None:
    """Set in a wide sans-serif letter, the words lie wholly inside the inner circle."""
    root = strokes(turn_drawing(0.1, "clockwise", None))
    (glass,) = of_kind(root, "circle", "glass")
    middle, radius = float(glass.get("cy", "nan")), float(glass.get("r", "nan"))
    inside = [e for e in root.iter(SVG + "text") if e.text in ("seen from", "the front")]
    assert len(inside) == 2
    for line in inside:
        half = text_width(line.text or "", 12) / MM_PER_POINT / 2
        base = float(line.get("y", "nan")) - middle
        # A letter of 12 px rises 9 px above its line at most.
        assert max(math.hypot(half, base), math.hypot(half, base - 9)) < radius, line.text
