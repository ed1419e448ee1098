"""The rangefinder's answers as markup: each fact once, with its sense, and nothing unescaped."""

import math

import pytest

from optics.rangefinder.curve import far_target
from optics.rangefinder.part import RoundPart
from tests.ui.rangefinders import RIGHT, set_up_from
from ui.rangefinder.rangefinder_panel import base_html, near_html, next_html, set_up_html

OUT = "∞ = 22; 1 m = 0.985"


def test_both_ends_are_in_the_headline() -> None:
    """The headline names both errors with their sense, and how they stand to the goal."""
    html = set_up_html(set_up_from(OUT))
    assert html.count("too far out</strong>") == 2
    assert "</strong> at ∞" in html
    assert "</strong> at 1 m" in html
    assert "✕" in html
    assert "half the depth of focus" in html


def test_three_drawings_stand_beside_each_other() -> None:
    """Far, near and the true triangle are drawn."""
    assert set_up_html(set_up_from(OUT)).count("<img") == 3


def test_the_next_turn_is_drawn_and_said() -> None:
    """What to turn is a sentence and a picture; a rangefinder that is set has no picture."""
    assert next_html(set_up_from(OUT)).count("<img") == 1
    assert "1/4 turn clockwise" in next_html(set_up_from(OUT))
    done = next_html(set_up_from(RIGHT))
    assert "<img" not in done
    assert "Lock both adjusters" in done


def test_a_gain_far_out_is_not_drawn_as_a_turn() -> None:
    """Where the gain is out by a tenth or more, what to look for leads and no screw is drawn."""
    html = next_html(set_up_from("∞ = ∞; 1 m = 0.88"))
    assert html.index("no adjuster&#x27;s job") < html.index("Only if all of these are in order")
    assert "<img" not in html


def test_the_lens_scale_comes_first() -> None:
    """Where “too far out” is explained it is said that the lens scale must be right before."""
    html = next_html(set_up_from(OUT))
    assert "Put the lens scale right first" in html[html.index("Too far out: when") :]


def test_rounds_are_listed_once_there_are_any() -> None:
    """Without rounds there is no table of them; with one there are two rows."""
    assert "<table" not in next_html(set_up_from(OUT))
    one = RoundPart(infinity_turned="1/4 ccw", far_reads="40", near_reads="0.99")
    html = next_html(set_up_from(OUT, one))
    assert html.count("<tr>") == 3
    assert "infinity adjuster 1/4 turn counter-clockwise" in html
    assert "as found" in html


def test_the_three_settings_are_compared() -> None:
    """Usual, best near mark and best pair stand under each other with their worst errors."""
    html = near_html(set_up_from(RIGHT).where)
    for name in ("usual", "best near mark", "best pair"):
        assert f"<th>{name}</th>" in html
    assert "∞ and 90 cm" in html


@pytest.mark.parametrize(("distances", "pictures"), [([1000.0, math.inf], 1), ([math.inf], 0)])
def test_what_the_base_can_tell_at_each_distance(distances: list[float], pictures: int) -> None:
    """Each distance has its limits; the triangle is drawn where it has an apex."""
    bench = set_up_from(RIGHT).bench
    far = far_target(bench.camera, bench.rangefinder, bench.acuity, 1e5)
    html = base_html(bench, distances, far, "a height <line>")
    assert html.count("<tr>") == 1 + len(distances)
    assert html.count("<img") == pictures
    assert "a height &lt;line&gt;" in html
