"""Pooling the scatter of repeats, by hand and against a simulated bench."""

import math

import numpy as np
import pytest

from optics.finding.diagnosis.pooling import pooled
from optics.measure.uncertainty import Estimate, Source
from tests.optics.teaching.bench_day import FAR_PAIR, GAUGE, INFINITY, STOP


def repeated(spread: float, dof: float, source: Source | None = None) -> Estimate:
    """Give a mean of repeats with its own standard uncertainty."""
    return Estimate(0.0, {source or Source("spread", dof): spread})


def test_repeats_of_one_kind_are_pooled_by_hand() -> None:
    """Scatters of 0.03 and 0.01 from three and five tries pool to s² = (2·0.0027 + 4·0.0005)/6."""
    # A single try scatters with s² = n·u²: 3·0.03² and 5·0.01².
    first, second = pooled((STOP, INFINITY), (repeated(0.03, 2), repeated(0.01, 4)))
    variance = (2 * 0.0027 + 4 * 0.0005) / 6
    assert first.standard == pytest.approx(math.sqrt(variance / 3))
    assert second.standard == pytest.approx(math.sqrt(variance / 5))
    assert first.dof == second.dof == 6


def test_sums_of_pooled_readings_gain_no_degrees_of_freedom() -> None:
    """Two means with one pooled scatter add up to the pool's degrees of freedom, not to more."""
    first, second = pooled((STOP, INFINITY), (repeated(0.01, 4), repeated(0.01, 4)))
    assert first.plus(second).dof == pytest.approx(8)
    assert repeated(0.01, 4).plus(repeated(0.01, 4)).dof == pytest.approx(8)
    assert first.plus(second, 0.1).dof == pytest.approx(8)


@pytest.mark.parametrize("other", [GAUGE, FAR_PAIR], ids=["gauge", "rangefinder"])
def test_kinds_are_not_mixed(other: object) -> None:
    """A gauge's scatter, or the rangefinder's, is not pooled with the eye's."""
    errors = (repeated(0.01, 4), repeated(0.02, 4))
    assert pooled((STOP, other), errors) == errors  # type: ignore[arg-type]


def test_scatters_that_differ_too_much_are_kept_apart() -> None:
    """A scatter thirty times the other's is not the same scatter, and each keeps its own."""
    errors = (repeated(0.001, 4), repeated(0.03, 4))
    assert pooled((STOP, INFINITY), errors) == errors


def test_bartlett_accuses_one_in_a_hundred() -> None:
    """Of equal scatters of five repeats each, about one group in a hundred is kept apart."""
    chance = np.random.default_rng(5)
    apart = 0
    for _ in range(3000):
        spreads = chance.normal(size=(3, 5)).std(axis=1, ddof=1) / math.sqrt(5)
        errors = tuple(repeated(float(s), 4) for s in spreads)
        apart += pooled((STOP, INFINITY, INFINITY), errors) == errors
    assert 0.005 < apart / 3000 < 0.016


def test_a_shared_source_is_left_alone() -> None:
    """What several readings share is not a scatter of each, and is not pooled."""
    source = Source("shared", 3)
    errors = (repeated(0.01, 3, source), repeated(0.02, 3, source))
    assert pooled((STOP, INFINITY), errors) == errors
