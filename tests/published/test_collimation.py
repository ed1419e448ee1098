"""Collimators, registers and rulers, against printed numbers and right triangles."""

import math

import pytest

from optics.theory import CATALOGUE

INCH = 25.4

# Where these four were printed could not be found again. A diploma thesis on a collimator with
# crosses for the same four distances (see test_lens.py) prints those of a real image.
THESIS = "Thesis on a collimator with several targets, f 675 mm, not found again"
BY_HAND = "worked by hand"
NINETY = {"mark_distance": 1000, "sharp_distance": 1089, "focal_length": 90, "hiatus": 0}
CELL = {
    "mark_distance": 615,
    "sharp_distance": 739,
    "focal_length": 100,
    "group_focal_length": 50,
    "cell_to_film": 60,
}

# relation, unknown, inputs, value, half of the last printed digit, source; in mm and rad.
ROWS = [
    # Printed from the small-angle rule θ = d/2f; the exact one agrees to the digits printed.
    (
        "autocollimation",
        "mirror_tilt",
        {"collimator_focal_length": 500, "spot_shift": 2.5},
        math.radians(0.1432),
        math.radians(5e-5),
        "Autocollimator example, θ = d/2f",
    ),
    *(
        (
            "target_place",
            "target_place",
            {"collimator_focal_length": 675, "wanted_distance": distance},
            place,
            0.5,
            THESIS,
        )
        for distance, place in [(2000, 505), (5000, 595), (10_000, 632), (40_000, 664)]
    ),
    (
        "target_place",
        "target_place",
        {"collimator_focal_length": 675, "wanted_distance": math.inf},
        675,
        1e-12,
        BY_HAND,
    ),
    (
        "register_error",
        "focus_error",
        {"measured_register": 17.526, "nominal_register": 0.690 * INCH},
        0,
        5e-4,
        "ANSI/SMPTE C-mount register, 0.690 in = 17.526 mm",
    ),
    (
        "register_error",
        "focus_error",
        {"measured_register": 44.05, "nominal_register": 44},
        0.05,
        1e-12,
        BY_HAND,
    ),
    # 500² / 1, and a tenth of the focal length sees a hundredth of the shift.
    (
        "equivalent_target",
        "equivalent_distance",
        {"collimator_focal_length": 500, "reticle_shift": 1},
        250_000,
        1e-9,
        BY_HAND,
    ),
    # By vergences: a reticle 297 mm from a lens of 300 mm is seen 29 700 mm behind it, 29 800 mm
    # from a lens of 50 mm that stands 100 mm before it: sharp at 50·29 800/29 750 = 50.0840 mm.
    (
        "collimator_conjugates",
        "focus_error",
        {
            "reticle_shift": 3,
            "focal_length": 50,
            "collimator_focal_length": 300,
            "collimator_to_lens": 100,
        },
        0.0840,
        5e-5,
        BY_HAND,
    ),
    (
        "collimator_error",
        "focus_error",
        {"reticle_shift": 1, "focal_length": 50, "collimator_focal_length": 500},
        0.01,
        1e-14,
        BY_HAND,
    ),
    # As in the lens table the marks leave −1 mm; a quarter turn of lead 12 is 3 mm more.
    (
        "rotation_error",
        "focus_error",
        {**NINETY, "rotation": math.radians(90), "lead": 12},
        -4,
        1e-10,
        BY_HAND,
    ),
    # As in the lens table the marks leave −4 mm; a quarter turn of lead 4 is 1 mm of the cell,
    # and 4 mm at the film.
    (
        "cell_rotation_error",
        "focus_error",
        {**CELL, "rotation": math.radians(90), "lead": 4},
        -8,
        1e-10,
        BY_HAND,
    ),
    (
        "tilted_ruler",
        "sharp_distance",
        {"aim_distance": 1000, "ruler_offset": 100, "ruler_slope": math.radians(60)},
        950,
        1e-9,
        BY_HAND,
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_collimation_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)
