"""The closed form of evidence against integration by numbers."""

import math

import numpy as np
import pytest

from optics.finding.causes import Cause
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.diagnosis import Faults, usual_priors
from optics.finding.diagnosis.hypotheses import Hypothesis, weigh
from optics.finding.diagnosis.observations import observe
from tests.optics.teaching.bench_day import (
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    TURNED,
    all_shown,
)


def log_weights(seen: object, priors: object, causes: tuple[Cause, ...]) -> dict[Hypothesis, float]:
    """Give the logarithm of prior times evidence of every hypothesis."""
    return {
        hypothesis: float(weight)
        for weighed in weigh(seen, priors, causes)  # type: ignore[arg-type]
        for hypothesis, weight in zip(weighed.hypotheses, weighed.log_weight, strict=True)
    }


def density(x: np.ndarray, spread: float) -> np.ndarray:
    """Give the normal density."""
    return np.exp(-0.5 * (x / spread) ** 2) / (spread * math.sqrt(2 * math.pi))


def test_the_evidence_is_the_integral_over_the_faults() -> None:
    """Odds between two causes are those of likelihood times prior summed over a fine grid."""
    priors = usual_priors(HELICOID)
    causes = (SEAT, RING)
    readings = all_shown(HELICOID, Faults(seat=0.03, ring=0.04), (GAUGE, STOP, INFINITY))
    found = log_weights(observe(HELICOID, readings), priors, causes)
    seat, ring = (np.linspace(-0.9, 0.9, 1201) for _ in range(2))
    grid_seat, grid_ring = np.meshgrid(seat, ring, indexing="ij")
    # At the stop the stop's own usual 0.01 mm adds to the reading's 0.006 mm.
    like = (
        density(0.03 - grid_seat, 0.006)
        * density(0.03 - grid_seat, math.hypot(0.006, 0.010))
        * density(0.07 - grid_seat - grid_ring, 0.006)
    )
    cell = (seat[1] - seat[0]) * (ring[1] - ring[0])
    expected = {}
    for chosen in (frozenset(), {SEAT}, {RING}, {SEAT, RING}):
        spreads = [0.10 if SEAT in chosen else 0.005, 0.40 if RING in chosen else 0.01]
        prior = density(grid_seat, spreads[0]) * density(grid_ring, spreads[1])
        chance = math.prod(0.2 if c in chosen else 0.8 for c in causes)
        expected[Hypothesis(frozenset(chosen))] = math.log(chance * (like * prior).sum() * cell)
    base = Hypothesis(frozenset())
    for hypothesis, weight in expected.items():
        difference = found[hypothesis] - found[base]
        assert difference == pytest.approx(weight - expected[base], abs=2e-3)


def test_every_set_of_up_to_three_causes_is_weighed() -> None:
    """Nine causes make 93 sets without a wrong start, and 37 more for each start followed up."""
    priors = usual_priors(HELICOID)
    seen = observe(HELICOID, all_shown(HELICOID, Faults(ring=0.1), FULL_ROUND))
    found = log_weights(seen, priors, tuple(priors.by_cause))
    # By hand: 1 + 8 + 28 + 56 sets of the eight others; 1 + 8 + 28 beside a start.
    assert len([h for h in found if not h.steps]) == 93
    at_a_start = len([h for h in found if h.steps])
    assert at_a_start % 37 == 0


@pytest.mark.parametrize("starts", [-4, -1, 1, 3])
def test_a_wrong_start_is_followed_up_at_its_own_pitches(starts: int) -> None:
    """A lens whole pitches off is given to its start, the rest to what is left over."""
    faults = Faults(start=3.0 * starts, ring=0.1)
    # So far out no place of a reticle is sharp, and the ring is turned instead.
    far = INFINITY if starts < 3 else TURNED
    possible = (GAUGE, far, *(() if starts < 0 else (NEAR,)))
    seen = observe(HELICOID, all_shown(HELICOID, faults, possible))
    found = log_weights(seen, usual_priors(HELICOID), (SEAT, START, RING))
    assert max(found, key=lambda h: found[h]) == Hypothesis({START, RING}, starts)  # type: ignore[arg-type]
