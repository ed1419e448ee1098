"""The fields of the Exercises page: which series, the answer, and what to print."""

from dataclasses import dataclass
from functools import partial
from typing import Annotated, Any, Literal

import streamlit as st

from optics.errors import OutOfRange, Unreadable
from optics.sheets.exercise_sheet import MOST
from optics.teaching.exercises import Exercise, ExerciseLevel, Topic
from optics.teaching.exercises.series import LONGEST_SEED
from optics.typed.ask import Ask
from optics.typed.fields import Typed
from optics.typed.part import Line, Part
from optics.units import Understood, read_count
from ui.asking.fields import choice, field
from ui.asking.paper import Paper
from ui.asking.part_form import PartForm

ALL_TOPICS = "All topics"
LEVELS = {str(level): level.capitalize() for level in ExerciseLevel}
WITH = "Questions, then answers"
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


class SeriesPart(Part):
    """Which exercises: topic, level and seed."""

    topic: Annotated[str, Ask(words={one: one for one in (ALL_TOPICS, *map(str, Topic))}, width=6)]
    level: Annotated[ExerciseLevel, Ask(words=LEVELS, width=6)]
    seed: Annotated[
        str, SEED, Ask(hint="a word or number that a class can share", starts="1", width=12)
    ]


class PrintPart(Part):
    """What a sheet of exercises is to hold, and how it is headed."""

    count: Annotated[str, HOW_MANY, Ask(hint=f"1 to {MOST}", starts="10", width=6)]
    held: Annotated[
        Literal["Questions only", "Questions, then answers"], Ask("what it holds", note="", width=6)
    ]
    title: Annotated[Line, Ask(hint="Exercises, if empty", width=6)] = ""
    paper: Annotated[Paper, Ask(note="", width=6)]


def series_form() -> ExerciseChoice:
    """Ask for topic, level and seed."""
    form = PartForm(SeriesPart, "exercises")
    form.draw()
    topic, problems = form.text_at("topic"), form.problems
    seed = "" if problems else form.text_at("seed").strip()
    about = None if topic == ALL_TOPICS else Topic(topic)
    return ExerciseChoice(about, ExerciseLevel(form.text_at("level")), seed, problems)


def answer_form(exercise: Exercise, key: str) -> str:
    """Ask for the answer, and for the way where one is asked; the text as it will be marked."""
    answer = exercise.answer
    typed = Typed(answer.words, _bare_unit(exercise), partial(_read, exercise), _echo)
    left, right = st.columns(2)
    with left:
        text = field(typed, f"exercises.{key}.answer").text
    if answer.senses is None:
        return text
    with right:
        ways = [NO_WAY, answer.senses.plus, answer.senses.minus]
        way = choice("which way", ways, f"exercises.{key}.way", note="")
    return _with_way(exercise, text, way)


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


def print_form() -> PartForm:
    """Ask what a sheet is to hold, and how it is headed."""
    form = PartForm(PrintPart, "exercises.sheet")
    form.draw()
    return form
