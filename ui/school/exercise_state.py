"""What was tried and how it went, kept for the session: one record for each question."""

from dataclasses import dataclass
from functools import lru_cache

import streamlit as st

from optics.teaching.exercises import (
    Exercise,
    ExerciseLevel,
    Marked,
    Outcome,
    Topic,
    mark,
    numbered,
)
from ui.kept import drafts

_RECORDS, _PLACES = "exercises.records", "exercises.place"


@dataclass
class Record:
    """How one question went so far."""

    tries: int = 0
    hints: int = 0
    is_right: bool = False
    is_told: bool = False
    checked: str = ""
    marked: Marked | None = None

    def check(self, exercise: Exercise, text: str) -> None:
        """Mark a text; what could not be read is no try."""
        self.checked, self.marked = text, mark(exercise, text, self.hints)
        # Once the answer was shown, or the question is done, a check is practice and no score.
        if self.is_right or self.is_told or self.marked.outcome is Outcome.UNREADABLE:
            return
        self.tries += 1
        self.is_right = self.marked.outcome is Outcome.RIGHT

    def hint(self, exercise: Exercise) -> None:
        """Put the next hint on the table; the last one tells the answer."""
        self.hints = min(self.hints + 1, len(exercise.hints))
        if self.hints == len(exercise.hints):
            self.tell(exercise)

    def tell(self, exercise: Exercise) -> None:
        """Put all hints and the answer on the table."""
        self.hints = len(exercise.hints)
        self.is_told = self.is_told or not self.is_right


@lru_cache(maxsize=512)
def exercise_at(topic: Topic | None, level: ExerciseLevel, seed: str, number: int) -> Exercise:
    """An exercise of a series, kept, so that a key pressed does not work it out again."""
    return numbered(topic, level, seed, number)


def record_of(exercise: Exercise) -> Record:
    """The record of a question, new at first."""
    records = _records()
    key = f"{exercise.kind}/{exercise.level}/{exercise.seed}"
    if key not in records:
        records[key] = Record()
    return records[key]


def score_line() -> str:
    """The score of the session in one sentence."""
    begun = [r for r in _records().values() if r.tries or r.is_told]
    right = [r for r in begun if r.is_right]
    if not begun:
        return "Score: nothing answered yet."
    alone = sum(r.tries == 1 and not r.hints for r in right)
    return (
        f"Score: {len(right)} right of {len(begun)} begun; {alone} at the first try without a hint."
    )


def forget_score() -> None:
    """Begin the score anew."""
    _records().clear()


def place_in(series: str) -> int:
    """Which number of a series stands on the page."""
    return int(drafts.draft().texts.get(f"{_PLACES}.{series}", "1"))


def go_on(series: str, steps: int) -> None:
    """Go so many exercises on, or back, but not before the first."""
    drafts.draft().change(f"{_PLACES}.{series}", str(max(1, place_in(series) + steps)))


def _records() -> dict[str, Record]:
    records: dict[str, Record] = st.session_state.setdefault(_RECORDS, {})
    return records
