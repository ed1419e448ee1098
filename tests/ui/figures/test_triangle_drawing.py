"""The triangle: to scale where it says so, right in its sense where it does not."""

import math
from xml.etree import ElementTree

import pytest

from optics.drawing.lettering import MM_PER_POINT, text_width
from tests.ui.figures.drawn import SVG, image_of, of_kind, strokes, texts
from tests.ui.rangefinders import RIGHT, set_up_from
from ui.figures.triangle_drawing import true_view, wrong_view


def ends(line: ElementTree.Element) -> tuple[float, float, float, float]:
    """Return a stroke's x1, y1, x2 and y2."""
    x1, y1, x2, y2 = (float(line.get(name, "nan")) for name in ("x1", "y1", "x2", "y2"))
    return x1, y1, x2, y2


def rise(line: ElementTree.Element) -> float:
    """Return the angle by which a stroke rises to the right, in degrees."""
    x1, y1, x2, y2 = ends(line)
    return math.degrees(math.atan2(y1 - y2, x2 - x1))


@pytest.mark.parametrize(("base", "distance"), [("41", 1000.0), ("80", 1000.0), ("41", 3000.0)])
def test_true_angles_are_true(base: str, distance: float) -> None:
    """Base and subject are drawn to one scale: the angle can be measured off the picture."""
    picture = true_view(set_up_from(RIGHT, base=base).bench, distance)
    upper, lower = of_kind(strokes(picture), "line", "ray")
    measured = rise(lower) - rise(upper)
    # By hand: the base is seen from the distance less the 24 mm that it lies before the film.
    assert measured == pytest.approx(math.degrees(math.atan2(float(base), distance - 24)), abs=0.02)
    assert "true angles" in texts(strokes(picture))


@pytest.mark.parametrize(
    ("pairs", "way"),
    [("∞ = 22; 1 m = 0.97", -1), ("∞ = ∞; 1 m = 1.04", 1)],
)
def test_the_wrong_sight_errs_to_its_side(pairs: str, way: int) -> None:
    """Where the images meet with the lens too far out, the sights converge too little for it."""
    found = set_up_from(pairs)
    root = strokes(wrong_view(found, found.near))
    (right,), (drawn,) = of_kind(root, "line", "ghost"), of_kind(root, "line", "error")
    assert math.copysign(1, rise(drawn) - rise(right)) == way
    amount = "too much" if way > 0 else "too little"
    assert any(text.startswith("converges") and amount in text for text in texts(root))
    assert any("exaggerated" in text for text in texts(root))


def test_a_right_sight_lies_on_its_line() -> None:
    """Set right, the sight is drawn along the dashed line and said to be right."""
    found = set_up_from(RIGHT)
    for distance in (found.far, found.near):
        root = strokes(wrong_view(found, distance))
        (right,), (drawn,) = of_kind(root, "line", "ghost"), of_kind(root, "line", "error")
        assert rise(drawn) == pytest.approx(rise(right), abs=0.1)
        assert "converges right" in texts(root)


def test_sights_to_infinity_are_parallel() -> None:
    """For infinity the two right lines of sight are drawn parallel and no subject is shown."""
    found = set_up_from(RIGHT)
    root = strokes(wrong_view(found, math.inf))
    (upper,), (lower,) = of_kind(root, "line", "ray"), of_kind(root, "line", "ghost")
    assert rise(upper) == rise(lower) == 0
    assert of_kind(root, "circle", "filled") == []


def test_everything_drawn_stays_in_the_picture() -> None:
    """However wrong the rangefinder, no stroke leaves the picture or runs into its words."""
    found = set_up_from("∞ = 3; 1 m = 0.8")
    for distance in (found.far, found.near):
        root = strokes(wrong_view(found, distance))
        for line in of_kind(root, "line", ""):
            x1, y1, x2, y2 = ends(line)
            assert min(x1, x2) >= 0
            assert max(x1, x2) <= 210
            assert min(y1, y2) >= 14
            assert max(y1, y2) <= 122


def test_the_picture_says_what_it_shows() -> None:
    """Who cannot see it hears the target and by how much the sights are wrong."""
    found = set_up_from("∞ = 22; 1 m = 1")
    said = image_of(wrong_view(found, found.far))["alt"]
    assert said.startswith("Lens set for ∞")
    assert "too little" in said


@pytest.mark.parametrize("view", ["far", "near", "true"])
def test_no_caption_is_cut_off(view: str) -> None:
    """Set in a wide sans-serif letter, every line of writing ends inside its picture."""
    found = set_up_from("∞ = 20; 1.5 m = 1.44")
    near = found.near
    distance = found.far if view == "far" else near
    root = strokes(true_view(found.bench, near) if view == "true" else wrong_view(found, distance))
    for line in root.iter(SVG + "text"):
        size = 12 if "quiet" in line.get("class", "") else 13
        bold = "strong" in line.get("class", "")
        width = text_width(line.text or "", size, bold) / MM_PER_POINT
        x, at = float(line.get("x", "nan")), line.get("text-anchor")
        start = x - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[str(at)]
        assert start >= 0, line.text
        assert start + width <= float(root.get("viewBox", "").split()[2]), line.text
