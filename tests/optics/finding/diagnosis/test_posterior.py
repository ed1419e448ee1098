"""Faults and their intervals against straight-line fits, quadrature and draws."""

import math

import numpy as np
import pytest

from optics.finding.causes import AT, NAMES
from optics.finding.causes.gain import GAIN
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.finding.diagnosis.hypotheses import Hypothesis
from optics.finding.diagnosis.posterior import Mixture, Posterior
from optics.measure.uncertainty import Source, exact
from optics.readings.kinds.coincidence import CoincidenceReading
from tests.optics.teaching.bench_day import FULL_ROUND, HELICOID, all_shown, showing, shown

UNITS = np.eye(len(NAMES))


def test_zero_and_gain_are_the_fitted_straight_line() -> None:
    """With hardly anything supposed, zero and gain are the weighted line through the pairs."""
    priors = usual_priors(HELICOID)
    for cause in (ZERO, GAIN):
        priors = priors.changed(cause, wrong=50.0, chance=0.999)
    for cause in (SEAT, RING):
        priors = priors.changed(cause, usual=0.0, chance=1e-9)
    pairs, errors = [], (0.03, 0.05, 0.02, 0.09)
    for distance, error in zip((9000.0, 4000.0, 2000.0, 1000.0), errors, strict=True):
        reading = CoincidenceReading(exact(distance), exact(distance))
        right = shown(HELICOID, Faults(), reading, limit=0.004)
        moved = shown(HELICOID, Faults(zero=error), reading, limit=0.004)
        pairs.append(showing(right, moved.set_to))
    found = diagnose(HELICOID, pairs, priors)
    extensions = [HELICOID.film_side_extension(d) for d in (9000.0, 4000.0, 2000.0, 1000.0)]
    (slope, height), covariance = np.polyfit(
        extensions, errors, 1, w=[1 / 0.004] * 4, cov="unscaled"
    )
    assert found.leading.causes == {ZERO, GAIN}
    assert found.sizes["zero"].value == pytest.approx(height, abs=1e-5)
    assert found.sizes["gain"].value == pytest.approx(slope, abs=1e-5)
    assert found.sizes["zero"].standard == pytest.approx(math.sqrt(covariance[1, 1]), rel=0.01)
    assert found.sizes["gain"].standard == pytest.approx(math.sqrt(covariance[0, 0]), rel=0.01)


def test_the_hypotheses_share_one_certainty() -> None:
    """The weights of what remains add up to one, the greatest first."""
    left = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1, zero=0.1), FULL_ROUND)).left
    assert left.weights.sum() == pytest.approx(1.0)
    assert list(left.weights) == sorted(left.weights, reverse=True)


def test_draws_have_the_means_and_spreads_that_are_stated() -> None:
    """A hundred thousand draws of every fault repeat its mean and standard deviation."""
    left = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1, zero=0.1), FULL_ROUND)).left
    drawn = left.draws(UNITS, 100_000, seed=3)
    for name, place in AT.items():
        mixture = left.mixture(UNITS[place])
        assert drawn[place].mean() == pytest.approx(mixture.mean, abs=0.02 * mixture.standard)
        assert drawn[place].std() == pytest.approx(mixture.standard, rel=0.05, abs=1e-12), name


def test_an_interval_of_a_mixture_leaves_as_much_on_either_side() -> None:
    """The interval of two normal humps is where their summed tails are 2.5 % each."""
    mixture = Mixture(np.array([0.7, 0.3]), np.array([0.0, 1.0]), np.array([0.1, 0.2]))
    low, high = mixture.interval()

    def tail(z: float) -> float:
        return 0.5 * math.erfc(z / math.sqrt(2))

    assert 0.7 * tail(-low / 0.1) + 0.3 * tail((1 - low) / 0.2) == pytest.approx(0.025, abs=1e-6)
    assert 0.7 * tail(high / 0.1) + 0.3 * tail((high - 1) / 0.2) == pytest.approx(0.025, abs=1e-6)
    assert mixture.mean == pytest.approx(0.3)
    # By hand: 0.7·0.01 + 0.3·0.04 within, 0.7·0.3·1² between.
    assert mixture.standard == pytest.approx(math.sqrt(0.019 + 0.21))


def test_three_repeats_reach_as_far_as_students_t() -> None:
    """A figure known by three repeats alone reaches 4.30 standard uncertainties (table G.2)."""
    repeats = Source("repeats", 2)
    left = Posterior(
        (Hypothesis(frozenset()),), np.ones(1), np.zeros((1, 1)), np.ones((1, 1, 1)), (repeats,)
    )
    found = left.mixture(np.ones(1))
    assert found.interval()[1] == pytest.approx(4.30, abs=0.005)
    assert found.within(4.30) == pytest.approx(0.95, abs=0.0005)
