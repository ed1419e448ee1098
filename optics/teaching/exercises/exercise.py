"""An exercise: the question, its answer, the working as hints, and the slips it knows."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from optics.readings.readings import Step
from optics.teaching.exercises.answer import Answer
from optics.teaching.exercises.slips import Mistake, everyday, telling


class ExerciseLevel(StrEnum):
    """For whom an exercise is."""

    APPRENTICE = "apprentice"
    JOURNEYMAN = "journeyman"
    BENCH = "bench"


class Topic(StrEnum):
    """What an exercise is about."""

    TAPE = "Tape and units"
    LENS = "Lens and film"
    HELICOID = "Helicoid and ring"
    FRONT_CELL = "Front cell"
    FINDING = "Gauge, collimator"
    DEPTH = "Depth of field"
    SCALE = "Depth marks"
    RANGEFINDER = "Rangefinder"
    CAM = "Cam"
    STANDARD = "Standard"
    GATE = "Film gate"
    UNCERTAINTY = "Uncertainty"


@dataclass(frozen=True)
class WorkedStep:
    """One step: what it answers, and lines “unknown = symbols = numbers = result”."""

    answers: str
    lines: tuple[str, ...]
    symbols: tuple[str, ...] = ()

    @classmethod
    def of(cls, step: Step) -> "WorkedStep":
        """The working of a relation of the catalogue, with what its symbols mean."""
        formula = step.formula
        named = (formula.form.unknown, *formula.inputs)
        meanings = tuple(f"{q.plain}: {q.meaning}" for q in named)
        return cls(formula.relation.answers, step.working_text(), meanings)


@dataclass(frozen=True)
class Task:
    """What a kind of exercise makes of its numbers; `slips` are those of this kind alone."""

    question: str
    answer: Answer
    working: tuple[WorkedStep, ...]
    slips: tuple[Mistake, ...] = ()


@dataclass(frozen=True)
class Hint:
    """One step on the way: a heading and its lines."""

    heading: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Exercise:
    """A task with the kind, level and seed that it follows from."""

    kind: str
    title: str
    topic: Topic
    level: ExerciseLevel
    seed: str
    task: Task

    @property
    def question(self) -> str:
        """The question in plain words, and to what digit it is to be answered."""
        answer = self.task.answer
        way = f", and say {answer.senses.plus} or {answer.senses.minus}" if answer.senses else ""
        return f"{self.task.question} Give it to {answer.step}{way}."

    @property
    def answer(self) -> Answer:
        """What is asked for."""
        return self.task.answer

    @cached_property
    def mistakes(self) -> tuple[Mistake, ...]:
        """Every slip that can be told from the right answer, the particular ones first."""
        return telling(self.answer, [*self.task.slips, *everyday(self.answer)])

    @property
    def working(self) -> tuple[str, ...]:
        """The whole calculation, a line for each unknown."""
        return tuple(line for step in self.task.working for line in step.lines)

    @cached_property
    def hints(self) -> tuple[Hint, ...]:
        """Four steps: which relation, in symbols, in numbers, and the answer."""
        steps, lines = self.task.working, self.working
        symbolic = (" = ".join(line.split(" = ")[:2]) for line in lines)
        meanings = (meaning for step in steps for meaning in step.symbols)
        return (
            Hint("What to ask", _unique(step.answers for step in steps)),
            Hint("In symbols", _unique([*symbolic, *meanings])),
            Hint("In numbers", (*lines[:-1], lines[-1].rpartition(" = ")[0] + " = ?")),
            Hint("The answer", (lines[-1], f"{self.answer.words}: {self.answer.printed}")),
        )


def _unique(lines: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lines))
