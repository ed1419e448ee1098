"""The fields of the Exercises page."""

import pytest

from optics.errors import OutOfRange, Unreadable
from optics.teaching.exercises import ExerciseLevel, exercise
from ui.school.exercise_form import HOW_MANY, NO_WAY, SEED, _with_way

TURN = exercise("ring_turn", ExerciseLevel.APPRENTICE, "1")
SHIM = exercise("shim_to_add", ExerciseLevel.APPRENTICE, "1")


@pytest.mark.parametrize(
    ("text", "way", "marked"),
    [
        ("7.4", "clockwise", "7.4 clockwise"),
        ("7.4 ccw", "clockwise", "7.4 ccw"),
        ("7.4", NO_WAY, "7.4"),
        ("", "clockwise", ""),
        ("abc", "clockwise", "abc"),
    ],
)
def test_the_way_chosen_counts_unless_the_text_says_one(text: str, way: str, marked: str) -> None:
    """Typed words go before the choice, and a text without a meaning is left as it is."""
    assert _with_way(TURN, text, way) == marked


def test_a_sign_goes_before_the_choice() -> None:
    """A shim typed with its sign needs no word, and the choice does not contradict it."""
    assert _with_way(SHIM, "−0.1", "add") == "−0.1"


def test_seed_and_number_are_refused_in_words() -> None:
    """A seed as long as a letter, and a sheet of none or of too many, are refused."""
    assert SEED.read(" class 4 ") == "class 4"
    with pytest.raises(OutOfRange, match="at most 40 characters"):
        SEED.read("x" * 41)
    assert HOW_MANY.read("30").value == 30
    for text in ("0", "31"):
        with pytest.raises(OutOfRange, match="from 1 to 30"):
            HOW_MANY.read(text)
    with pytest.raises(Unreadable):
        HOW_MANY.read("ten")
