"""Threads: whole starts, whole turns, and metal that shrinks as it grows."""

import math

import pytest

from optics.errors import OutOfRange
from optics.theory.helicoid import (
    lead_angle,
    ring_rotation,
    start_angle,
    start_shift,
    thermal_expansion,
)


def test_as_many_starts_as_there_are_make_one_lead() -> None:
    """Moved by all its starts a helicoid has moved by one lead and made one turn."""
    assert start_shift.solve_for("travel").value(starts_moved=6, lead=18, starts=6) == 18
    assert start_angle.solve_for("rotation").value(starts_moved=6, starts=6) == (
        pytest.approx(math.tau)
    )


def test_a_start_and_its_angle_cancel_on_the_thread() -> None:
    """Turning back by the angle of a start travels just as far as moving by the start."""
    angle = start_angle.solve_for("rotation").value(starts_moved=2, starts=6)
    travel = ring_rotation.solve_for("travel").value(rotation=angle, lead=18)
    shift = start_shift.solve_for("travel").value(starts_moved=2, lead=18, starts=6)
    assert travel == pytest.approx(shift, rel=1e-14)


def test_a_thread_has_at_least_one_start() -> None:
    """No thread has fewer starts than one, given or found."""
    with pytest.raises(OutOfRange, match="number of thread starts must be at least 1"):
        start_angle.solve_for("rotation").value(starts_moved=1, starts=0.5)
    with pytest.raises(OutOfRange, match="thread starts, but it must be at least 1"):
        start_angle.solve_for("starts").value(starts_moved=1, rotation=7.0)


def test_an_endless_lead_is_a_right_angle_at_most() -> None:
    """The steepest thread goes straight along the axis, and no lead is found for steeper."""
    formula = lead_angle.solve_for("lead_angle")
    assert 1.5 < formula.value(lead=1e4, mean_diameter=30.0) < math.pi / 2
    with pytest.raises(OutOfRange, match="lead angle"):
        lead_angle.solve_for("lead").value(lead_angle=1.6, mean_diameter=30.0)


def test_metal_shrinks_as_much_as_it_grew() -> None:
    """Cooling by as much as it warmed, a part loses what it gained."""
    formula = thermal_expansion.solve_for("expansion")
    part = {"length": 40.0, "expansion_coefficient": 23e-6}
    assert formula.value(warming=-20.0, **part) == -formula.value(warming=20.0, **part)
