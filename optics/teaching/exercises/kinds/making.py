"""What the makers of exercises share: figures as printed, steps, and the task they end in."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from optics.camera.stops import FULL_AS_ENGRAVED, f_number
from optics.measure.uncertainty import Estimate, Source, exact
from optics.readings.readings import Step
from optics.relation import Formula
from optics.teaching.exercises.answer import Answer, Reads, Senses
from optics.teaching.exercises.exercise import Task, WorkedStep
from optics.teaching.exercises.slips import Mistake, Slip
from optics.units import format_length
from optics.units.printing import fixed

FOOT, INCH = 304.8, 25.4
Slipped: TypeAlias = tuple[Slip, float, str]
"""A slip of one kind of exercise: its name, the amount it leads to, and what to say of it."""


def read_off(value: float, half_digit: float, name: str) -> Estimate:
    """A figure read off an instrument: it may be out by half its last printed digit."""
    return Estimate(value, {Source(name): half_digit})


def step(formula: Formula, **inputs: float | Estimate) -> Step:
    """A formula worked out; plain numbers are taken as they stand."""
    given = {k: v if isinstance(v, Estimate) else exact(v) for k, v in inputs.items()}
    return Step.of(formula, **given)


def left_open(estimate: Estimate) -> float:
    """What the last digits of all that was read leave open, in the worst case."""
    return sum(map(abs, estimate.parts.values()))


def worked(steps: Iterable[Step], more: Iterable[WorkedStep] = ()) -> tuple[WorkedStep, ...]:
    """The working of some steps, and of what follows them."""
    return (*map(WorkedStep.of, steps), *more)


def task(
    question: str,
    answer: Answer,
    working: Iterable[WorkedStep],
    slips: Iterable[tuple[Slip, float, str]] = (),
) -> Task:
    """A task with its own slips, each as name, amount and sentence."""
    return Task(question, answer, tuple(working), tuple(Mistake(*one) for one in slips))


def honest_places(most: int, left_open: float) -> int:
    """As many decimals as asked for, or fewer where what was read cannot tell the last ones."""
    places = most
    while places > 1 and left_open > 5 * 10**-places:
        places -= 1
    return places


def minus(name: str, known: str, value: float, places: int) -> str:
    """The line that turns a figure in mm round, such as z = −e = −(−0.12) = 0.12 mm."""
    number, turned = (fixed(v, places) for v in (value, -value))
    shown = f" = −({number})" if value < 0 else ""
    return f"{name} = −{known}{shown} = {turned} mm"


def length_answer(
    words: str, estimate: Estimate, places: int, senses: Senses | None = None, sign: float = 1.0
) -> Answer:
    """An answer in mm, to at most so many places."""
    is_open = left_open(estimate)
    places = honest_places(places, is_open)
    return Answer(words, sign * estimate.value, Reads.LENGTH, "mm", places, is_open, senses)


def distance_answer(words: str, estimate: Estimate, places: int) -> Answer:
    """An answer in metres from the film plane."""
    return Answer(words, estimate.value, Reads.DISTANCE, "m", places, left_open(estimate))


def angle_answer(
    words: str,
    estimate: Estimate,
    places: int,
    senses: Senses | None = None,
    sign: float = 1.0,
    unit: str = "deg",
) -> Answer:
    """An answer in degrees, or the `unit` named."""
    value = sign * estimate.value
    return Answer(words, value, Reads.ANGLE, unit, places, left_open(estimate), senses)


@dataclass(frozen=True)
class SetTo:
    """A stop as engraved and the f-number it counts with, which every question says.

    As on scales, tables and cards, a mark counts with its exact f-number and the full aperture as
    engraved. Who reckons with the other one comes to another figure than the printed strip's: it
    is named as a slip, or, where it lies inside the tolerance, right.
    """

    engraved: float
    used: float
    other: float
    is_full: bool = False

    @classmethod
    def at(cls, mark: float) -> "SetTo":
        """A stop set by its mark."""
        return cls(mark, f_number(mark), mark)

    @classmethod
    def wide_open(cls, full_aperture: float) -> "SetTo":
        """The full aperture."""
        return cls(full_aperture, full_aperture, f_number(full_aperture), is_full=True)

    @property
    def said(self) -> str:
        """Which f-number to reckon with."""
        if self.is_full:
            return FULL_AS_ENGRAVED
        return f"Reckon with the exact f-number: f/{self.engraved:g} is {self.used:.5g}."

    def slip(self, amount: float) -> Slipped:
        """What reckoning with the other f-number makes of the answer."""
        if self.is_full:
            why = f"That takes the exact f-number {self.other:.5g}: the full aperture counts as "
            return Slip.STOP, amount, f"{why}engraved, f/{self.engraved:g}."
        why = f"That reckons with f/{self.engraved:g} as engraved: its exact f-number is "
        return Slip.STOP, amount, f"{why}{self.used:.5g}."


def mm(value: float, places: int) -> str:
    """A length in mm as it is read off."""
    return format_length(value, places=places)


def metres(value: float, places: int) -> str:
    """A distance in metres as it is read off a tape."""
    return format_length(value, unit="m", places=places)
