"""Slips that are known by name: what they make of the answer, and what to say of them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from optics.teaching.exercises.answer import Answer, Reads, is_near


class Slip(StrEnum):
    """A slip by the name it goes by."""

    SENSE = "the wrong way"
    SIGN = "the wrong sign"
    NO_SENSE = "no way said"
    THOUSAND = "a factor of 1000"
    HUNDRED = "a factor of 100"
    TEN = "a factor of 10"
    INCH = "inches and millimetres"
    FEET = "feet and metres"
    FEET_INCHES = "inches taken for tenths of a foot"
    RADIANS = "radians and degrees"
    SIXTY = "degrees, minutes and seconds"
    TURNS = "turns and degrees"
    DIOPTRES = "dioptres and metres"
    DATUM = "measured from the wrong place"
    DIAMETER = "diameter for radius"
    LEAD = "lead for pitch"
    PITCH = "pitch for lead"
    LEFT_OUT = "a part left out"
    NOT_SQUARED = "not squared"
    UPSIDE_DOWN = "upside down"
    WRONG_LENS = "the other lens"
    ADDED_UP = "added up straight"
    HABIT = "a figure of habit"
    HALF = "half of it"
    DOUBLE = "twice as much"
    STOP = "exact and engraved f-numbers"
    ROUNDED = "rounded too soon"


@dataclass(frozen=True)
class Mistake:
    """A slip with the amount (core units) that it leads to."""

    slip: Slip
    amount: float
    sentence: str


_MILLE = "The digits are right and a factor of 1000 is not: look whether it is µm, mm or m."
_CENT = "The digits are right and a factor of 100 is not: look whether it is cm or m."
_DECI = "The digits are right and the decimal mark is one place out."
_INCH = "A factor of 25.4 is in the way: one inch is 25.4 mm, and the answer is asked in {unit}."
_FOOT = "A factor of 0.3048 is in the way: one foot is 0.3048 m, and the answer is asked in m."
_RAD = "Degrees and radians are mixed up: one radian is 57.3°, and the answer is asked in {unit}."
_SIXTY = "A factor of 60 is in the way: 1° is 60′ and 1′ is 60″, and the answer is asked in {unit}."
_ROUND = "Turns and degrees are mixed up: one whole turn is 360°."
_DIOPTRE = "That is one over the distance, in dioptres: turn it over to come to metres."
_PERCENT = "The digits are right and a factor of 100 is not: look whether it is a percentage."
_HALF = "That is half of the answer: look for a factor of two."
_DOUBLE = "That is twice the answer: look for a factor of two, such as both sides for one."
_PAIRS = {
    Reads.LENGTH: (
        (Slip.THOUSAND, 1000.0, _MILLE),
        (Slip.INCH, 25.4, _INCH),
        (Slip.TEN, 10.0, _DECI),
        (Slip.HUNDRED, 100.0, _CENT),
    ),
    Reads.DISTANCE: (
        (Slip.THOUSAND, 1000.0, _MILLE),
        (Slip.HUNDRED, 100.0, _CENT),
        (Slip.FEET, 1 / 0.3048, _FOOT),
        (Slip.TEN, 10.0, _DECI),
    ),
    Reads.ANGLE: (
        (Slip.RADIANS, 180 / math.pi, _RAD),
        (Slip.TURNS, 360.0, _ROUND),
        (Slip.SIXTY, 60.0, _SIXTY),
        (Slip.TEN, 10.0, _DECI),
    ),
    Reads.NUMBER: (
        (Slip.TEN, 10.0, _DECI),
        (Slip.HUNDRED, 100.0, _PERCENT),
    ),
}


def everyday(answer: Answer) -> list[Mistake]:
    """Slips of units and of factors two that can happen with any answer of its kind."""
    found = []
    for slip, factor, sentence in _PAIRS[answer.reads]:
        said = sentence.format(unit={"deg": "degrees"}.get(answer.unit, answer.unit))
        found += [Mistake(slip, answer.size * k, said) for k in (factor, 1 / factor)]
    if answer.reads is Reads.DISTANCE:
        found.append(Mistake(Slip.DIOPTRES, answer.unit_size**2 / answer.size, _DIOPTRE))
    return [
        *found,
        Mistake(Slip.HALF, answer.size / 2, _HALF),
        Mistake(Slip.DOUBLE, answer.size * 2, _DOUBLE),
    ]


def reach(answer: Answer, mistake: Mistake) -> float:
    """How near an amount must come to a mistake's: the answer's tolerance in proportion.

    Another f-number is read off a sheet printed to the same digits, so there it is as it is.
    """
    if mistake.slip is Slip.STOP:
        return answer.tolerance
    return answer.tolerance * mistake.amount / answer.size


def telling(answer: Answer, mistakes: Sequence[Mistake]) -> tuple[Mistake, ...]:
    """The mistakes whose amounts can be told from the answer and from each other.

    Of two that come to the same, the one named first stands. An amount within the answer's own
    tolerance is right before it is any slip.
    """
    kept: list[Mistake] = []
    for one in (Mistake(m.slip, abs(m.amount), m.sentence) for m in mistakes):
        own = reach(answer, one)
        if not math.isfinite(one.amount) or not one.amount:
            continue
        if not _is_taken_for_right(answer, one) and not any(
            is_near(one.amount, other.amount, own + reach(answer, other)) for other in kept
        ):
            kept.append(one)
    return tuple(kept)


def _is_taken_for_right(answer: Answer, one: Mistake) -> bool:
    if one.slip is Slip.STOP:
        # Two f-numbers lie a hundredth apart, and a printed sheet shows the other's very figure:
        # it is told wherever that, rounded as asked for, is no right answer itself.
        printed = round(one.amount / answer.last_digit) * answer.last_digit
        return is_near(printed, answer.size, answer.tolerance)
    return is_near(one.amount, answer.size, reach(answer, one) + answer.tolerance)
