"""What front-cell focusing does at the edges of its range."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import OutOfRange
from optics.theory.front_cell import (
    cell_mark_error,
    film_effect,
    front_cell_focusing,
    group_movement,
)

MOVEMENT = front_cell_focusing.solve_for("movement")


@given(f1=st.floats(15, 200), k=st.floats(20, 200))
@settings(deadline=None)
def test_nearest_distance_is_served(f1: float, k: float) -> None:
    """At exactly K plus three focal lengths of the group it stands one focal length out."""
    t = MOVEMENT.value(film_distance=k + 3 * f1, group_focal_length=f1, cell_to_film=k)
    assert t == pytest.approx(f1, rel=1e-6)
    with pytest.raises(OutOfRange, match="cannot serve a nearer subject"):
        MOVEMENT.value(film_distance=k + 2.99 * f1, group_focal_length=f1, cell_to_film=k)


def test_infinity_is_exact() -> None:
    """For a subject at infinity the cell does not move and every partial is zero."""
    value, partials = MOVEMENT.value_and_partials(
        film_distance=math.inf, group_focal_length=35.0, cell_to_film=70.0
    )
    assert value == 0
    assert set(partials.values()) == {0.0}


@given(u=st.floats(500, 1e6), f1=st.floats(25, 60), k=st.floats(30, 120))
@settings(deadline=None)
def test_measured_from_film_or_cell(u: float, f1: float, k: float) -> None:
    """Measured from the cell or from the film, a subject needs the same movement."""
    t = group_movement.solve_for("movement").value(group_distance=u, group_focal_length=f1)
    film = MOVEMENT.value(film_distance=k + t + u, group_focal_length=f1, cell_to_film=k)
    assert film == pytest.approx(t, rel=1e-11)


def test_a_cell_too_far_out_is_sharp_nearer_than_its_mark() -> None:
    """Sharp nearer than the mark is plus, as when the whole lens is too far out."""
    lens = {"focal_length": 75.0, "group_focal_length": 36.0, "cell_to_film": 74.0}
    formula = cell_mark_error.solve_for("focus_error")
    assert formula.value(sharp_distance=1900.0, mark_distance=2000.0, **lens) > 0
    assert formula.value(sharp_distance=math.inf, mark_distance=2000.0, **lens) < 0
    assert (
        film_effect.solve_for("focus_error").value(
            cell_shift=0.05, focal_length=75.0, group_focal_length=36.0
        )
        > 0.05
    )
