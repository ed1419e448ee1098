"""What a fit finds on rings that were engraved by other means, and which marks it calls wrong."""

import math

import numpy as np
import pytest

from optics.camera.camera import Bed, Camera, Lens
from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.measure.uncertainty import Estimate, Source
from optics.scales.ring_marks import Along, ScaleMark, measure_scale
from optics.scales.scale_fit import RingScale, fit_and_name, fit_scale, threshold
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

ZERO_AND_LENS = ("zero_angle", "focal_length")


def marks_at(angles: np.ndarray, each: float = LIMIT) -> tuple[ScaleMark, ...]:
    """Marks known to a standard uncertainty, each by its own source."""
    return tuple(
        ScaleMark(d, Estimate(float(a), {Source("reading"): each}))
        for d, a in zip(DISTANCES, angles, strict=True)
    )


@pytest.mark.parametrize("camera", [OSTRIN, CORVANE], ids=lambda c: c.name)
def test_the_scale_is_where_the_draughtsman_puts_it(camera: Camera) -> None:
    """Fitting nothing, a camera's own marks leave no residual."""
    fit = fit_scale(RingScale.of(camera), marks_at(engraver(camera).angles()), ())
    assert max(abs(mark.residual) for mark in fit.marks) < 1e-9
    assert (fit.dof, fit.found) == (10, {})


@pytest.mark.parametrize(
    ("camera", "name", "value"),
    [(OSTRIN, "focal_length", 50.0), (CORVANE, "group_focal_length", 53.0)],
)
def test_another_lens_is_found_exactly_from_exact_marks(
    camera: Camera, name: str, value: float
) -> None:
    """Marks drawn for another lens on the same thread give back its focal length and no slip."""
    angles = of_other_lens(camera, value).angles()
    fit = fit_scale(RingScale.of(camera), marks_at(angles), ("zero_angle", name))
    assert fit.found[name].value == pytest.approx(value, rel=1e-9)
    assert fit.found["zero_angle"].value == pytest.approx(0, abs=1e-9)
    assert fit.chi_square < 1e-12


def test_lens_and_lead_together_need_fine_readings() -> None:
    """Read to 0.25° focal length and lead are not told apart; read to a fiftieth, they are."""
    ring, free = RingScale.of(OSTRIN), ("zero_angle", "focal_length", "lead")
    angles = of_other_lens(OSTRIN, 50.0).angles()
    coarse = fit_scale(ring, marks_at(angles, LIMIT), free)
    fine = fit_scale(ring, marks_at(angles, LIMIT / 50), free)
    assert not coarse.is_determined("focal_length")
    assert not coarse.is_determined("lead")
    assert fine.is_determined("focal_length")
    assert fine.is_determined("lead")
    assert fine.condition > 100
    assert fine.found["lead"].value == pytest.approx(18.0, rel=1e-6)


def test_signs_are_those_of_the_lens() -> None:
    """A mark a degree too far towards the near end leaves a lens of lead 18 mm 0.05 mm out."""
    angles = engraver(OSTRIN).angles()
    angles[4] += DEGREE
    mark = fit_scale(RingScale.of(OSTRIN), marks_at(angles), ()).marks[4]
    assert mark.residual == pytest.approx(DEGREE, rel=1e-6)
    assert mark.at_film == pytest.approx(18 / 360, rel=1e-6)
    # A degree at the edge of a ring of 52 mm.
    assert mark.arc == pytest.approx(math.pi * 52 / 360, rel=1e-6)


def test_a_front_cell_counts_more_at_the_film() -> None:
    """A degree of a cell's ring counts (75/51)² times at the film."""
    angles = engraver(CORVANE).angles()
    angles[4] += DEGREE
    mark = fit_scale(RingScale.of(CORVANE), marks_at(angles), ()).marks[4]
    assert mark.at_film == pytest.approx(9 / 360 * (75 / 51) ** 2, rel=1e-6)


def test_leave_one_out_is_leaving_one_out() -> None:
    """A mark's error as the others see it is its residual against a fit without it."""
    ring = RingScale.of(OSTRIN)
    marks = measure_scale(DISTANCES, read(engraver(OSTRIN).angles(), seed=5), LIMIT)
    fit = fit_scale(ring, marks, ZERO_AND_LENS)
    for i, mark in enumerate(marks):
        without = fit_scale(ring, (*marks[:i], *marks[i + 1 :]), ZERO_AND_LENS)
        known = ring.given | {name: e.value for name, e in without.found.items()}
        belongs = ring.formula.value(film_distance=mark.distance, **known)
        out_by = fit.marks[i].out_by
        assert out_by is not None
        assert out_by.value == pytest.approx(mark.angle.value - belongs, abs=2e-5)
        # One mark more or less changes chi-square by the square of its standardised error.
        standardised = fit.marks[i].standardised
        assert standardised is not None
        assert standardised**2 == pytest.approx(fit.chi_square - without.chi_square, abs=0.01)


def test_a_wrong_mark_is_named_and_left_out() -> None:
    """A mark 3° out is called wrong, its error is found, and the others' fit stays right."""
    angles = of_other_lens(OSTRIN, 50.0).angles()
    angles[6] += 3 * DEGREE
    fit = fit_and_name(RingScale.of(OSTRIN), marks_at(angles), ZERO_AND_LENS)
    assert (fit.wrong, fit.rivals) == ((6,), ())
    assert fit.marks[6].residual == pytest.approx(3 * DEGREE, rel=1e-6)
    assert fit.marks[6].disagrees
    assert not any(mark.disagrees for mark in fit.marks if mark is not fit.marks[6])
    assert fit.found["focal_length"].value == pytest.approx(50.0, rel=1e-9)


def test_two_wrong_marks_are_both_named() -> None:
    """Marks 3° and −4° out are both called wrong, and no other is."""
    angles = engraver(OSTRIN).angles()
    angles[2] += 3 * DEGREE
    angles[7] -= 4 * DEGREE
    fit = fit_and_name(RingScale.of(OSTRIN), marks_at(angles), ZERO_AND_LENS)
    assert sorted(fit.wrong) == [2, 7]


def test_a_mark_that_carries_the_fit_alone_cannot_be_tested() -> None:
    """With one near mark only, zero and focal length hang on it, and it is not judged."""
    far = (math.inf, math.inf, math.inf, 1000.0)
    angles = [engraver(OSTRIN).angle(distance) for distance in far]
    marks = measure_scale(far, [[a] for a in angles], LIMIT)
    fit = fit_scale(RingScale.of(OSTRIN), marks, ZERO_AND_LENS)
    assert fit.marks[3].standardised is None
    assert fit.marks[3].out_by is None
    assert not fit.marks[3].disagrees


def test_a_shared_diameter_error_widens_the_lead() -> None:
    """A ring diameter out by one per cent leaves the lead, found from arcs, out by one per cent."""
    angles = engraver(OSTRIN).angles()
    diameter = Estimate(52.0, {Source("diameter"): 0.52})
    marks = measure_scale(DISTANCES, [[26 * a] for a in angles], 0.001, Along.ARC, diameter)
    fit = fit_scale(RingScale.of(OSTRIN), marks, ("zero_angle", "lead"))
    assert fit.found["lead"].standard / 18 == pytest.approx(0.01, rel=0.01)


def test_threshold_keeps_false_alarms_over_all_marks() -> None:
    """For one mark the threshold is the normal 1.960, for ten 2.800."""
    # Two-sided normal quantiles of 0.95 and of 0.95^(1/10) = 0.994884.
    assert threshold(1, math.inf) == pytest.approx(1.960, abs=5e-4)
    assert threshold(10, math.inf) == pytest.approx(2.800, abs=5e-4)
    assert threshold(10, 5) > threshold(10, math.inf)


def test_what_cannot_be_fitted_is_refused() -> None:
    """A bed, an unknown figure, a mark too near and too few marks are each refused."""
    bed = Camera("bed", Lens(105.0, 3.5), Bed(), 0.06)
    with pytest.raises(NoAnswer, match=r"needs a ring on a focusing thread: .*\.$"):
        RingScale.of(bed)
    ring = RingScale.of(OSTRIN)
    marks = marks_at(engraver(OSTRIN).angles())
    with pytest.raises(ShimwrightError, match=r"zero_angle, focal_length, lead: got hiatus; .*\.$"):
        fit_scale(ring, marks, ("hiatus",))
    with pytest.raises(OutOfRange, match=r"at least 188\.6 mm"):
        fit_scale(ring, (ScaleMark(150.0, marks[0].angle),), ())
    with pytest.raises(NoAnswer, match=r"do not determine .*\.$"):
        fit_scale(ring, marks[:1], ZERO_AND_LENS)
