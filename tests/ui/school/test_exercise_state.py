"""How a question's record is kept."""

import pytest
import streamlit as st

from optics.teaching.exercises import ExerciseLevel, Outcome, exercise
from ui.school.exercise_state import Record, forget_score, go_on, place_in, record_of, score_line

ONE = exercise("wrong_start", ExerciseLevel.APPRENTICE, "7")


@pytest.fixture(autouse=True)
def session(monkeypatch: pytest.MonkeyPatch) -> dict[str, object]:
    """A session of its own for each test."""
    kept: dict[str, object] = {}
    monkeypatch.setattr(st, "session_state", kept)
    return kept


def test_a_right_answer_is_counted_once() -> None:
    """Checked again, a right answer stays one right answer at the first try."""
    record = record_of(ONE)
    for _ in range(3):
        record.check(ONE, ONE.answer.printed)
    assert (record.tries, record.is_right) == (1, True)
    assert score_line() == "Score: 1 right of 1 begun; 1 at the first try without a hint."


def test_what_cannot_be_read_is_no_try() -> None:
    """A text without a meaning is marked and not counted."""
    record = record_of(ONE)
    record.check(ONE, "abc")
    assert record.marked is not None
    assert record.marked.outcome is Outcome.UNREADABLE
    assert score_line() == "Score: nothing answered yet."


def test_hints_come_one_by_one_and_the_last_tells() -> None:
    """Four hints, the last the answer; after it a right answer no longer counts as found."""
    record = Record()
    for seen in (1, 2, 3):
        record.hint(ONE)
        assert (record.hints, record.is_told) == (seen, False)
    record.hint(ONE)
    record.hint(ONE)
    assert (record.hints, record.is_told) == (4, True)
    record.check(ONE, ONE.answer.printed)
    assert not record.is_right


def test_the_working_of_a_question_done_costs_nothing() -> None:
    """Looking at the working after a right answer leaves the answer right."""
    record = record_of(ONE)
    record.check(ONE, ONE.answer.printed)
    record.tell(ONE)
    assert record.is_right
    assert "1 right of 1" in score_line()


def test_a_right_answer_after_a_hint_is_not_at_the_first_try_without_one() -> None:
    """A hint taken first shows in the score."""
    record = record_of(ONE)
    record.hint(ONE)
    record.check(ONE, ONE.answer.printed)
    assert score_line() == "Score: 1 right of 1 begun; 0 at the first try without a hint."
    forget_score()
    assert score_line() == "Score: nothing answered yet."


def test_each_series_has_its_own_place() -> None:
    """Going on in one series leaves another where it was, and nothing comes before the first."""
    go_on("a", 1)
    go_on("a", 1)
    go_on("b", -1)
    assert (place_in("a"), place_in("b"), place_in("c")) == (3, 1, 1)
