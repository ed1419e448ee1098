"""Coincidence, images apart, and the signs of both."""

import math

import pytest

from optics.errors import OutOfRange
from optics.measure.uncertainty import exact, within
from optics.rangefinder.acuity import WORKING
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import (
    Apart,
    Coincidence,
    Ring,
    apart_on_target,
    error_read,
    eye,
    target_angle,
)
from tests.optics.rangefinder.workshop import camera, extension

FINDER = Rangefinder(40.0, 20.0, 0.5)


def test_images_met_with_the_lens_set_nearer_mean_too_far_out() -> None:
    """Coincidence on a 2 m target with the scale at 1.9 m leaves the lens too far out."""
    error = error_read(camera(50), Coincidence(exact(2000.0), exact(1900.0)), 0.0146)
    assert error == pytest.approx(extension(50, 1900) - extension(50, 2000), abs=1e-9)
    assert error > 0


@pytest.mark.parametrize(("ring", "sign"), [(Ring.FARTHER, -1), (Ring.NEARER, 1)])
def test_the_ring_that_closes_the_gap_gives_its_sign(ring: Ring, sign: int) -> None:
    """Images that the ring would bring together towards farther leave the lens too far in."""
    reading = Apart(exact(1000.0), exact(1000.0), exact(0.00146), ring)
    # A gap of a tenth of the gain is a tenth of a millimetre.
    assert error_read(camera(50), reading, 0.0146) == pytest.approx(sign * 0.1, abs=1e-12)
    # The rangefinder stands at the target's angle and the gap on top of it.
    assert target_angle(FINDER, reading).value == pytest.approx(
        math.atan2(40, 980) - sign * 0.00146
    )


def test_millimetres_on_a_target_are_an_angle() -> None:
    """Five millimetres between the images on a ruler 1 m before the base line are 5 mrad."""
    angle = apart_on_target(FINDER, exact(1020.0), exact(5.0))
    assert angle.value == pytest.approx(0.005, rel=1e-5)


def test_millimetres_at_infinity_are_refused() -> None:
    """On a target at infinity millimetres tell nothing, and it is said what to do."""
    with pytest.raises(OutOfRange, match="read the angle"):
        apart_on_target(FINDER, exact(math.inf), exact(5.0))


def test_a_small_finder_makes_the_eye_coarser() -> None:
    """At half magnification one minute at the eye is two minutes before the finder."""
    seen = eye(FINDER, WORKING, "eye")
    assert seen.standard == pytest.approx(2 / 3437.7468 / math.sqrt(3), rel=1e-6)


def test_a_tape_that_is_out_shows_in_the_angle() -> None:
    """Ten millimetres on 2 m change the angle by b·ΔD/D²."""
    reading = Coincidence(within(2020.0, 10.0, "tape"), exact(2000.0))
    expected = 40 * 10 / 2000**2 / math.sqrt(3)
    assert target_angle(FINDER, reading).standard == pytest.approx(expected, rel=1e-3)
