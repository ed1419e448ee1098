"""The lens, against numbers that others have printed or that fit on the back of an envelope."""

import math

import pytest

from optics.theory import CATALOGUE

INCH = 25.4

OPENSTAX = "OpenStax, College Physics, ch. 25; University Physics 3, ch. 2"
NAVY = "NAVEDTRA 14209, Photography (Basic), pp. 1-27 and 1-28"
ARMY = "US Army Subcourse SS0511, p. 106"
TENNESSEE = "University of Tennessee, Optics 507, thick-lens example"
TELEPHOTO = "Telephoto exercise with two thin lenses"
BY_HAND = "worked by hand"
# It then places its crosses there, though a collimator's stand inside the focus; the arithmetic
# of the lens equation is right all the same.
# Author and university are not on the page that keeps it.
CROSSES = (
    "Diploma thesis (in Polish) on testing levels with a collimator of four crosses, table 2.1, "
    "p. 9; https://zanotowane.pl/961/2623"
)

# relation, unknown, inputs, value, half of the last printed digit, source; all in mm.
ROWS = [
    (
        "thin_lens",
        "image_distance",
        {"focal_length": 50, "object_distance": 3000},
        50.8,
        0.05,
        OPENSTAX,
    ),
    (
        "magnification_from_distance",
        "magnification",
        {"focal_length": 50, "object_distance": 3000},
        1.695e-2,
        5e-6,
        OPENSTAX,
    ),
    (
        "thin_lens",
        "object_distance",
        {"focal_length": 50, "image_distance": 51.0},
        2550,
        5,
        OPENSTAX,
    ),
    (
        "newton",
        "subject_from_focus",
        {"focal_length": 50, "extension": 1.0},
        2550 - 50,
        5,
        OPENSTAX,
    ),
    (
        "thin_lens",
        "object_distance",
        {"focal_length": 100, "image_distance": 103},
        3430,
        5,
        OPENSTAX,
    ),
    # Printed as object over image, 33.33; ours is image over object.
    (
        "magnification_from_extension",
        "magnification",
        {"focal_length": 100, "extension": 3},
        1 / 33.33,
        0.005 / 33.33**2,
        OPENSTAX,
    ),
    *(
        (
            "thin_lens",
            "object_distance",
            {"focal_length": 675, "image_distance": image},
            x,
            0.5,
            CROSSES,
        )
        for image, x in [(2000, 1019), (5000, 780), (10_000, 724), (40_000, 687)]
    ),
    (
        "thin_lens",
        "object_distance",
        {"focal_length": 22, "image_distance": 33.0},
        66.0,
        0.05,
        OPENSTAX,
    ),
    (
        "image_distance_from_magnification",
        "magnification",
        {"focal_length": 22, "image_distance": 33.0},
        0.500,
        5e-4,
        OPENSTAX,
    ),
    (
        "magnification_from_distance",
        "object_distance",
        {"focal_length": 10 * INCH, "magnification": 1 / 4},
        50 * INCH,
        0.5 * INCH,
        NAVY,
    ),
    (
        "image_distance_from_magnification",
        "image_distance",
        {"focal_length": 10 * INCH, "magnification": 1 / 4},
        12.5 * INCH,
        0.05 * INCH,
        NAVY,
    ),
    (
        "magnification_from_distance",
        "object_distance",
        {"focal_length": 10 * INCH, "magnification": 1 / 14.4},
        154 * INCH,
        0.5 * INCH,
        NAVY,
    ),
    (
        "image_distance_from_magnification",
        "image_distance",
        {"focal_length": 10 * INCH, "magnification": 1 / 14.4},
        10.7 * INCH,
        0.05 * INCH,
        NAVY,
    ),
    (
        "image_distance_from_magnification",
        "image_distance",
        {"focal_length": 12 * INCH, "magnification": 1 / 2},
        18 * INCH,
        0.5 * INCH,
        ARMY,
    ),
    (
        "magnification_from_distance",
        "object_distance",
        {"focal_length": 12 * INCH, "magnification": 1 / 2},
        36 * INCH,
        0.5 * INCH,
        ARMY,
    ),
    (
        "thick_lens",
        "glass_focal_length",
        {"glass_index": 1.5, "front_radius": -50, "rear_radius": 50, "thickness": 15},
        -47.619,
        5e-4,
        TENNESSEE,
    ),
    (
        "front_principal_plane",
        "front_plane",
        {"glass_focal_length": -47.619, "glass_index": 1.5, "thickness": 15, "rear_radius": 50},
        4.7619,
        5e-5,
        TENNESSEE,
    ),
    (
        "rear_principal_plane",
        "rear_plane",
        {"glass_focal_length": -47.619, "glass_index": 1.5, "thickness": 15, "front_radius": -50},
        -4.7619,
        5e-5,
        TENNESSEE,
    ),
    (
        "two_lenses",
        "separation",
        {"combined_focal_length": 400, "first_focal_length": 80, "second_focal_length": -25},
        60,
        0.5,
        TELEPHOTO,
    ),
    (
        "two_lenses",
        "combined_focal_length",
        {"separation": 60, "first_focal_length": 80, "second_focal_length": -25},
        400,
        0.5,
        TELEPHOTO,
    ),
    (
        "back_focus_of_two",
        "back_focus",
        {"combined_focal_length": 400, "separation": 60, "first_focal_length": 80},
        100,
        0.5,
        TELEPHOTO,
    ),
    (
        "pupil_ratio",
        "pupil_magnification",
        {"entrance_pupil": 2 * 77.3832, "exit_pupil": 2 * 33.037},
        0.427,
        5e-4,
        "US patent 4,732,459, example 4 (telephoto)",
    ),
    (
        "pupil_ratio",
        "pupil_magnification",
        {"entrance_pupil": 2 * 14.6487, "exit_pupil": 2 * 28.476},
        1.944,
        5e-4,
        "US patent 4,099,850 (retrofocus)",
    ),
    (
        "depth_of_focus",
        "depth_each_way",
        {"f_number": 5, "circle_of_confusion": 0.025, "magnification": 0, "pupil_magnification": 1},
        0.125,
        5e-4,
        "Textbook use of ±N·c",
    ),
    (
        "depth_of_focus",
        "depth_each_way",
        {"f_number": 8, "circle_of_confusion": 0.025, "magnification": 0, "pupil_magnification": 1},
        0.2,
        0.05,
        "Textbook use of ±N·c",
    ),
    # 8 × 0.025 × (1 + 0.5 / 2) = 0.25
    (
        "depth_of_focus",
        "depth_each_way",
        {
            "f_number": 8,
            "circle_of_confusion": 0.025,
            "magnification": 0.5,
            "pupil_magnification": 2,
        },
        0.25,
        1e-12,
        BY_HAND,
    ),
    # a = 820, and 820² − 180² = 800²
    (
        "unit_focusing",
        "extension",
        {"film_distance": 1000, "focal_length": 90, "hiatus": 0},
        10,
        1e-11,
        BY_HAND,
    ),
    # a = 1230, and 1230² − 270² = 1200²
    (
        "unit_focusing",
        "extension",
        {"film_distance": 1500, "focal_length": 135, "hiatus": 0},
        15,
        1e-11,
        BY_HAND,
    ),
    # a = 900, √(900² − 100²) = 894.4272
    (
        "unit_focusing",
        "extension",
        {"film_distance": 1000, "focal_length": 50, "hiatus": 0},
        2.7864,
        5e-5,
        BY_HAND,
    ),
    # 2500 / 1000
    (
        "infinity_target",
        "focus_error",
        {"focal_length": 50, "infinity_target_distance": 1050},
        2.5,
        1e-12,
        BY_HAND,
    ),
    # f 90: extension 10 is sharp at 180 + 10 + 810 = 1000, extension 9 at 180 + 9 + 900 = 1089.
    (
        "mark_error",
        "focus_error",
        {"sharp_distance": 1089, "mark_distance": 1000, "focal_length": 90, "hiatus": 0},
        -1,
        1e-10,
        BY_HAND,
    ),
    (
        "mark_error",
        "sharp_distance",
        {"focus_error": -1, "mark_distance": 1000, "focal_length": 90, "hiatus": 0},
        1089,
        1e-9,
        BY_HAND,
    ),
    (
        "mark_error",
        "mark_distance",
        {"focus_error": -1, "sharp_distance": 1089, "focal_length": 90, "hiatus": 0},
        1000,
        1e-9,
        BY_HAND,
    ),
    (
        "mark_error",
        "focal_length",
        {"focus_error": -1, "sharp_distance": 1089, "mark_distance": 1000, "hiatus": 0},
        90,
        1e-9,
        BY_HAND,
    ),
    (
        "mark_error",
        "focus_error",
        {"sharp_distance": math.inf, "mark_distance": 1000, "focal_length": 90, "hiatus": 0},
        -10,
        1e-11,
        BY_HAND,
    ),
    # Group 50 mm, 60 mm from the film: movement 5 serves 60 + 5 + 50 + 500 = 615,
    # movement 4 serves 60 + 4 + 50 + 625 = 739.
    (
        "group_movement",
        "movement",
        {"group_distance": 550, "group_focal_length": 50},
        5,
        1e-12,
        BY_HAND,
    ),
    (
        "front_cell_focusing",
        "movement",
        {"film_distance": 615, "group_focal_length": 50, "cell_to_film": 60},
        5,
        1e-11,
        BY_HAND,
    ),
    (
        "film_effect",
        "focus_error",
        {"cell_shift": 0.1, "focal_length": 75, "group_focal_length": 37.5},
        0.4,
        1e-12,
        BY_HAND,
    ),
    (
        "cell_magnification",
        "magnification",
        {"movement": 5, "focal_length": 100, "group_focal_length": 50},
        0.2,
        1e-12,
        BY_HAND,
    ),
    (
        "cell_mark_error",
        "focus_error",
        {
            "sharp_distance": 739,
            "mark_distance": 615,
            "focal_length": 100,
            "group_focal_length": 50,
            "cell_to_film": 60,
        },
        -4,
        1e-10,
        BY_HAND,
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_lens_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)
