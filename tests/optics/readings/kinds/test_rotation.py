"""A ring turned until sharp, against numbers worked by hand, and the right way round."""

import pytest

from optics.camera.camera import Turn
from optics.errors import NoAnswer
from optics.readings.kinds.rotation import turned
from tests.optics.readings.kinds.bench import (
    BED,
    CAMERA,
    CELL,
    FILM_PER_CELL,
    NEAR_CELL,
    error,
    turn,
)


def test_turned_inward_until_infinity_was_sharp_was_too_far_out() -> None:
    """Turned 36° inward on a lead of 18 mm, a tenth of a turn, the lens was 1.8 mm too far out."""
    assert error(CAMERA, turn(-36)) == pytest.approx(1.8, abs=1e-9)


def test_turned_outward_until_infinity_was_sharp_was_too_far_in() -> None:
    """Turned 36° outward on a lead of 18 mm, a tenth of a turn, the lens was 1.8 mm too far in."""
    assert error(CAMERA, turn(36)) == pytest.approx(-1.8, abs=1e-9)


def test_turned_as_far_as_the_target_calls_for_is_right() -> None:
    """From infinity to 1 m calls for 10 mm, 200° on a lead of 18 mm; turned so, all is right."""
    assert error(CAMERA, turn(200, target=1000.0)) == pytest.approx(0.0, abs=1e-9)
    assert error(CAMERA, turn(-200, ring=1000.0)) == pytest.approx(0.0, abs=1e-9)


def test_turned_less_than_the_target_calls_for_was_too_far_out() -> None:
    """Sharp at 1 m after 180° of the 200° that it calls for, the lens was 1 mm too far out."""
    assert error(CAMERA, turn(180, target=1000.0)) == pytest.approx(1.0, abs=1e-9)


def test_a_front_cell_turned_inward_until_sharp_was_too_far_out() -> None:
    """A cell turned 40° inward on a lead of 9 mm moved 1 mm, which is 2.25 mm at the film."""
    assert error(CELL, turn(-40)) == pytest.approx(FILM_PER_CELL, abs=1e-9)
    assert error(CELL, turn(40)) == pytest.approx(-FILM_PER_CELL, abs=1e-9)
    assert error(CELL, turn(40, target=NEAR_CELL)) == pytest.approx(0.0, abs=1e-9)


def test_the_sense_of_turning_is_the_cameras() -> None:
    """A turn counts as outward where its sense, seen from the front, is the one that extends."""
    assert turned(CAMERA, 0.5, "counter-clockwise") == 0.5
    assert turned(CAMERA, 0.5, "clockwise") == -0.5
    assert turned(CELL, 0.5, Turn.CLOCKWISE) == 0.5
    assert turned(CELL, 0.5, Turn.COUNTER_CLOCKWISE) == -0.5


def test_a_bed_has_nothing_to_turn() -> None:
    """A rotation on a bed camera is refused, at the reading and before it."""
    with pytest.raises(NoAnswer, match="no focusing thread to turn"):
        turned(BED, 0.5, "clockwise")
    with pytest.raises(NoAnswer, match="slides on a bed or struts"):
        turn(10).steps(BED)
