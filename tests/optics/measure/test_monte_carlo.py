"""Draws against the law of propagation, and against published intervals."""

import math

import numpy as np
import pytest

from optics.measure.monte_carlo import drawn, middle
from optics.measure.uncertainty import Estimate, Source, exact, within


def test_shared_sources_are_drawn_once() -> None:
    """Figures that share a source have the correlation of their shares: 0.6·0.8/(1·1) = 0.48."""
    shared, own, other = Source("shared"), Source("own"), Source("other")
    one = Estimate(1.0, {shared: 0.6, own: 0.8})
    two = Estimate(2.0, {shared: 0.8, other: 0.6})
    draws = drawn([one, two])
    assert draws.mean(axis=0) == pytest.approx([1.0, 2.0], abs=0.015)
    assert draws.std(axis=0) == pytest.approx([1.0, 1.0], rel=0.01)
    assert np.corrcoef(draws.T)[0, 1] == pytest.approx(0.48, abs=0.01)


def test_repeats_are_drawn_from_students_t() -> None:
    """Three readings' mean has the wide tails of t with two degrees of freedom, 4.30·u."""
    low, high = middle(drawn([Estimate(0.0, {Source("spread", 2): 1.0})])[:, 0])
    assert (low, high) == pytest.approx((-4.30, 4.30), abs=0.15)


def test_a_pool_of_repeats_shares_its_scatter() -> None:
    """Two sources of one pool are far out together, though not in the same direction."""
    # By hand: ln|z| has variance π²/8 and half the log of χ²₂ has π²/24, so the logs of both
    # correlate with (π²/24)/(π²/8 + π²/24) = 1/4.
    pool = object()
    two = [Estimate(0.0, {Source("a", 2, pool=pool): 1.0}) for _ in range(2)]
    one, other = drawn(two).T
    assert abs(np.corrcoef(np.sign(one), np.sign(other))[0, 1]) < 0.02
    logs = np.corrcoef(np.log(np.abs(one)), np.log(np.abs(other)))
    assert logs[0, 1] == pytest.approx(0.25, abs=0.015)


def test_limits_are_drawn_evenly() -> None:
    """A figure within ± 1 is never drawn beyond, and its middle 95 % is ± 0.95."""
    draws = drawn([within(0.0, 1.0, "limit")])[:, 0]
    assert np.abs(draws).max() <= 1.0
    assert middle(draws) == pytest.approx((-0.95, 0.95), abs=0.005)


def test_exact_figures_stay_exact() -> None:
    """A figure without uncertainty is the same in every draw."""
    assert np.ptp(drawn([exact(3.0), within(0.0, 1.0, "other")])[:, 0]) == 0.0
    assert not math.isnan(drawn([exact(3.0)], count=5).sum())
