"""A rangefinder's coincidence against numbers worked by hand, and the right way round."""

import pytest

from optics.measure.uncertainty import exact
from optics.readings.kinds.coincidence import CoincidenceReading
from tests.optics.readings.kinds.bench import CAMERA, error


def test_images_that_meet_with_the_ring_too_near_show_a_lens_too_far_out() -> None:
    """With the ring at 1 m for a target at infinity, a lens of 90 mm stands 10 mm too far out."""
    far, near = exact(float("inf")), exact(1000.0)
    assert error(CAMERA, CoincidenceReading(far, near)) == pytest.approx(10.0, abs=1e-9)
    assert error(CAMERA, CoincidenceReading(near, far)) == pytest.approx(-10.0, abs=1e-9)


def test_only_a_coincidence_on_a_nearer_target_can_stand_in_for_another() -> None:
    """A nearer target may be read instead of a farther one, and never the other way round."""
    near, far = (CoincidenceReading(exact(d), exact(d)) for d in (1200.0, 12_000.0))
    assert near.is_nearer(far)
    assert not far.is_nearer(near)
