"""A ring mark against a true distance, against numbers worked by hand, and the right way round."""

import math

import pytest

from optics.camera.camera import Camera, Lens
from optics.errors import OutOfRange
from optics.measure.uncertainty import exact, within
from optics.readings.kinds.mark import MarkReading
from tests.optics.readings.kinds.bench import (
    BED,
    CAMERA,
    CELL,
    FILM_PER_CELL,
    HELICOID,
    NEAR_CELL,
    error,
    far,
    mark,
)


def test_a_lens_sharp_nearer_than_its_mark_is_too_far_out() -> None:
    """Sharp at 1 m with the ring at infinity, a lens of 90 mm is 10 mm too far out."""
    assert error(CAMERA, mark(math.inf, 1000.0)) == pytest.approx(10.0, abs=1e-9)
    assert error(BED, mark(math.inf, 1500.0)) == pytest.approx(15.0, abs=1e-9)


def test_a_lens_sharp_beyond_its_mark_is_too_far_in() -> None:
    """Sharp at infinity with the ring at 1 m, a lens of 90 mm is 10 mm too far in."""
    assert error(CAMERA, mark(1000.0, math.inf)) == pytest.approx(-10.0, abs=1e-9)


def test_a_lens_sharp_at_its_mark_is_right() -> None:
    """Sharp where the ring says, a lens is right, at infinity as near by."""
    for distance in (math.inf, 1000.0, 1500.0):
        assert error(CAMERA, mark(distance, distance)) == 0.0


def test_a_front_cell_sharp_nearer_than_its_mark_is_too_far_out() -> None:
    """A cell of 50 mm that stands 1 mm too far out is 2.25 mm out at the film of a 75 mm lens."""
    assert error(CELL, mark(math.inf, NEAR_CELL)) == pytest.approx(FILM_PER_CELL, abs=1e-9)
    assert error(CELL, mark(NEAR_CELL, math.inf)) == pytest.approx(-FILM_PER_CELL, abs=1e-9)


def test_a_distance_limit_shrinks_by_the_magnification_squared() -> None:
    """At 1 m a lens of 90 mm carries ± 5 mm to the film by about m², m = 10/90 (Newton)."""
    reading = MarkReading(exact(math.inf), within(1000.0, 5.0, "tape"))
    found = reading.steps(CAMERA)[-1].result
    # The subject is measured from the film, which adds dx itself: dx/dD = −m²/(1 − m²) = −1/80.
    assert found.standard == pytest.approx(5 / 80 / math.sqrt(3), rel=1e-6)


def test_a_distance_nearer_than_the_lens_can_focus_is_refused() -> None:
    """A sharp distance below four focal lengths is refused with the limit and the figure."""
    with pytest.raises(OutOfRange, match=r"must be at least 360 mm .*: got 350 mm"):
        error(CAMERA, mark(math.inf, 350.0))


def test_an_uncertain_distance_at_the_near_limit_is_named_as_such() -> None:
    """At the nearest distance a lens of 47 mm can serve, an uncertainty is refused in its words."""
    camera = Camera("forty-seven", Lens(47.0, 2.8), HELICOID, 0.03)
    known = MarkReading(exact(math.inf), exact(188.0))
    assert error(camera, known) == pytest.approx(47.0)
    reading = MarkReading(exact(math.inf), within(188.0, 1.0, "tape"))
    with pytest.raises(OutOfRange) as refused:
        reading.steps(camera)
    assert refused.value.quantity == "sharp_distance"
    assert "really sharp may not stand right at its limit of 188 mm" in str(refused.value)
    assert "four focal lengths" in str(refused.value)


def test_too_near_is_said_before_too_vague() -> None:
    """A distance that no lens can serve is refused for that, however little it is known."""
    with pytest.raises(OutOfRange, match="must be at least 360 mm"):
        MarkReading(exact(math.inf), within(9.0, 10.0, "tape")).steps(CAMERA)


def test_a_poorly_known_distance_is_still_a_reading() -> None:
    """Limits that leave something of the distance, or go with infinity, are taken."""
    reading = MarkReading(exact(math.inf), far(18_000.0))
    assert reading.steps(CAMERA)[-1].result.standard > 0
    endless = MarkReading(exact(math.inf), within(math.inf, 30_000.0, "tape"))
    assert endless.steps(CAMERA)[-1].result.value == 0
