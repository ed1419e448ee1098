"""The fields of the Exercises page: which series, the answer, and what to print."""

from dataclasses import dataclass
from functools import partial
from typing import Any

import streamlit as st

from optics.errors import OutOfRange, Unreadable
from optics.sheets.exercise_sheet import MOST
from optics.teaching.exercises import Exercise, ExerciseLevel, Topic
from optics.teaching.exercises.series import LONGEST_SEED
from optics.typed.fields import Typed
from optics.units import Understood, read_count
from ui.asking.fields import choice, name_field
from ui.asking.forms import FieldGroup

ALL_TOPICS = "All topics"
LEVELS = {
    "Apprentice": ExerciseLevel.APPRENTICE,
    "Journeyman": ExerciseLevel.JOURNEYMAN,
    "Bench": ExerciseLevel.BENCH,
}
WITHOUT, WITH = "Questions only", "Questions, then answers"
NO_WAY = "(choose)"


@dataclass(frozen=True)
class ExerciseChoice:
    """What was chosen: topic (None for all), level and seed, and what stands in the way."""

    topic: Topic | None
    level: ExerciseLevel
    seed: str
    problems: list[str]

    @property
    def key(self) -> str:
        """A name of its own for each series."""
        return f"{self.topic}/{self.level}/{self.seed}"


def _read_seed(text: str) -> str:
    seed = text.strip()
    if len(seed) > LONGEST_SEED:
        raise OutOfRange(
            f"The seed must be at most {LONGEST_SEED} characters long: got {len(seed)}; type a "
            "shorter one, such as class 4.",
            quantity="seed",
            value=seed,
            limit=LONGEST_SEED,
        )
    return seed


def _read_how_many(text: str) -> Understood:
    count = read_count(text, words="number of exercises")
    if not 1 <= count.value <= MOST:
        raise OutOfRange(
            f"The number of exercises must be from 1 to {MOST}: got {count.echo}; type another.",
            quantity="number of exercises",
            value=count.value,
            limit=(1, MOST),
        )
    return count


SEED = Typed(
    "seed", "", _read_seed, lambda seed: f"“{seed}” gives the same figures to everybody", "11"
)
HOW_MANY = Typed("number of exercises", "", _read_how_many, lambda count: str(count.echo), "6")


def series_form() -> ExerciseChoice:
    """Ask for topic, level and seed."""
    left, right = st.columns(2)
    form = FieldGroup("exercises")
    with left:
        topic = choice("topic", [ALL_TOPICS, *map(str, Topic)], "exercises.topic")
    with right:
        level = choice("level", list(LEVELS), "exercises.level")
    form.ask("seed", SEED, typed="1", hint="a word or number that a class can share")
    seed = form.entries["seed"].text.strip() if not form.problems else ""
    about = None if topic == ALL_TOPICS else Topic(topic)
    return ExerciseChoice(about, LEVELS[level], seed, form.problems)


def answer_form(exercise: Exercise, key: str) -> str:
    """Ask for the answer, and for the way where one is asked; the text as it will be marked."""
    form = FieldGroup(f"exercises.{key}")
    answer = exercise.answer
    typed = Typed(answer.words, _bare_unit(exercise), partial(_read, exercise), _echo)
    left, right = st.columns(2)
    with left:
        form.ask("answer", typed)
    if answer.senses is None:
        return form.entries["answer"].text
    with right:
        ways = [NO_WAY, answer.senses.plus, answer.senses.minus]
        way = form.choose("way", "which way", ways, note="")
    return _with_way(exercise, form.entries["answer"].text, way)


def _read(exercise: Exercise, text: str) -> Any:
    return exercise.answer.read(text)


def _echo(typed: Any) -> str:
    return str(typed.echo)


def _bare_unit(exercise: Exercise) -> str:
    return {"deg": "°", "arcmin": "′"}.get(exercise.answer.unit, exercise.answer.unit)


def _with_way(exercise: Exercise, text: str, way: str) -> str:
    """The text with the way chosen, unless it says one itself."""
    if way == NO_WAY or not text.strip():
        return text
    try:
        says_it = exercise.answer.read(text).sense
    except (Unreadable, OutOfRange):
        return text
    return text if says_it else f"{text} {way}"


@dataclass(frozen=True)
class PrintWishes:
    """What a sheet of exercises is to hold, and how it is headed."""

    count: int
    with_answers: bool
    paper: str
    title: str
    problems: list[str]


def print_form() -> PrintWishes:
    """Ask what a sheet is to hold, and how it is headed."""
    form = FieldGroup("exercises.sheet")
    left, right = st.columns(2)
    with left:
        form.ask("count", HOW_MANY, typed="10", hint=f"1 to {MOST}")
    with right:
        held = form.choose("held", "what it holds", [WITHOUT, WITH], note="")
    left, right = st.columns(2)
    with left:
        title = name_field("title", "exercises.sheet.title", "Exercises, if empty")
    with right:
        paper = form.choose("paper", "paper", ["A4", "Letter"], note="")
    count = 0 if form.problems else int(form.value("count", 0))
    return PrintWishes(count, held == WITH, paper, title, form.problems)
