"""Standard, gate and hinge against printed numbers, and against numbers worked by hand."""

import math

import pytest

from optics.body.gate import FILMS, HOLDERS
from optics.body.standard import Standard, depth_readings, measure_standard
from optics.theory import CATALOGUE

MINUTE = math.radians(1 / 60)
INCH = 25.4

BY_HAND = "worked by hand"
# Through (∓18, ∓12) with heights 0, 0.030, 0.010, 0.040 mm.
FOUR_CORNERS = "four corners worked by hand: 0.030/36 across and 0.010/24 up"

# relation, unknown, inputs, value, half of the last printed digit, source; in mm and rad.
ROWS = [
    (
        "plane_tilt",
        "tilt",
        {"slope_across": 8.3333e-4, "slope_up": 4.1667e-4},
        3.203 * MINUTE,
        0.0005 * MINUTE,
        FOUR_CORNERS,
    ),
    # The sides 3, 4 and 5 of a right triangle.
    ("plane_tilt", "tilt", {"slope_across": 0.3, "slope_up": -0.4}, math.atan(0.5), 1e-12, BY_HAND),
    # The line that falls by its own length, and half of an equilateral triangle.
    ("angle_of_slope", "slope_angle", {"slope": -1}, -math.pi / 4, 1e-12, BY_HAND),
    ("angle_of_slope", "slope", {"slope_angle": math.radians(60)}, math.sqrt(3), 1e-12, BY_HAND),
    (
        "hinge_line",
        "hinge_distance",
        {"focal_length": 90, "tilt": math.radians(5)},
        1032.6,
        0.05,
        "H. M. Merklinger, Focusing the View Camera",
    ),
    (
        "hinge_line",
        "tilt",
        {"focal_length": 90, "hinge_distance": 180},
        math.radians(30),
        1e-12,
        BY_HAND,
    ),
    # At infinity the sharp plane is tilted as the lens is; life-size twice as much.
    ("lens_tilt", "image_tilt", {"tilt": 0.01, "magnification": 0}, 0.01, 1e-15, BY_HAND),
    ("lens_tilt", "image_tilt", {"tilt": 0.01, "magnification": 1}, 0.02, 1e-15, BY_HAND),
    (
        "lens_tilt",
        "magnification",
        {"tilt": math.radians(30), "image_tilt": math.radians(60)},
        1,
        1e-12,
        BY_HAND,
    ),
    (
        "tilted_defocus",
        "focus_error",
        {
            "mean_error": 0.02,
            "tilt_factor": 1,
            "slope_across": 0.03 / 36,
            "place_across": 18,
            "slope_up": 0.01 / 24,
            "place_up": 12,
        },
        0.040,
        1e-12,
        FOUR_CORNERS,
    ),
    (
        "tilted_defocus",
        "mean_error",
        {
            "focus_error": 0,
            "tilt_factor": 1.5,
            "slope_across": 0.001,
            "place_across": -20,
            "slope_up": 0,
            "place_up": 12,
        },
        0.030,
        1e-12,
        BY_HAND,
    ),
    (
        "screw_shim",
        "screw_shim",
        {"wanted_height": 42.35, "found_height": 42.31},
        0.04,
        1e-12,
        BY_HAND,
    ),
    (
        "film_play",
        "play",
        {"channel": 0.200, "film_thickness": 0.15},
        0.05,
        1e-12,
        "from memory of a magazine article of 1997, its title not noted",
    ),
    # A slot of 0.012 in for a sheet of 0.007 in.
    (
        "film_play",
        "play",
        {"channel": 0.012 * INCH, "film_thickness": 0.007 * INCH},
        0.005 * INCH,
        1e-12,
        "Slot of a sheet-film holder, ASA sheet of 1951 as quoted",
    ),
    (
        "emulsion_error",
        "focus_error",
        {"rest": 1, "play": 0.05, "reference_depth": 0},
        0.05,
        1e-12,
        BY_HAND,
    ),
    (
        "emulsion_error",
        "focus_error",
        {"rest": 0.5, "play": 0.06, "reference_depth": 0.10},
        -0.07,
        1e-12,
        BY_HAND,
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_standard_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)


def through(*heights: float) -> Standard:
    """Gauge the four corners, and the middle if a fifth height is given."""
    places = [(-18, -12), (18, -12), (-18, 12), (18, 12), (0, 0)][: len(heights)]
    return measure_standard(depth_readings(places, [[z] for z in heights], 0.005))


def test_plane_through_four_corners() -> None:
    """Heights 0, 0.030, 0.010 and 0.040 mm give the slopes, mean and lean worked by hand."""
    found = through(0, 0.030, 0.010, 0.040)
    assert found.plane.slope_across.value == pytest.approx(8.3333e-4, abs=5e-9)
    assert found.plane.slope_up.value == pytest.approx(4.1667e-4, abs=5e-9)
    assert found.mean.value == pytest.approx(0.020, abs=1e-12)
    assert found.plane.middle.value == pytest.approx(0.020, abs=1e-12)
    assert found.plane.lean.value == pytest.approx(3.203 * MINUTE, abs=0.0005 * MINUTE)
    assert found.worst_residual.value == pytest.approx(0, abs=1e-12)


def test_a_raised_middle_is_seen_differently_by_the_two_planes() -> None:
    """Corners at 0 and the middle at 0.030 mm: 0.006 and 0.024, or 0.015 and 0.015 mm."""
    found = through(0, 0, 0, 0, 0.030)
    assert found.plane.middle.value == pytest.approx(0.006, abs=1e-12)
    assert abs(found.worst_residual.value) == pytest.approx(0.024, abs=1e-12)
    assert found.minimax.plane.middle.value == pytest.approx(0.015, abs=1e-12)
    assert found.minimax.worst.value == pytest.approx(0.015, abs=1e-12)


def test_autocollimator_example() -> None:
    """A mark returned 2.5 mm aside at 500 mm means a mirror tilted by 0.1432° (θ = d/2f)."""
    tilt = CATALOGUE["autocollimation"].solve_for("mirror_tilt")
    found = math.degrees(tilt.value(collimator_focal_length=500, spot_shift=2.5))
    assert found == pytest.approx(0.1432, abs=5e-5)


def test_sheet_film_lies_as_deep_as_the_letter_says() -> None:
    """A 4 × 5 in holder of 0.197 in with a sheet of 0.007 in has its emulsion at 0.190 in."""
    depth = HOLDERS["4x5"].depth - FILMS["sheet"].thickness
    assert depth == pytest.approx(0.190 * INCH, abs=0.0005 * INCH)
