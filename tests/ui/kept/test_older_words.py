"""Choices kept from before their words changed."""

import pytest
from streamlit.testing.v1 import AppTest

from ui.kept.older_words import word_of_today


def _place() -> None:
    from optics.readings.reading_part import ReadFrom
    from ui.asking.fields import choice

    choice("what was read", [place.value for place in ReadFrom], "kept.place")


@pytest.mark.parametrize(
    ("older", "today"),
    [
        ("off the middle, gauged", "corner depth"),
        ("register, gauged", "register (depth gauge)"),
        ("at the ∞ mark", "at the ∞ mark"),
        ("gone", "register (depth gauge)"),
    ],
)
def test_a_choice_kept_from_before_is_still_that_choice(older: str, today: str) -> None:
    """A draft that holds an older word shows the same choice under its word of today."""
    page = AppTest.from_function(_place)
    page.session_state["kept.place"] = older
    assert page.run().selectbox[0].value == today


def test_a_corner_within_a_name_is_renamed_too() -> None:
    """The screw chosen at the practice bench stays the screw, whose corner is now top left."""
    older = "shim the standard, upper left screw,"
    assert word_of_today(older) == "shim the standard, top left screw,"
