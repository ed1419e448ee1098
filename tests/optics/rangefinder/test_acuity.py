"""What the eye can tell, and which lenses a base can serve."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.errors import OutOfRange
from optics.rangefinder.acuity import (
    PRESETS,
    WORKING,
    Acuity,
    film_uncertainty,
    goal,
    looks_infinite_from,
    range_limits,
    service,
    stated,
)
from optics.rangefinder.model import Rangefinder
from tests.optics.rangefinder.workshop import camera, extension, sight_angle

BASES = st.floats(15, 80)
BACKS = st.floats(0, 40)


def test_every_preset_says_where_it_comes_from() -> None:
    """The working eye sees 60″ and the trained one 12″, and each has a source."""
    assert [round(math.degrees(p.angle) * 3600) for p in PRESETS] == [60, 12]
    assert all(p.source and p.name for p in PRESETS)
    assert stated(1e-4, "own test").source == "own test"


def test_an_acuity_below_nothing_is_refused() -> None:
    """A negative acuity is refused."""
    with pytest.raises(OutOfRange):
        stated(-1e-4)


@given(base=BASES, back=BACKS, subject=st.floats(700, 20_000))
def test_limits_lie_where_the_angle_differs_by_what_the_eye_sees(
    base: float, back: float, subject: float
) -> None:
    """At both limits the lines of sight stand one acuity over magnification from the true ones."""
    finder, eye = Rangefinder(base, back, 0.8), Acuity(1e-4, "eye", "assumed")
    limits = range_limits(finder, eye, subject)
    true = sight_angle(base, back, subject)
    # The limits take b/D for the angle: short by its cube over three at a base over D of 0.1.
    for seen, side in ((limits.nearest, 1), (limits.farthest, -1)):
        assert sight_angle(base, back, seen) - true == pytest.approx(side * 1.25e-4, rel=0.03)
    assert limits.nearest < subject < limits.farthest


@given(base=BASES, subject=st.floats(1000, 20_000))
def test_the_small_error_is_what_both_limits_tend_to(base: float, subject: float) -> None:
    """For a very keen eye both limits are the small-error figure away."""
    limits = range_limits(Rangefinder(base), Acuity(1e-8, "eye", "assumed"), subject)
    assert limits.farthest - subject == pytest.approx(limits.error, rel=1e-2)
    assert subject - limits.nearest == pytest.approx(limits.error, rel=1e-2)


def test_beyond_some_distance_all_is_infinity() -> None:
    """From where the whole angle is one acuity on, the farthest is infinity."""
    finder = Rangefinder(40.0, 20.0, 0.75)
    edge = looks_infinite_from(finder, WORKING)
    # 30 mm under one minute of arc: 30 × 3437.75, and the base line's 20 mm.
    assert edge == pytest.approx(30 * 3437.7468 + 20, rel=1e-7)
    assert range_limits(finder, WORKING, edge * 1.001).farthest == math.inf
    assert math.isfinite(range_limits(finder, WORKING, edge * 0.999).farthest)
    assert range_limits(finder, WORKING, math.inf).farthest == math.inf


@pytest.mark.parametrize("subject", [1500.0, 3000.0, 10_000.0])
def test_the_film_error_is_the_same_at_every_distance(subject: float) -> None:
    """A lens placed for the nearest limit is out by the eye's film error, whatever the distance."""
    finder, body = Rangefinder(40.0, 20.0, 1.0), camera(50, 2)
    limits = range_limits(finder, WORKING, subject)
    out = extension(50, limits.nearest) - extension(50, subject)
    left = film_uncertainty(body, finder, WORKING)
    # Exact for far subjects; at 1.5 m the lens's own 2f tells by an eighth.
    assert out == pytest.approx(left, rel=0.2)


@given(base=BASES, focal_length=st.floats(28, 135), aperture=st.floats(1.4, 8))
def test_what_a_base_just_serves_it_serves(
    base: float, focal_length: float, aperture: float
) -> None:
    """With the needed base, widest aperture or longest lens, film error and depth are equal."""
    finder = Rangefinder(base, magnification=0.7)
    found = service(camera(focal_length, aperture), finder, WORKING)
    for body, sight in (
        (camera(focal_length, aperture), Rangefinder(found.needed_base)),
        (camera(focal_length, found.widest_aperture), finder),
        (camera(found.longest_focal_length, aperture), finder),
    ):
        assert film_uncertainty(body, sight, WORKING) == pytest.approx(body.depth_of_focus)
    assert found.is_enough == (
        film_uncertainty(camera(focal_length, aperture), finder, WORKING) <= aperture * 0.03
    )


def test_the_goal_is_the_larger_of_tolerance_and_eye() -> None:
    """A long base is held to half the depth of focus, a short one to what the eye can tell."""
    body = camera(50, 2)
    assert goal(body, Rangefinder(60.0), WORKING).error == pytest.approx(0.03)
    assert "half the depth of focus" in goal(body, Rangefinder(60.0), WORKING).reason
    short = goal(body, Rangefinder(15.0), WORKING)
    # 2500 × 1′ / 15 mm.
    assert short.error == pytest.approx(2500 / 3437.7468 / 15, rel=1e-6)
    assert "eye" in short.reason
