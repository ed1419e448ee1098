"""Exercises on uncertainty: combined limits and spread, and the factor for few readings."""

import math
from statistics import stdev

from optics.measure.uncertainty import Estimate, coverage_factor, exact, from_repeats, within
from optics.teaching.exercises.answer import Answer, Reads
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, WorkedStep
from optics.teaching.exercises.kinds.making import length_answer, mm, task
from optics.teaching.exercises.slips import Slip

_STRAIGHT = "Independent uncertainties add as squares, not straight."
_ROOT_THREE = "A limit ±a is not yet a standard uncertainty: divide it by √3."
_ROOT_N = "That is the spread of one reading: the mean of n readings spreads √n times less."
_SCATTERS = (
    (0.02, -0.01, -0.01),
    (0.03, 0.0, -0.03),
    (0.01, 0.02, -0.03),
    (0.02, 0.02, -0.04),
)


def combined(draw: Draw, level: ExerciseLevel) -> Task:
    """How large is the standard uncertainty of several causes together?"""
    limit = draw.one_of((0.015, 0.02, 0.03, 0.04))
    if level is ExerciseLevel.APPRENTICE:
        return _two_limits(limit, draw.one_of((0.01, 0.025, 0.05)))
    middle = draw.between(28.7, 28.9, 0.01)
    values = [middle + off for off in draw.one_of(_SCATTERS)]
    if level is ExerciseLevel.BENCH:
        values += [middle + draw.one_of((0.01, -0.02))]
    found = from_repeats(values, limit, "depth gauge")
    spread, count = stdev(values), len(values)
    said = ", ".join(f"{v:.2f}" for v in values)
    question = (
        f"The depth gauge reads {said} mm, and its maker allows ± {limit:g} mm (any error within "
        "it alike likely). How large is the standard uncertainty of the mean?"
    )
    type_a, type_b = spread / math.sqrt(count), limit / math.sqrt(3)
    working = [
        WorkedStep(
            "The spread of the mean is s/√n.",
            (f"u_A = s/√n = {spread:.5f}/√{count} = {type_a:.5f} mm",),
        ),
        _limit_line("u_B", limit),
        _root_line(("u_A", type_a), ("u_B", type_b), found),
    ]
    slips = [
        (Slip.ADDED_UP, type_a + type_b, _STRAIGHT),
        (Slip.NOT_SQUARED, math.hypot(type_a, limit), _ROOT_THREE),
        (Slip.LEFT_OUT, math.hypot(spread, type_b), _ROOT_N),
    ]
    return task(
        question, length_answer("standard uncertainty", exact(found.standard), 4), working, slips
    )


def _two_limits(one: float, other: float) -> Task:
    found = within(0.0, one, "gauge").plus(within(0.0, other, "seat"))
    parts = (one / math.sqrt(3), other / math.sqrt(3))
    working = [
        _limit_line("u₁", one),
        _limit_line("u₂", other),
        _root_line(("u₁", parts[0]), ("u₂", parts[1]), found),
    ]
    slips = [
        (Slip.ADDED_UP, sum(parts), _STRAIGHT),
        (Slip.NOT_SQUARED, math.hypot(one, other), _ROOT_THREE),
    ]
    question = (
        f"A depth gauge is allowed ± {mm(one, 3)} and the straight edge under it ± {mm(other, 3)}, "
        "any error within the limits alike likely. How large is the standard uncertainty of both "
        "together?"
    )
    return task(
        question, length_answer("standard uncertainty", exact(found.standard), 4), working, slips
    )


def _limit_line(name: str, limit: float) -> WorkedStep:
    line = f"{name} = a/√3 = {limit:g}/√3 = {limit / math.sqrt(3):.5f} mm"
    return WorkedStep("Limits ±a, every place alike likely, count as a/√3.", (line,))


def _root_line(one: tuple[str, float], other: tuple[str, float], found: Estimate) -> WorkedStep:
    (a, u), (b, v) = one, other
    line = f"u = √({a}² + {b}²) = √({u:.5f}² + {v:.5f}²) = {found.standard:.5f} mm"
    return WorkedStep("Independent uncertainties add as squares.", (line,))


def few_readings(draw: Draw, level: ExerciseLevel) -> Task:
    """What factor k do a few readings call for?"""
    count = round(
        draw.between(3, 4, 1) if level is ExerciseLevel.APPRENTICE else draw.between(3, 8, 1)
    )
    factor = coverage_factor(count - 1)
    one_more = coverage_factor(count)
    working = [
        WorkedStep(
            "With n readings there are n − 1 degrees of freedom; take Student's t for 95 %.",
            (
                f"ν = n − 1 = {count} − 1 = {count - 1}",
                f"k = t₉₅(ν) = t₉₅({count - 1}) = {factor:.2f}",
            ),
        )
    ]
    slips = [
        (Slip.HABIT, 2.0, "That is 2 out of habit: it holds for very many readings, not for few."),
        (Slip.HABIT, 1.96, "That holds for very many readings: few call for Student's t."),
        (Slip.LEFT_OUT, one_more, "That is for one degree of freedom more: n leave n − 1."),
    ]
    if level is not ExerciseLevel.BENCH:
        question = (
            f"A reading is repeated {count} times and nothing but its spread counts. By what "
            "factor k is the standard uncertainty of the mean multiplied to cover 95 %?"
        )
        answer = Answer("coverage factor k", factor, Reads.NUMBER, "", 2)
        return task(question, answer, working, slips)
    return _expanded(draw, count, factor, working)


def _expanded(draw: Draw, count: int, factor: float, working: list[WorkedStep]) -> Task:
    spread = draw.between(0.012, 0.04, 0.001)
    mean = spread / math.sqrt(count)
    whole = factor * mean
    lines = (
        f"u = s/√n = {spread:g}/√{count} = {mean:.5f} mm",
        f"U = k·u = {factor:.3f}·{mean:.5f} = {whole:.4f} mm",
    )
    slips = [
        (Slip.HABIT, 2 * mean, "That takes k = 2 out of habit: few readings call for more."),
        (Slip.LEFT_OUT, factor * spread, _ROOT_N),
        (Slip.LEFT_OUT, mean, "That is the standard uncertainty: multiply it by k."),
    ]
    question = (
        f"{count} readings of a register spread with s = {mm(spread, 3)}, and nothing else counts. "
        "How large is the expanded uncertainty of their mean at 95 %?"
    )
    return task(
        question,
        Answer("expanded uncertainty", whole, Reads.LENGTH, "mm", 3),
        [*working, WorkedStep("U is k times u.", lines)],
        slips,
    )
