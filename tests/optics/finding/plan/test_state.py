"""What is expected after each step, against distribution functions."""

import math

import numpy as np
import pytest

from optics.finding.causes import Adjustment
from optics.finding.causes.ring import RING
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.plan.state import Expected, Forecast, PlanOutlook
from tests.optics.teaching.bench_day import AT_HAND, FULL_ROUND, HELICOID, all_shown

FOUND = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=-0.1, zero=0.1), FULL_ROUND))


def test_the_drawn_state_is_the_stated_mixture() -> None:
    """A hundred thousand draws give each duty the mean, interval and chance of its mixture."""
    state = Forecast(FOUND.left, FOUND.duties, 100_000).state()
    for expected in state.expected:
        mixture = FOUND.left.mixture(expected.duty.row)
        low, high = mixture.interval()
        room = 0.05 * mixture.standard
        assert expected.mean == pytest.approx(mixture.mean, abs=room)
        assert (expected.low, expected.high) == pytest.approx((low, high), abs=3 * room)
        inside = mixture.within(expected.duty.tolerance)
        assert expected.inside == pytest.approx(inside, abs=0.006)


def test_a_step_adds_its_amount_and_its_own_error() -> None:
    """Turning the ring moves the marks by its amount and widens them by its setting."""
    done = RING.put_right(HELICOID, AT_HAND, {"ring": 0.1})
    assert isinstance(done, Adjustment)
    forecast = Forecast(FOUND.left, FOUND.duties, 100_000)
    before = forecast.errors.copy()
    forecast.apply(done)
    moved = forecast.errors - before
    marks = [n for n, duty in enumerate(FOUND.duties) if duty.words in ("∞ mark", "near mark")]
    change = done.changes["ring"]
    for line in marks:
        assert moved[line].mean() == pytest.approx(change.value, abs=1e-4)
        assert moved[line].std() == pytest.approx(change.standard, rel=0.02)
    others = [n for n, duty in enumerate(FOUND.duties) if duty.words in ("register", "rangefinder")]
    assert np.abs(moved[others]).max() == 0.0


@pytest.mark.parametrize(
    ("low", "high", "all_inside", "conforms"),
    [(-0.03, 0.03, 0.97, True), (-0.03, 0.041, 0.97, False), (-0.03, 0.03, 0.94, False)],
)
def test_conforming_takes_both_the_chance_and_the_guard_band(
    low: float, high: float, all_inside: float, conforms: bool
) -> None:
    """A state conforms when all are inside with 95 % and no interval leaves the tolerance."""
    duty = FOUND.duties[0]
    assert duty.tolerance < 0.0421
    wide = duty.tolerance / 0.04
    state = PlanOutlook((Expected(duty, 0.0, low * wide, high * wide, 0.99),), all_inside)
    assert state.conforms == conforms
    assert math.isclose(state.worst.inside, 0.99)
