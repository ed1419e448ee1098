"""Which cause is believed for which ring, and when none is."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from optics.errors import ShimwrightError
from optics.measure.uncertainty import Estimate, Source
from optics.scales.explanations import (
    RIGHT_BEFOREHAND,
    SLIP,
    Reference,
    ScaleFault,
    explain,
    reference_named,
    verdict,
)
from optics.scales.ring_marks import ScaleMark, measure_scale
from optics.scales.scale_fit import RingScale
from tests.optics.scales.rings import (
    DEGREE,
    DISTANCES,
    LIMIT,
    OSTRIN,
    engraver,
    of_other_lens,
    read,
)

RING = RingScale.of(OSTRIN)


def causes(
    angles: np.ndarray, limit: float = LIMIT, reference: Reference = Reference.LENS_AT_INFINITY
):
    """The explanations of a ring read to a limit."""
    return explain(RING, measure_scale(DISTANCES, read(angles, limit, 7), limit), reference)


def test_a_right_ring_is_believed_right() -> None:
    """A camera's own ring is explained by nothing being wrong."""
    found = verdict(causes(engraver(OSTRIN).angles()))
    assert found is not None
    assert found.cause is ScaleFault.RIGHT


def test_a_slipped_ring_is_believed_slipped() -> None:
    """A ring that is 3° round is explained by a slip of 3°."""
    found = verdict(causes(engraver(OSTRIN).angles() + 3 * DEGREE))
    assert found is not None
    assert found.cause is ScaleFault.SLIPPED
    zero = found.found["zero_angle"]
    assert zero.value == pytest.approx(3 * DEGREE, abs=zero.expanded)


def test_another_lens_and_another_lead_need_fine_readings() -> None:
    """A ring of 50 mm is told from one of another lead when read finely, and else is not."""
    angles = of_other_lens(OSTRIN, 50.0).angles()
    coarse = causes(angles)
    assert verdict(coarse) is None
    assert {e.cause for e in coarse[:2]} == {ScaleFault.OTHER_LENS, ScaleFault.OTHER_LEAD}
    fine = verdict(causes(angles, LIMIT / 10))
    assert fine is not None
    assert fine.cause is ScaleFault.OTHER_LENS
    found = fine.found["focal_length"]
    assert found.value == pytest.approx(50.0, abs=found.expanded)


def test_a_wrong_mark_is_believed_wrong() -> None:
    """A ring right but for one mark 2° out is explained by that mark."""
    angles = engraver(OSTRIN).angles()
    angles[4] += 2 * DEGREE
    found = verdict(causes(angles))
    assert found is not None
    assert (found.cause, found.mark) == (ScaleFault.WRONG_MARK, 4)
    assert found.shift is not None
    assert found.shift.value == pytest.approx(2 * DEGREE, abs=found.shift.expanded)


def test_two_faults_at_once_are_not_forced_into_one() -> None:
    """A ring of another lens with two wrong marks is explained by none of the causes."""
    angles = of_other_lens(OSTRIN, 52.0).angles()
    angles[3] += 4 * DEGREE
    angles[6] -= 4 * DEGREE
    found = causes(angles)
    assert verdict(found) is None
    assert found[0].probability < 1e-6


def test_from_a_mark_on_the_ring_a_slip_cannot_be_seen() -> None:
    """Measured from a mark on the ring, a slip is not among the causes and hides nothing else."""
    found = causes(engraver(OSTRIN).angles() + 20 * DEGREE, reference=Reference.RING_MARK)
    assert ScaleFault.SLIPPED not in {e.cause for e in found}
    assert found[0].cause is ScaleFault.RIGHT
    assert "its zero is left free" in found[0].assumes


def test_weights_add_up_and_each_says_what_it_assumes() -> None:
    """The weights of all causes make one, and every cause states its assumptions."""
    found = causes(engraver(OSTRIN).angles())
    assert sum(e.weight for e in found) == pytest.approx(1.0)
    assert [e.weight for e in found] == sorted((e.weight for e in found), reverse=True)
    assert {e.cause for e in found} == set(ScaleFault)
    assert all(len(e.assumes) > 10 for e in found)


def test_weight_of_right_against_slipped_is_the_integral() -> None:
    """Odds of a slip are those of averaging exp(−χ²/2) over the slips held possible beforehand."""
    each, shift = 0.4 * DEGREE, 0.35 * DEGREE
    belongs = engraver(OSTRIN).angles()
    wave = 0.2 * DEGREE * np.array([1, -1] * 5)
    angles = belongs + shift + wave
    marks = tuple(
        ScaleMark(d, Estimate(float(a), {Source("reading"): each}))
        for d, a in zip(DISTANCES, angles, strict=True)
    )

    def likelihood(slip: float) -> float:
        return math.exp(-np.sum((angles - belongs - slip) ** 2) / each**2 / 2)

    averaged, _ = quad(
        lambda slip: (
            likelihood(slip) * math.exp(-((slip / SLIP) ** 2) / 2) / (SLIP * math.sqrt(2 * math.pi))
        ),
        -5 * DEGREE,
        5 * DEGREE,
        epsabs=0,
        epsrel=1e-10,
        points=[shift],
    )
    by_cause = {e.cause: e.weight for e in explain(RING, marks, Reference.LENS_AT_INFINITY)}
    odds = by_cause[ScaleFault.RIGHT] / by_cause[ScaleFault.SLIPPED]
    assert odds == pytest.approx(RIGHT_BEFOREHAND * likelihood(0.0) / averaged, rel=1e-6)


def test_an_unknown_reference_is_refused() -> None:
    """A reference that is neither of the two is refused in one sentence that names both."""
    assert reference_named("ring mark") is Reference.RING_MARK
    with pytest.raises(ShimwrightError, match=r"lens at infinity, ring mark: got 'here'; .*\.$"):
        reference_named("here")
