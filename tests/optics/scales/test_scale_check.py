"""The scale check as a whole: what it answers, how often it is right, and what it refuses."""

import math

import numpy as np
import pytest

from optics.camera.camera import Bed, Camera, Lens
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, Source
from optics.scales.explanations import ScaleFault
from optics.scales.ring_marks import ScaleMark, measure_scale
from optics.scales.scale_check import check_scale
from optics.scales.scale_fit import RingScale, fit_and_name, fit_scale
from tests.optics.scales.rings import (
    CORVANE,
    DEGREE,
    DISTANCES,
    LIMIT,
    OSTRIN,
    engraver,
    of_other_lens,
    read,
)

RINGS = 2000
SLIP = 0.05


@pytest.mark.parametrize(
    ("camera", "name", "value"),
    [(OSTRIN, "focal_length", 50.0), (CORVANE, "group_focal_length", 53.0)],
    ids=["unit", "cell"],
)
def test_intervals_cover_the_truth(camera: Camera, name: str, value: float) -> None:
    """Over 2,000 seeded rings, 95 % intervals of zero and focal length hold 93 to 97 in 100."""
    ring, chance = RingScale.of(camera), np.random.default_rng(20)
    angles = of_other_lens(camera, value).angles() + SLIP
    truth = {"zero_angle": SLIP, name: value}
    hits = dict.fromkeys(truth, 0)
    for _ in range(RINGS):
        noisy = angles + chance.uniform(-LIMIT, LIMIT, len(angles))
        marks = measure_scale(DISTANCES, [[a] for a in noisy], LIMIT)
        found = fit_scale(ring, marks, tuple(truth)).found
        for figure, true in truth.items():
            hits[figure] += abs(found[figure].value - true) <= found[figure].expanded
    assert all(0.93 * RINGS <= count <= 0.97 * RINGS for count in hits.values()), hits


def test_intervals_from_three_repeats_cover_the_truth() -> None:
    """Where the spread comes from three repeats of each mark, intervals still hold 93 to 97."""
    ring, chance = RingScale.of(OSTRIN), np.random.default_rng(21)
    angles = engraver(OSTRIN).angles()
    hits, rings = 0, 600
    for _ in range(rings):
        readings = angles[:, None] + chance.normal(0, 0.2 * DEGREE, (len(angles), 3))
        marks = measure_scale(DISTANCES, readings.tolist(), 0.0)
        found = fit_scale(ring, marks, ("zero_angle", "focal_length")).found["focal_length"]
        hits += abs(found.value - 47.0) <= found.expanded
    # Never too few; a pooled spread is counted with no more degrees of freedom than it has.
    assert 0.93 * rings <= hits


def test_a_planted_wrong_mark_is_named() -> None:
    """In 500 seeded rings a mark 6σ out, as the others see it, is named in 99 of 100 or more."""
    ring, chance = RingScale.of(OSTRIN), np.random.default_rng(22)
    free, each = ("zero_angle", "focal_length"), 0.15 * DEGREE
    angles = of_other_lens(OSTRIN, 49.0).angles() + SLIP

    def marks(at: np.ndarray) -> tuple[ScaleMark, ...]:
        return tuple(
            ScaleMark(d, Estimate(float(a), {Source("reading"): each}))
            for d, a in zip(DISTANCES, at, strict=True)
        )

    sigmas = [m.out_by.standard for m in fit_scale(ring, marks(angles), free).marks if m.out_by]
    named = 0
    for trial in range(500):
        place = trial % len(DISTANCES)
        noisy = angles + chance.normal(0, each, len(angles))
        noisy[place] += 6 * sigmas[place] * chance.choice([-1, 1])
        named += place in fit_and_name(ring, marks(noisy), free).wrong
    assert named >= 495


def test_faultless_rings_are_seldom_accused() -> None:
    """Of 600 seeded faultless rings no more than 7 in 100 have any mark called wrong."""
    ring, chance = RingScale.of(OSTRIN), np.random.default_rng(23)
    angles, each = engraver(OSTRIN).angles(), 0.15 * DEGREE
    accused = 0
    for _ in range(600):
        marks = tuple(
            ScaleMark(d, Estimate(float(a + chance.normal(0, each)), {Source("reading"): each}))
            for d, a in zip(DISTANCES, angles, strict=True)
        )
        accused += bool(fit_and_name(ring, marks, ("zero_angle", "focal_length")).wrong)
    assert accused <= 0.07 * 600


def test_causes_are_named_and_seldom_falsely() -> None:
    """Of 60 seeded rings of each kind, at least 9 in 10 get their cause, and none another."""
    right = engraver(OSTRIN).angles()
    wrong = right.copy()
    wrong[5] += 2 * DEGREE
    kinds = {
        ScaleFault.RIGHT: right,
        ScaleFault.SLIPPED: right + 2 * DEGREE,
        ScaleFault.WRONG_MARK: wrong,
    }
    for cause, angles in kinds.items():
        verdicts = [
            check_scale(OSTRIN, measure_scale(DISTANCES, read(angles, seed=s), LIMIT)).verdict
            for s in range(60)
        ]
        told = [found.cause for found in verdicts if found is not None]
        assert told.count(cause) >= 54
        assert set(told) == {cause}


def test_a_check_holds_every_part() -> None:
    """A check compares as it stands, fits what is asked, tries both figures, and explains."""
    marks = measure_scale(DISTANCES, read(of_other_lens(OSTRIN, 50.0).angles()), LIMIT)
    check = check_scale(OSTRIN, marks)
    assert check.as_it_stands.free == ()
    assert check.fit is not None
    assert check.fit.free == ("zero_angle", "focal_length")
    assert check.fit.found["focal_length"].value == pytest.approx(50.0, abs=0.2)
    assert check.both is not None
    assert not check.both_determined
    with_lead = check_scale(OSTRIN, marks, free=("zero_angle", "lead"))
    assert with_lead.fit is not None
    assert set(with_lead.fit.found) == {"zero_angle", "lead"}


def test_few_marks_still_give_what_they_can() -> None:
    """With two marks the comparison and the causes are there, and the fit has nothing over."""
    angles = engraver(OSTRIN).angles((math.inf, 1000.0))
    marks = measure_scale((math.inf, 1000.0), [[float(a)] for a in angles], LIMIT)
    check = check_scale(OSTRIN, marks)
    assert check.as_it_stands.dof == 2
    assert check.fit is not None
    assert check.fit.dof == 0
    assert check.both is None
    assert len(check.explanations) == len(ScaleFault)


def test_what_cannot_be_checked_is_refused() -> None:
    """One mark, a bed, a mark too near and marks without uncertainty are refused."""
    far = measure_scale((math.inf,), [[0.0]], LIMIT)
    with pytest.raises(NoAnswer, match=r"at least two different marks: got 1; .*\.$"):
        check_scale(OSTRIN, far)
    marks = measure_scale((math.inf, 1000.0), [[0.0], [0.9]], LIMIT)
    with pytest.raises(NoAnswer, match="focusing thread"):
        check_scale(Camera("bed", Lens(105.0, 3.5), Bed(), 0.06), marks)
    with pytest.raises(OutOfRange, match=r"at least 188\.6 mm"):
        check_scale(OSTRIN, measure_scale((math.inf, 150.0), [[0.0], [1.0]], LIMIT))
    with pytest.raises(OutOfRange, match="uncertainty of its own"):
        check_scale(OSTRIN, measure_scale((math.inf, 1000.0), [[0.0], [0.9]], 0.0))
