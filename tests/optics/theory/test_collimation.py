"""Signs and edges of the ways to find where the image falls."""

import math

import pytest

from optics.errors import NoAnswer, OutOfRange
from optics.theory.collimation import (
    cell_rotation_error,
    collimator_conjugates,
    collimator_error,
    equivalent_target,
    register_error,
    rotation_error,
    tilted_ruler,
)
from optics.theory.front_cell import cell_mark_error
from optics.theory.lens import mark_error

LENS = {"focal_length": 47.0, "hiatus": -1.5}
CELL = {"focal_length": 75.0, "group_focal_length": 36.0, "cell_to_film": 74.0}


def test_a_reticle_moved_inside_its_focus_is_a_near_subject() -> None:
    """Plus of the reticle stands for a near subject, and finds a lens too far out."""
    near = equivalent_target.solve_for("equivalent_distance")
    error = collimator_error.solve_for("focus_error")
    assert near.value(collimator_focal_length=300.0, reticle_shift=0.5) > 0
    assert near.value(collimator_focal_length=300.0, reticle_shift=-0.5) < 0
    lenses = {"collimator_focal_length": 300.0, "focal_length": 50.0}
    assert error.value(reticle_shift=0.5, **lenses) > 0
    assert error.value(reticle_shift=-0.5, **lenses) < 0


def test_a_reticle_in_its_focus_stands_at_infinity() -> None:
    """A reticle that is not shifted seems to stand at infinity."""
    formula = equivalent_target.solve_for("equivalent_distance")
    for none in (0.0, -0.0):
        assert formula.value(collimator_focal_length=300.0, reticle_shift=none) == math.inf


def test_unlike_signs_fit_no_collimator() -> None:
    """A near subject cannot come from a reticle outside the focus: there is no answer."""
    with pytest.raises(NoAnswer, match="equivalent_target"):
        equivalent_target.solve_for("collimator_focal_length").value(
            equivalent_distance=1000.0, reticle_shift=-1.0
        )


def test_a_thick_register_is_too_far_out() -> None:
    """A register above its nominal leaves the lens too far from the film."""
    formula = register_error.solve_for("focus_error")
    assert formula.value(measured_register=44.03, nominal_register=44.0) > 0


def test_without_a_turn_the_marks_alone_tell_the_error() -> None:
    """A ring that was not turned has the error of its marks."""
    marks = {"sharp_distance": 1900.0, "mark_distance": 2000.0}
    still = {"rotation": 0.0, "lead": 18.0}
    assert rotation_error.solve_for("focus_error").value(**marks, **LENS, **still) == (
        pytest.approx(mark_error.solve_for("focus_error").value(**marks, **LENS), rel=1e-12)
    )
    assert cell_rotation_error.solve_for("focus_error").value(**marks, **CELL, **still) == (
        pytest.approx(cell_mark_error.solve_for("focus_error").value(**marks, **CELL), rel=1e-12)
    )


def test_a_ring_turned_out_was_too_far_in() -> None:
    """A ring that had to be turned out from the right mark stood too far in, and its lead tells
    by how much.
    """
    marks = {"sharp_distance": math.inf, "mark_distance": math.inf}
    turn = {"rotation": math.radians(10), "lead": 18.0}
    error = rotation_error.solve_for("focus_error").value(**marks, **LENS, **turn)
    assert error == pytest.approx(-0.5, rel=1e-12)  # 18 mm × 10/360
    error = cell_rotation_error.solve_for("focus_error").value(**marks, **CELL, **turn)
    assert error == pytest.approx(-0.5 * (75 / 36) ** 2, rel=1e-12)


def test_a_place_nearer_on_the_ruler_is_a_nearer_distance() -> None:
    """Plus along the ruler is towards the camera."""
    formula = tilted_ruler.solve_for("sharp_distance")
    ruler = {"aim_distance": 1000.0, "ruler_slope": math.radians(45)}
    assert (
        formula.value(ruler_offset=20.0, **ruler)
        < 1000
        < formula.value(ruler_offset=-20.0, **ruler)
    )


def test_no_ruler_reaches_through_the_film() -> None:
    """A place on the ruler behind the film is refused."""
    with pytest.raises(OutOfRange, match="the ruler would reach the film"):
        tilted_ruler.solve_for("sharp_distance").value(
            aim_distance=1000.0, ruler_offset=1500.0, ruler_slope=math.radians(45)
        )


def test_no_slope_makes_a_short_ruler_reach_far() -> None:
    """Two distances farther apart than the place on the ruler fit no slope."""
    with pytest.raises(NoAnswer, match="tilted_ruler"):
        tilted_ruler.solve_for("ruler_slope").value(
            aim_distance=1000.0, sharp_distance=900.0, ruler_offset=50.0
        )


BETWEEN = {"focal_length": 50.0, "collimator_focal_length": 310.0}


@pytest.mark.parametrize(
    ("apart", "most"),
    # By hand: 310²/(310 + 50 − g), and the collimator's lens itself from g = 50 on.
    [(0.0, 266.944), (20.0, 282.647), (50.0, 310.0), (400.0, 310.0)],
)
def test_no_shift_brings_the_reticle_to_the_front_focal_point(apart: float, most: float) -> None:
    """A shift that puts the reticle's image at or inside the camera's front focus is refused."""
    error = collimator_conjugates.solve_for("focus_error")
    near = {**BETWEEN, "collimator_to_lens": apart}
    assert error.value(reticle_shift=most - 0.01, **near) > 0
    limit = min(310.0**2 / (310.0 + max(50.0 - apart, 0.0)), 310.0)
    for shift in (limit, most + 0.01, 500.0):
        with pytest.raises(OutOfRange, match=r"less than .*(front focal point|touches).*: got"):
            error.value(reticle_shift=shift, **near)


def test_no_lens_stands_behind_its_film() -> None:
    """A reticle whose image falls just before the lens leaves no place for the film."""
    error = collimator_conjugates.solve_for("focus_error")
    far = {**BETWEEN, "collimator_to_lens": 1000.0}
    assert -50 < error.value(reticle_shift=-100.0, **far) < 0
    # By hand: 310²/−150 − 310 + 1000 is 49.3 mm before the lens, within its focal length.
    with pytest.raises(OutOfRange, match="on the film or behind it"):
        error.value(reticle_shift=-150.0, **far)
