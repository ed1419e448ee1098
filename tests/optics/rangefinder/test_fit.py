"""Zero and gain from readings, against numpy's least squares and repeated play."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate, Source, exact, within
from optics.rangefinder.acuity import Acuity
from optics.rangefinder.coupling import Coupling, set_at
from optics.rangefinder.fit import Fit, correlation, fit
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import Apart, Coincidence, Reading, Ring
from tests.optics.rangefinder.workshop import camera, extension, halved, sight_angle

FINDER, BODY = Rangefinder(40.0, 20.0), camera(50, 2)
DESIGN = set_at(BODY, FINDER, math.inf, 1000.0)
KEEN = Acuity(1e-9, "keen eye", "assumed")


def subject_at(out: float) -> float:
    """Return the film distance that a lens standing so far out is focused on."""
    return math.inf if out == 0 else 100 + out + 2500 / out


def meeting(out: float, coupling: Coupling, slip: float = 0.0) -> Coincidence:
    """Return the target on which the images meet with the lens so far out."""
    angle = coupling.zero + coupling.gain * out + coupling.curvature * out**2 + slip
    true = 20 + 40 / math.tan(angle) if angle > 0 else math.inf
    return Coincidence(exact(true), exact(subject_at(out)))


@given(zero=st.floats(1e-4, 2e-3), stretch=st.floats(0.85, 1.15))
@settings(deadline=None)
def test_zero_and_gain_come_back(zero: float, stretch: float) -> None:
    """From faultless readings the hidden zero and gain are found."""
    hidden = Coupling(zero, DESIGN.gain * stretch)
    found = fit(BODY, FINDER, [meeting(x, hidden) for x in (0.0, 0.8, 2.7)], DESIGN, KEEN)
    assert found.zero.value == pytest.approx(zero, abs=1e-9)
    assert found.gain.value == pytest.approx(hidden.gain, rel=1e-7)
    assert found.curvature.value == 0
    assert found.missing == ()


def test_curvature_is_kept_only_where_the_readings_show_it() -> None:
    """A bent linkage is found by a keen eye and left alone by one that cannot see it."""
    hidden = Coupling(3e-4, DESIGN.gain, 2e-4)
    readings = [meeting(x, hidden) for x in (0.0, 0.7, 1.4, 2.1, 2.8)]
    keen = fit(BODY, FINDER, readings, DESIGN, Acuity(1e-6, "keen eye", "assumed"))
    assert keen.curvature.value == pytest.approx(2e-4, rel=1e-6)
    slight = Coupling(3e-4, DESIGN.gain, 5e-5)
    readings = [meeting(x, slight) for x in (0.0, 0.7, 1.4, 2.1, 2.8)]
    dull = fit(BODY, FINDER, readings, DESIGN)
    assert dull.curvature == exact(0.0)


def test_weights_are_those_of_numpy() -> None:
    """With unequal tapes the answer and its covariance are numpy's weighted least squares."""
    outs, limits = np.array([0.5, 1.2, 2.0, 2.7]), np.array([400.0, 30.0, 2.0, 8.0])
    slips = np.array([2e-4, -1e-4, 5e-5, 1e-4])
    hidden = Coupling(3e-4, DESIGN.gain * 1.05)
    readings, angles, spreads = [], [], []
    for x, limit, slip in zip(outs, limits, slips, strict=True):
        true = float(meeting(float(x), hidden, float(slip)).true.value)
        readings.append(Coincidence(within(true, limit, "tape"), exact(subject_at(float(x)))))
        angles.append(sight_angle(40, 20, true))
        slope = 40 / ((true - 20) ** 2 + 40**2)
        spreads.append(math.hypot(slope * limit, 1 / 3437.7468) / math.sqrt(3))
    (gain, zero), covariance = np.polyfit(outs, angles, 1, w=1 / np.array(spreads), cov="unscaled")
    found = fit(BODY, FINDER, readings, DESIGN)
    assert found.zero.value == pytest.approx(zero, rel=1e-6)
    assert found.gain.value == pytest.approx(gain, rel=1e-6)
    assert found.scatter < 1
    assert found.gain.standard == pytest.approx(math.sqrt(covariance[0, 0]), rel=1e-4)
    assert found.zero.standard == pytest.approx(math.sqrt(covariance[1, 1]), rel=1e-4)
    expected = covariance[0, 1] / math.sqrt(covariance[0, 0] * covariance[1, 1])
    assert found.correlation == pytest.approx(expected, abs=1e-4)


def test_two_readings_by_hand() -> None:
    """From infinity and 1 m the gain's doubt is √2 times the eye's over the extension."""
    readings = [meeting(0.0, Coupling(0.0, DESIGN.gain)), Coincidence(exact(1e3), exact(1e3))]
    found = fit(BODY, FINDER, readings, DESIGN)
    eye = 1 / 3437.7468 / math.sqrt(3)
    out = extension(50, 1000)
    assert found.zero.standard == pytest.approx(eye, rel=1e-6)
    assert found.gain.standard == pytest.approx(math.sqrt(2) * eye / out, rel=1e-6)
    # The far reading raises the zero and lowers the gain: −1/√2.
    assert found.correlation == pytest.approx(-math.sqrt(0.5), rel=1e-6)
    # At either target the film error is known as well as its own reading.
    assert found.film_error(1000.0).standard == pytest.approx(eye / DESIGN.gain, rel=1e-3)


def test_uncertainty_covers_repeated_play() -> None:
    """Of 400 readers with an uneven hand the stated 95 per cent hold the truth 93 to 97 times."""
    chance, held = np.random.default_rng(4), 0
    hidden = Coupling(8e-4, DESIGN.gain * 0.95)
    for _ in range(400):
        slips = chance.uniform(-1, 1, 6) / 3437.7468
        outs = (0.0, 0.0, 0.9, 0.9, 2.7, 2.7)
        readings = [meeting(x, hidden, float(s)) for x, s in zip(outs, slips, strict=True)]
        found = fit(BODY, FINDER, readings, DESIGN)
        held += abs(found.gain.value - hidden.gain) <= found.gain.expanded
    # Limits and not sigmas were stated, so a little more than 95 in a hundred may hold.
    assert 0.93 <= held / 400 <= 0.995


def test_one_distance_leaves_the_gain_as_designed() -> None:
    """A single reading gives the zero, and it is said what is missing for the gain."""
    found = fit(BODY, FINDER, [meeting(0.0, Coupling(5e-4, DESIGN.gain))], DESIGN)
    assert found.zero.value == pytest.approx(5e-4, rel=1e-6)
    assert found.gain == exact(DESIGN.gain)
    assert "Read a near target" in found.missing[0]


def test_distances_too_close_are_told() -> None:
    """Two far targets near each other cannot give the gain, and it is said."""
    hidden = Coupling(1e-4, DESIGN.gain)
    found = fit(BODY, FINDER, [meeting(x, hidden) for x in (0.02, 0.05)], DESIGN)
    assert "too close" in found.missing[0]


def test_two_distances_cannot_show_a_bend() -> None:
    """With two distances it is said that a third would show whether the linkage is straight."""
    found = fit(BODY, FINDER, [meeting(x, DESIGN) for x in (0.01, 2.7)], DESIGN)
    assert "third" in found.missing[0]


def test_no_readings_are_refused() -> None:
    """Without any reading it is said what to do."""
    with pytest.raises(NoAnswer, match="far and on a near target"):
        fit(BODY, FINDER, [], DESIGN)


def test_scatter_beyond_the_eye_is_told_and_counted() -> None:
    """Readings that scatter five times the eye's limit widen the uncertainty and say so."""
    limit = 5 / 3437.7468
    slips = (limit, -limit, limit, -limit)
    hidden = Coupling(3e-3, DESIGN.gain)
    readings = [meeting(x, hidden, s) for x, s in zip((0.0, 0.0, 2.7, 2.7), slips, strict=True)]
    found = fit(BODY, FINDER, readings, DESIGN)
    # Standard limit/√3 expected, limit·√(4/2) found: √6 times five.
    assert found.scatter == pytest.approx(5 * math.sqrt(6), rel=1e-2)
    assert found.zero.dof < 3
    quiet = fit(BODY, FINDER, [meeting(x, hidden) for x in (0.0, 0.0, 2.7, 2.7)], DESIGN)
    assert found.zero.standard == pytest.approx(quiet.zero.standard * found.scatter, rel=1e-2)


def gap_reading(out: float, coupling: Coupling, target: float) -> Reading:
    """Return the gap seen on a target with the lens standing so far out."""
    gap = coupling.zero + coupling.gain * out - sight_angle(40, 20, target)
    ring = Ring.FARTHER if gap > 0 else Ring.NEARER
    return Apart(exact(target), exact(subject_at(out)), exact(abs(gap)), ring)


@given(zero=st.floats(-2e-3, 2e-3), stretch=st.floats(0.9, 1.1))
@settings(deadline=None)
def test_gaps_tell_as_much_as_coincidence(zero: float, stretch: float) -> None:
    """From the gaps seen on targets, even on infinity, zero and gain come back."""
    hidden = Coupling(zero, DESIGN.gain * stretch)
    readings = [
        gap_reading(0.0, hidden, math.inf),
        gap_reading(extension(50, 2000), hidden, 2000.0),
        gap_reading(extension(50, 1000), hidden, 1000.0),
    ]
    found = fit(BODY, FINDER, readings, DESIGN, KEEN)
    assert found.zero.value == pytest.approx(zero, abs=1e-8)
    assert found.gain.value == pytest.approx(hidden.gain, rel=1e-6)


def test_pairs_that_contradict_each_other_are_refused_in_words() -> None:
    """Far and near exchanged are a slip of the distances, and no ring is asked for."""
    far, near = meeting(0.0, DESIGN), meeting(2.0, DESIGN)
    crossed = [replace(far, true=near.true), replace(near, true=far.true)]
    with pytest.raises(NoAnswer, match="each distance on the lens scale stands with its own") as no:
        fit(BODY, FINDER, crossed, DESIGN, KEEN)
    assert "ring" not in str(no.value)


def apart(degrees: float, ring: Ring, out: float) -> Apart:
    """Return images seen apart at 1.2 m with the lens standing so far out."""
    return Apart(exact(1200.0), exact(subject_at(out)), exact(math.radians(degrees)), ring)


# At 1.2 m the sights need 40/1180 rad, 117′, and a 50 mm lens stands 2.27 mm out.
@pytest.mark.parametrize(
    ("gap", "meets"),
    [
        (apart(1.0, Ring.NEARER, 2.4), [0.1, 2.27]),
        # The gap lies a little short of where the images meet, so the ring must go nearer.
        (apart(1 / 6, Ring.FARTHER, 2.0), [0.1, 2.27]),
        (apart(2.5, Ring.NEARER, 2.27), [0.1]),
    ],
    ids=["too large", "the wrong way", "beyond infinity"],
)
def test_a_gap_that_contradicts_the_pairs_is_named(gap: Apart, meets: list[float]) -> None:
    """A gap by which the sights would turn apart is named with its figures and the ring."""
    readings = [*(meeting(x, DESIGN) for x in meets), gap]
    with pytest.raises(NoAnswer, match="contradict the other readings") as no:
        fit(BODY, FINDER, readings, DESIGN)
    assert str(no.value).startswith("Images apart 1 (")
    assert f"on the target at 1.2 m, ring {gap.ring})" in str(no.value)
    assert "check which way the ring would go" in str(no.value)


def test_gaps_that_contradict_each_other_are_both_named() -> None:
    """Two gaps without a pair are told by their numbers."""
    far = replace(apart(0.5, Ring.FARTHER, 0.0), true=exact(math.inf))
    near = apart(1.8, Ring.NEARER, 2.27)
    with pytest.raises(NoAnswer, match=r"Images apart 1 \(.* and 2 \(.* contradict each other"):
        fit(BODY, FINDER, [far, near], DESIGN)


def test_a_scale_set_by_eye_counts_through_the_gain() -> None:
    """How well the lens scale was read widens the zero by the gain times that."""
    scale = within(1000.0, 20.0, "scale")
    readings = [Coincidence(exact(1000.0), scale)]
    found = fit(BODY, FINDER, readings, DESIGN, KEEN)
    moved = (extension(50, 990) - extension(50, 1010)) / 20
    assert found.zero.standard == pytest.approx(DESIGN.gain * moved * 20 / math.sqrt(3), rel=1e-3)


def test_the_film_error_is_where_the_lens_is_left() -> None:
    """The fitted film error at a distance is what halving the hidden linkage gives."""
    hidden = Coupling(6e-4, DESIGN.gain * 1.03)
    found: Fit = fit(BODY, FINDER, [meeting(x, hidden) for x in (0.1, 1.0, 2.7)], DESIGN, KEEN)
    stands = halved(lambda x: hidden.zero + hidden.gain * x - sight_angle(40, 20, 3000), -1, 6)
    expected = stands - extension(50, 3000)
    assert found.film_error(3000.0).value == pytest.approx(expected, abs=1e-6)


def test_correlation_of_what_shares_nothing_is_none() -> None:
    """Two figures without a common source are not correlated; one with itself is wholly."""
    one, other = (Estimate(1.0, {Source("a"): 0.1}) for _ in range(2))
    assert correlation(one, other) == 0
    assert correlation(one, one) == pytest.approx(1)
    assert correlation(one, exact(1.0)) == 0
