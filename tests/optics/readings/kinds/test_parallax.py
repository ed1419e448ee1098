"""Parallax on the glass, against numbers worked by hand, and the right way round."""

from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.readings import Sense


def test_an_image_that_moves_with_the_eye_is_too_far_out() -> None:
    """Of two things in line the farther moves with the eye, and here it is nearer the lens."""
    assert ParallaxReading(True).sense is Sense.TOO_FAR_OUT
    assert ParallaxReading(False).sense is Sense.TOO_FAR_IN
    assert ParallaxReading(None).sense is Sense.RIGHT
