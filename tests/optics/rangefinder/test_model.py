"""The rangefinder as described: its base, its sight, its compensator."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.errors import OutOfRange
from optics.rangefinder.model import (
    Compensator,
    CounterWedges,
    Mirror,
    Rangefinder,
    SlidingWedge,
    SwungLens,
)
from tests.optics.rangefinder.workshop import sight_angle


def test_the_base_seen_is_longer_by_the_magnification() -> None:
    """A 40 mm base seen through a finder of 0.75 is 30 mm to the eye."""
    assert Rangefinder(40.0, 20.0, 0.75).effective_base == pytest.approx(30)


@given(base=st.floats(15, 120), back=st.floats(0, 60), subject=st.floats(500, 1e7))
def test_the_lines_of_sight_meet_on_the_subject(base: float, back: float, subject: float) -> None:
    """The convergence is the angle of a line drawn from one end of the base to the subject."""
    found = Rangefinder(base, back).convergence(subject)
    assert found == pytest.approx(sight_angle(base, back, subject), rel=1e-12)


def test_lines_of_sight_to_infinity_are_parallel() -> None:
    """For a subject at infinity there is no convergence at all."""
    assert Rangefinder(40.0).convergence(math.inf) == 0


# A convergence of 0.02 rad; the wedges have 2·(1.5 − 1)·0.04 = 0.04 together, worked by hand.
MOVEMENTS: list[tuple[Compensator, float, float]] = [
    (Mirror(), 0.01, 1e-15),
    (SwungLens(100.0), 2.0, 3e-4),
    (CounterWedges(1.5, 0.04), math.radians(30), 1e-12),
    (SlidingWedge(0.05, 100.0), 40.0, 1e-9),
]


@pytest.mark.parametrize(("compensator", "moved", "allowed"), MOVEMENTS)
def test_each_compensator_moves_as_worked_by_hand(
    compensator: Compensator, moved: float, allowed: float
) -> None:
    """Mirror, swung lens, turned and sliding wedges each move as a hand calculation says."""
    rangefinder = Rangefinder(40.0, compensator=compensator)
    assert rangefinder.compensator_movement(0.02) == pytest.approx(moved, abs=allowed)


@pytest.mark.parametrize("wrong", [{"base": 0.0}, {"base": 40.0, "magnification": -1.0}])
def test_impossible_rangefinders_are_refused(wrong: dict[str, float]) -> None:
    """A base or magnification of nothing or less is refused at once."""
    with pytest.raises(OutOfRange, match="must be more than"):
        Rangefinder(**wrong)
