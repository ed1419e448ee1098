"""The decision with a guard band: inside, outside, or not to be told."""

import math

import pytest

from optics.measure.uncertainty import Estimate, Source, exact
from optics.measure.verdict import Guard, Verdict, judge, judge_read


def figure(value: float, expanded: float) -> Estimate:
    """Give an estimate with so much expanded uncertainty (k 1.95996 for 95 %, GUM table G.2)."""
    parts = {Source("all"): expanded / 1.959963984540054} if expanded else {}
    return Estimate(value, parts)


# ILAC-G8:09/2019, 4.2.2 and 4.2.3: with a guard band of U, a result passes if |y| ≤ T − U and
# fails if |y| > T + U. Tolerance 0.050 mm; the bounds below are worked by hand.
CASES = [
    (0.000, 0.000, Verdict.INSIDE),
    (0.000, 0.049, Verdict.INSIDE),
    (0.029, 0.020, Verdict.INSIDE),
    (-0.029, 0.020, Verdict.INSIDE),
    (0.031, 0.020, Verdict.UNSURE),
    (-0.031, 0.020, Verdict.UNSURE),
    (0.050, 0.020, Verdict.UNSURE),
    (0.069, 0.020, Verdict.UNSURE),
    (0.071, 0.020, Verdict.OUTSIDE),
    (-0.071, 0.020, Verdict.OUTSIDE),
    (0.000, 0.051, Verdict.UNSURE),
    (0.050, 0.000, Verdict.INSIDE),
    (math.nextafter(0.05, 1), 0.000, Verdict.OUTSIDE),
    (-math.nextafter(0.05, 1), 0.000, Verdict.OUTSIDE),
]


@pytest.mark.parametrize(("value", "expanded", "verdict"), CASES)
def test_the_guard_band_decides(value: float, expanded: float, verdict: Verdict) -> None:
    """A figure is inside or outside only if all of value ± U is."""
    assert judge(figure(value, expanded), 0.05) is verdict


def test_the_words_of_the_verdict_differ() -> None:
    """Each verdict has words of its own that end a sentence."""
    words = {verdict.words for verdict in Verdict}
    assert words == {
        "inside tolerance",
        "outside tolerance",
        "too close to the tolerance to tell",
        "no verdict (nothing says how well it is known)",
    }


def test_what_was_read_once_by_nothing_known_is_not_proved() -> None:
    """A reading without an uncertainty proves nothing, neither inside nor outside."""
    assert judge_read(exact(0.0), 0.05) is Verdict.NOT_STATED
    assert judge_read(exact(0.3), 0.05) is Verdict.NOT_STATED
    assert judge_read(figure(0.3, 0.02), 0.05) is Verdict.OUTSIDE
    assert judge_read(figure(0.0, 0.02), 0.05) is Verdict.INSIDE
    # Without a guard band the figure alone decides, and the rule says so on every sheet.
    assert judge_read(exact(0.0), 0.05, Guard.NONE) is Verdict.INSIDE
