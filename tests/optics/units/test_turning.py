"""Turns of a screw as people write them."""

import pytest

from optics.errors import Unreadable
from optics.units import read_angle, read_turns

UNDERSTOOD = [
    ("1/8", 0.125, "↻ 1/8 turn clockwise"),
    ("−1/4", -0.25, "↺ 1/4 turn counter-clockwise"),
    ("-0,5", -0.5, "↺ 0.5 turn counter-clockwise"),
    ("1 1/2 turns ccw", -1.5, "↺ 1 1/2 turns counter-clockwise"),
    ("1/4 turn counter-clockwise", -0.25, "↺ 1/4 turn counter-clockwise"),
    ("3/8 anticlockwise", -0.375, "↺ 3/8 turn counter-clockwise"),
    ("3/8 Clockwise", 0.375, "↻ 3/8 turn clockwise"),
    ("cw 1/8", 0.125, "↻ 1/8 turn clockwise"),
    ("90° ccw", -0.25, "↺ 90° counter-clockwise"),
    ("¼ clockwise", 0.25, "↻ 1/4 turn clockwise"),
    ("0", 0.0, "not turned"),
]


@pytest.mark.parametrize(("text", "turns", "echo"), UNDERSTOOD)
def test_a_turn_is_understood(text: str, turns: float, echo: str) -> None:
    """An amount with a sign or a word is a number of turns, plus clockwise, and is said back."""
    found = read_turns(text)
    assert found.value == pytest.approx(turns, abs=1e-12)
    assert (found.text, found.echo) == (text, echo)


@pytest.mark.parametrize(
    "text",
    ["", "clockwise", "−1/4 clockwise", "+1/8 ccw", "1/8 cw ccw", "1/8 widdershins", "1,200"],
)
def test_what_has_no_single_meaning_is_refused(text: str) -> None:
    """Nothing at all, a sense alone, a sense twice, and what is no turn are refused in words."""
    with pytest.raises(Unreadable) as refusal:
        read_turns(text, words="turn of the near adjuster")
    assert str(refusal.value).startswith("The turn of the near adjuster")


@pytest.mark.parametrize("typed", ["0.21 turn", "1/8 turn", "1 1/2 turns", "75.6°"])
def test_a_field_in_turns_echoes_them_as_typed(typed: str) -> None:
    """Where a field is in turns, 0.21 turn is not said to be 75.6° first."""
    assert read_angle(typed, unit="turn").echo == typed
