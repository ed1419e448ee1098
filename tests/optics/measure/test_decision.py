"""Decisions: by which rule, and how likely they are right."""

import math
import random
import statistics

import pytest

from optics.measure.decision import (
    decide,
    overall,
    said_chance,
    said_decision,
    said_probability,
    said_rule,
)
from optics.measure.uncertainty import Estimate, Source, exact, within
from optics.measure.verdict import Guard, Verdict


def known(value: float, standard: float, dof: float = math.inf) -> Estimate:
    """Give a figure with its standard uncertainty."""
    return Estimate(value, {Source("a", dof): standard})


def test_the_chance_agrees_with_the_normal_distribution() -> None:
    """With many degrees of freedom the chance is that of the normal distribution."""
    for value, standard, allowed in ((0.03, 0.02, 0.04), (-0.05, 0.01, 0.04), (0.0, 0.02, 0.04)):
        normal = statistics.NormalDist(value, standard)
        chance = decide(known(value, standard), allowed, Guard.EXPANDED).probability
        assert chance == pytest.approx(normal.cdf(allowed) - normal.cdf(-allowed), abs=1e-12)


def test_the_chance_agrees_with_draws() -> None:
    """With two degrees of freedom the chance is that found by drawing Student's t."""
    rng, draws = random.Random(1), 40_000
    chance = decide(known(0.03, 0.02, 2), 0.04, Guard.EXPANDED).probability
    inside = 0
    for _ in range(draws):
        squares = sum(rng.gauss(0, 1) ** 2 for _ in range(2)) / 2
        inside += abs(0.03 + 0.02 * rng.gauss(0, 1) / math.sqrt(squares)) <= 0.04
    assert chance == pytest.approx(inside / draws, abs=0.01)


def test_the_guard_band_decides() -> None:
    """A figure near the edge is left open by the guard band, and decided without one."""
    error = known(0.035, 0.01)
    assert decide(error, 0.04, Guard.EXPANDED).verdict is Verdict.UNSURE
    assert decide(error, 0.04, Guard.NONE).verdict is Verdict.INSIDE
    assert decide(error, 0.04, Guard.EXPANDED).width == pytest.approx(1.96 * 0.01, abs=1e-5)
    assert decide(error, 0.04, Guard.NONE).width == 0


def test_inside_with_the_guard_band_is_seldom_wrong() -> None:
    """Whatever passes with w = U is right at least 97.5 times in a hundred (ILAC-G8:09/2019)."""
    for value in [n / 1000 for n in range(60)]:
        decision = decide(known(value, 0.01), 0.04, Guard.EXPANDED)
        if decision.verdict is Verdict.INSIDE:
            assert decision.probability is not None
            assert decision.probability >= 0.949
            # One edge alone: the other is too far away to count.
            assert decision.probability >= 0.975 or value < 0.001


def test_the_worst_decides() -> None:
    """Of several decisions the worst stands for all, and of none there is none."""
    inside, outside = (decide(known(v, 0.01), 0.04, Guard.EXPANDED) for v in (0.0, 1.0))
    unsure = decide(known(0.04, 0.01), 0.04, Guard.EXPANDED)
    assert overall([]) is None
    assert overall([inside, inside]) is Verdict.INSIDE
    bare = decide(exact(0.0), 0.04, Guard.EXPANDED)
    assert overall([inside, bare]) is Verdict.NOT_STATED
    assert said_decision(bare).endswith("guard band w = U is not stated.")
    assert overall([inside, unsure, bare]) is Verdict.UNSURE
    assert overall([inside, outside, unsure]) is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (1.0, "more than 99.9 %"),
        (0.9989, "99.8 %"),
        (0.996, "99.6 %"),
        (0.97, "about 97 %"),
        (0.5, "about 50 %"),
        (0.0055, "0.5 %"),
        (0.0004, "less than 0.1 %"),
        (0.0, "less than 0.1 %"),
    ],
)
def test_a_chance_is_never_said_to_be_certain(chance: float, said: str) -> None:
    """A chance is said in per cent, never as none or all, and not nearer to all than it is."""
    assert said_chance(chance) == said


def test_the_rule_and_the_decision_are_said_in_words() -> None:
    """Rule, decision and chance name their guard band, tolerance and figures."""
    decision = decide(within(0.01, 0.01, "a"), 0.04, Guard.EXPANDED)
    assert said_decision(decision) == (
        "Inside tolerance: allowed ± 0.040 mm, guard band w = U = 0.011 mm."
    )
    assert "± 0.040 mm is more than 99.9 %" in said_probability(decision)
    bare = decide(exact(0.01), 0.04, Guard.NONE)
    assert said_decision(bare) == "Inside tolerance: allowed ± 0.040 mm, no guard band."
    assert "is not known: no uncertainty was stated" in said_probability(bare)
    assert "w = U" in said_rule(Guard.EXPANDED)
    assert "w = 0" in said_rule(Guard.NONE)
