"""The rangefinder's accounts as the page shows them: each fact once, with its sense."""

import math

import pytest

from optics.rangefinder.account import base_account, near_account, set_up_account
from optics.rangefinder.part import RoundPart
from optics.rangefinder.set_up import SetUp
from tests.ui.rangefinders import RIGHT, set_up_from
from ui.answers.account_panel import account_html


def set_up_html(found: SetUp) -> str:
    """A set-up as the page shows it."""
    return account_html(set_up_account(found))


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
    """Far, near and the true triangle are drawn in one row."""
    rows = set_up_html(set_up_from(OUT)).split('<div class="pictures')
    assert [row.count("<img") for row in rows] == [0, 3, 1]


def test_the_next_turn_is_drawn_and_said() -> None:
    """What to turn is a sentence and a picture; a rangefinder that is set has no picture."""
    assert set_up_html(set_up_from(OUT)).count("<img") == 4
    assert "1/4 turn clockwise" in set_up_html(set_up_from(OUT))
    done = set_up_html(set_up_from(RIGHT))
    assert done.count("<img") == 3
    assert "Lock both adjusters" in done


def test_a_gain_far_out_is_not_drawn_as_a_turn() -> None:
    """Where the gain is out by a tenth or more, what to look for leads and no screw is drawn."""
    html = set_up_html(set_up_from("∞ = ∞; 1 m = 0.88"))
    assert html.index("no adjuster&#x27;s job") < html.index("Only if all of these are in order")
    assert html.count("<img") == 3


def test_the_lens_scale_comes_first() -> None:
    """Where “too far out” is explained it is said that the lens scale must be right before."""
    html = set_up_html(set_up_from(OUT))
    assert "Put the lens scale right first" in html[html.index("Too far out: when") :]


def test_rounds_are_listed_once_there_are_any() -> None:
    """Without rounds there is no table of them; with one there are two rows."""
    assert "<table" not in set_up_html(set_up_from(OUT))
    one = RoundPart(infinity_turned="1/4 ccw", far_reads="40", near_reads="0.99")
    html = set_up_html(set_up_from(OUT, one))
    assert html.count("<tr>") == 3
    assert "infinity adjuster 1/4 turn counter-clockwise" in html
    assert "as found" in html


def test_the_three_settings_are_compared() -> None:
    """Usual, best near mark and best pair stand under each other with their worst errors."""
    html = account_html(near_account(set_up_from(RIGHT).where))
    for name in ("usual", "best near mark", "best pair"):
        assert f"<th>{name}</th>" in html
    assert "∞ and 90 cm" in html


@pytest.mark.parametrize(("distances", "pictures"), [([1000.0, math.inf], 1), ([math.inf], 0)])
def test_what_the_base_can_tell_at_each_distance(distances: list[float], pictures: int) -> None:
    """Each distance has its limits; the triangle is drawn where it has an apex."""
    bench = set_up_from(RIGHT).bench
    html = account_html(base_account(bench, distances, ["a height <line>"]))
    assert html.count("<tr>") == 1 + len(distances)
    assert html.count("<img") == pictures
    assert "a height &lt;line&gt;" in html
