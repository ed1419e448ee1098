"""The adjuster's head: the arc runs the way that is said, as far as is said."""

import math

import pytest

from tests.ui.figures.drawn import arc_of, image_of, of_kind, strokes, texts
from ui.figures.screw_drawing import screw_view


@pytest.mark.parametrize(
    ("turns", "said"),
    [
        (0.25, "1/4 turn clockwise"),
        (-0.25, "1/4 turn counter-clockwise"),
        (-0.625, "5/8 turn counter-clockwise"),
    ],
)
def test_the_arc_is_the_turn(turns: float, said: str) -> None:
    """From the top, the arc sweeps the angle asked for, to the right for clockwise."""
    picture = screw_view("near adjuster", turns)
    root = strokes(picture)
    (arc,) = of_kind(root, "path", "error")
    (x0, _), large, sweep, (x1, y1) = arc_of(arc)
    swept = math.atan2(x1 - 75, 46 - y1) % math.tau
    wanted = (turns * math.tau) % math.tau
    assert x0 == 75
    assert swept == pytest.approx(wanted, abs=0.01)
    assert (large, sweep) == (int(abs(turns) > 0.5), int(turns > 0))
    assert texts(root) == ["near adjuster", said]
    assert image_of(picture)["alt"] == f"Turn the near adjuster {said}, as you look at its head"


def test_a_tiny_turn_is_still_seen() -> None:
    """A sixty-fourth of a turn is drawn large enough for its sense to be seen."""
    (arc,) = of_kind(strokes(screw_view("near adjuster", 1 / 64)), "path", "error")
    (x0, _), _, _, (x1, _) = arc_of(arc)
    assert x1 - x0 > 6
