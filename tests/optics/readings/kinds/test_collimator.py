"""A reticle shifted until sharp, against numbers worked by hand, and the right way round."""

import math

import pytest

from optics.errors import OutOfRange
from optics.measure.verdict import Verdict
from optics.readings.correction import correct
from tests.optics.readings.kinds.bench import (
    CAMERA,
    collimated,
    error,
)


def test_a_reticle_moved_towards_the_collimators_lens_means_too_far_out() -> None:
    """With the focal points together, a reticle 4 mm inside the focus is 4/16 = 0.25 mm."""
    assert error(CAMERA, collimated(4.0, 450.0)) == pytest.approx(0.25, abs=1e-9)
    assert error(CAMERA, collimated(-4.0, 450.0)) == pytest.approx(-0.25, abs=1e-9)


def test_a_collimators_distance_that_nobody_told_is_in_the_uncertainty() -> None:
    """From touching to f + f_c every place is equally likely, and what that makes is in the ±."""
    # By hand, with a shift of 36 mm: touching 8100/(3600 − 450) = 2.5714, with the focal points
    # together 8100/3600 = 2.25; half of the way between them over √3 is 0.0928 mm.
    told, untold = (
        collimated(36.0, apart, 0.01).steps(CAMERA)[-1].result for apart in (225.0, None)
    )
    assert untold.value == pytest.approx(told.value, abs=1e-12)
    more = math.sqrt(untold.standard**2 - told.standard**2)
    assert more == pytest.approx(0.0928, abs=0.0005)
    names = {source.name for source in untold.parts} - {source.name for source in told.parts}
    assert names == {"collimator lens to camera lens, not told"}
    assert collimated(36.0, None).span(CAMERA) == pytest.approx((2.5714, 2.25), abs=5e-5)


def test_the_same_reading_worked_twice_shares_its_untold_distance() -> None:
    """Two answers from one reading share its unknown distance, and differ by nothing."""
    reading = collimated(36.0, None, 0.01)
    first, second = (reading.steps(CAMERA)[-1].result for _ in range(2))
    assert first.plus(second, -1.0).standard == pytest.approx(0.0, abs=1e-12)


def test_a_shift_that_no_image_goes_with_is_refused_in_one_sentence() -> None:
    """A shift that puts the object at or inside the front focal point says so, told or not."""
    # By hand: 360²/(360 + 90) = 288 mm with the lenses touching.
    for reading in (collimated(288.0, 0.0), collimated(300.0, None), collimated(360.0, 450.0)):
        with pytest.raises(OutOfRange, match=r"^The shift of the reticle [^.]*\.?[^.]*\.$"):
            reading.steps(CAMERA)


def test_an_untold_distance_is_not_taken_for_the_whole_uncertainty() -> None:
    """A single shift of no stated limit carries the eye's blur beside the untold distance."""
    found = correct(CAMERA, collimated(0.01, None))
    distance_alone = collimated(0.01, None).steps(CAMERA)[-1].result.standard
    assert found.error.standard > 5 * distance_alone
    assert correct(CAMERA, collimated(0.01, None, 0.01)).verdict is Verdict.INSIDE
