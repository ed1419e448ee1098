"""A slanting ruler, against numbers worked by hand, and the right way round."""

import math

import pytest

from optics.measure.uncertainty import exact
from optics.readings.kinds.ruler import RulerReading
from tests.optics.readings.kinds.bench import (
    CAMERA,
    error,
)


def test_a_ruler_sharp_on_the_near_side_of_its_zero_is_too_far_out() -> None:
    """Sharp 100 mm along a 60° ruler towards the camera, 50 mm nearer, the lens is too far out."""
    slope = exact(math.radians(60))
    reading = RulerReading(exact(1050.0), exact(100.0), slope, exact(math.inf))
    sharp, last = reading.steps(CAMERA)
    assert sharp.result.value == pytest.approx(1000.0, abs=1e-9)
    assert last.result.value == pytest.approx(10.0, abs=1e-9)
    at_aim = RulerReading(exact(1000.0), exact(100.0), slope, exact(1000.0))
    beyond = RulerReading(exact(1000.0), exact(-100.0), slope, exact(1000.0))
    assert error(CAMERA, at_aim) > 0 > error(CAMERA, beyond)
