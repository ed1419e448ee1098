"""Exercises drawn for property tests."""

from hypothesis import strategies as st

from optics.teaching.exercises import KINDS, Exercise, ExerciseLevel, exercise
from optics.units.printing import fixed


def exercises() -> st.SearchStrategy[Exercise]:
    """Any kind, at any level, with one of many seeds."""
    return st.builds(
        exercise,
        st.sampled_from(sorted(KINDS)),
        st.sampled_from(ExerciseLevel),
        st.integers(0, 400).map(str),
    )


def typed(one: Exercise, amount: float) -> str:
    """An amount in the unit asked for, without naming it, and the right way where one is asked."""
    answer = one.answer
    number = f"{fixed(amount / answer.unit_size, 12)}"
    return f"{number} {answer.senses.words(answer.value)}" if answer.senses else number
