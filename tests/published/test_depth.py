"""Depth of field and focus, stops, and marks on rings, against numbers that others have printed.

Sources differ in three conventions, and each row says its own: whether stops are as marked or
exact; whether distances begin at the film, the lens, or its front focal point; and whether the
hyperfocal distance has the last focal length added. Ours has, from the front principal plane.
"""

import math

import pytest

from optics.theory import CATALOGUE

INCH = 25.4
FOOT = 12 * INCH

NAVY = "NAVEDTRA 14209, Photography (Basic), p. 1-26"
ARMY = "US Army Subcourse SS0507, event 10: stops as marked, from the lens, no last f"
PHOTOGRAPHY = "Hawkins and Avon, Photography, 1979, as quoted: stops as marked, H without last f"
BARNET = "Barnet Book of Photography, c. 1898: stop as marked, no last f"
FAQ = "Jacobson, Photographic Lenses FAQ: from the lens, subject many focal lengths away"
TEXTBOOKS = "Depth of focus ± N·c, as in textbooks: stops as marked, distant subject"
SMITH = "Quarter wave: W. J. Smith, Modern Optical Engineering; telescope-optics.net"
AIRY = "Application note of an optics supplier, Airy disc at 520 nm: stops as marked"
TABLE_F1 = "Dictionary of Optometry, table F1: exact f-numbers"
UNIFORM = "sizes.com, Uniform System: stops as marked"
UNIFORM_1913 = "Table of an American periodical of 1913, quoted at sizes.com"
TARGET = "MIL-STD-150A, table of the 1951 target"
PRINTED = "Circle of confusion of a 35 mm frame, as printed in several glossaries"
# Nobody can look this one up: neither title nor issue was noted, nor could they be found since.
MAGAZINE = "From memory, a photographic magazine of 1997: 10 µm at the film, 85 mm at 3 m, ~1 cm"
BY_HAND = "worked by hand"


def symmetric(f: float, stop: float, c: float, s: float) -> dict[str, float]:
    """Inputs of the depth of field for a lens with equal pupils, which all these sources take."""
    return {
        "focal_length": f,
        "f_number": stop,
        "circle_of_confusion": c,
        "object_distance": s,
        "pupil_magnification": 1,
    }


# The manual gives H alone; a lens of 1 mm at f/1 has it with this circle of confusion.
NAVY_LENS = symmetric(1, 1, 1 / (554 * FOOT), 10 * FOOT)
# H is 8 s, and s is a million focal lengths.
FAQ_LENS = symmetric(1, 1, 1 / 8e6, 1e6)
# Focused at 10606 mm from the front focal point, the near limit counted from the lens.
HAWKINS_LENS = symmetric(70, 22, 0.021, 10606 + 70)

# A cell of 50 mm, 60 mm from the film at infinity, before groups that make the lens 100 mm.
DEEP_CELL = {
    "focal_length": 100,
    "group_focal_length": 50,
    "cell_to_film": 60,
    "f_number": 8,
    "circle_of_confusion": 0.5,
}

# relation, unknown, inputs, value, half of the last printed digit, source; in mm and rad.
ROWS = [
    ("depth_near", "near_limit", NAVY_LENS, 9.8 * FOOT, 0.05 * FOOT, NAVY),
    ("depth_far", "far_limit", NAVY_LENS, 10.2 * FOOT, 0.05 * FOOT, NAVY),
    (
        "focus_between",
        "focus_between",
        {"near_edge": 9.8 * FOOT, "far_edge": 10.2 * FOOT},
        10 * FOOT,
        0.05 * FOOT,
        NAVY,
    ),
    (
        "hyperfocal_distance",
        "hyperfocal",
        {"focal_length": 2 * INCH, "f_number": 8, "circle_of_confusion": 0.002 * INCH},
        20.8 * FOOT + 2 * INCH,
        0.05 * FOOT,
        ARMY,
    ),
    # Focused there, it halves the distance: 1/10.4 is twice 1/20.8 with infinity at the far end.
    (
        "focus_between",
        "near_edge",
        {"focus_between": 20.8 * FOOT, "far_edge": math.inf},
        10.4 * FOOT,
        0.05 * FOOT,
        ARMY,
    ),
    (
        "hyperfocal_distance",
        "hyperfocal",
        {"focal_length": 70, "f_number": 8, "circle_of_confusion": 0.021},
        29167 + 70,
        0.5,
        PHOTOGRAPHY,
    ),
    (
        "hyperfocal_distance",
        "hyperfocal",
        {"focal_length": 70, "f_number": 22, "circle_of_confusion": 0.021},
        10606 + 70,
        0.5,
        PHOTOGRAPHY,
    ),
    ("depth_near", "near_limit", HAWKINS_LENS, 5338, 0.5, PHOTOGRAPHY),
    (
        "hyperfocal_distance",
        "hyperfocal",
        {"focal_length": 6 * INCH, "f_number": 8, "circle_of_confusion": INCH / 100},
        37.5 * FOOT + 6 * INCH,
        0.05 * FOOT,
        BARNET,
    ),
    ("depth_near", "near_limit", FAQ_LENS, 8 / 9 * 1e6, 1, FAQ),
    ("depth_far", "far_limit", FAQ_LENS, 8 / 7 * 1e6, 1, FAQ),
    *(
        (
            "depth_of_focus",
            "depth_each_way",
            {
                "f_number": stop,
                "circle_of_confusion": 0.025,
                "magnification": 0,
                "pupil_magnification": 1,
            },
            each_way,
            half,
            TEXTBOOKS,
        )
        for stop, each_way, half in [(5, 0.125, 5e-4), (8, 0.2, 0.05)]
    ),
    ("quarter_wave", "depth_each_way", {"f_number": 8, "wavelength": 0.55e-3}, 0.0704, 5e-5, SMITH),
    *(
        (
            "airy_disc",
            "airy_diameter",
            {"f_number": stop, "wavelength": 0.52e-3},
            disc / 1000,
            5e-6,
            AIRY,
        )
        for stop, disc in [(2, 2.54), (4, 5.08), (8, 10.15), (16, 20.30)]
    ),
    (
        "mark_error",
        "sharp_distance",
        {"focus_error": 0.010, "mark_distance": 3000, "focal_length": 85, "hiatus": 0},
        3000 - 10,
        5,
        MAGAZINE,
    ),
    *(
        ("exact_f_number", "f_number", {"stops": k}, stop, 5e-4, TABLE_F1)
        for k, stop in [(-1, 0.707), (1, 1.414), (3, 2.828), (5, 5.657), (7, 11.314), (9, 22.627)]
    ),
    ("uniform_system", "uniform_system", {"f_number": 4.5}, 1.26, 0.01, UNIFORM),
    ("uniform_system", "uniform_system", {"f_number": 6.3}, 2.5, 0.05, UNIFORM),
    *(
        ("uniform_system", "f_number", {"uniform_system": us}, stop, 0.06, UNIFORM_1913)
        for us, stop in [(4, 8), (8, 11.3), (16, 16), (32, 22.6), (64, 32), (128, 45.2)]
    ),
    *(
        (
            "resolution_target",
            "line_pairs",
            {"target_group": group, "target_element": element},
            pairs,
            half,
            TARGET,
        )
        for group, element, pairs, half in [
            (0, 1, 1.00, 5e-3),
            (2, 3, 5.04, 5e-3),
            (4, 6, 28.51, 5e-3),
            (5, 2, 35.9, 0.05),
        ]
    ),
    (
        "confusion_from_diagonal",
        "circle_of_confusion",
        {"diagonal": 43.27, "divisor": 1500},
        0.029,
        5e-4,
        PRINTED,
    ),
    (
        "confusion_from_diagonal",
        "circle_of_confusion",
        {"diagonal": 43.27, "divisor": 1730},
        0.025,
        5e-4,
        PRINTED,
    ),
    # Enlarged 7.516 times to 8×10 in, where the eye at 250 mm sees 0.25 mm.
    (
        "confusion_from_print",
        "circle_of_confusion",
        {"acuity": 0.25 / 250, "viewing_distance": 250, "enlargement": 7.516},
        0.0333,
        5e-5,
        PRINTED,
    ),
    (
        "confusion_from_focal_length",
        "circle_of_confusion",
        {"focal_length": 75, "divisor": 1000},
        0.075,
        1e-12,
        BY_HAND,
    ),
    # Seen half as large behind as in front, the pupil lies one focal length behind the plane.
    (
        "entrance_pupil_offset",
        "pupil_offset",
        {"focal_length": 50, "pupil_magnification": 0.5},
        50,
        1e-12,
        BY_HAND,
    ),
    (
        "film_from_lens",
        "limit_from_film",
        {"limit_from_lens": 880, "focal_length": 90, "extension": 10, "hiatus": 20},
        1000,
        1e-12,
        BY_HAND,
    ),
    # The cell of 50 mm, 5 mm out, sees 550 mm; it makes the size 0.2 of a lens of 100 mm, which
    # belongs to 100·(1 + 5) = 600 mm from that lens, and all of it is 60 + 5 + 550 from the film.
    (
        "film_from_cell_lens",
        "limit_from_film",
        {
            "limit_from_lens": 600,
            "cell_to_film": 60,
            "movement": 5,
            "group_focal_length": 50,
            "focal_length": 100,
        },
        615,
        1e-12,
        BY_HAND,
    ),
    (
        "cell_depth_of_focus",
        "depth_each_way",
        {"f_number": 3.5, "circle_of_confusion": 0.05},
        0.175,
        1e-12,
        BY_HAND,
    ),
    # 8 × 0.5 mm of room at the film is 1 mm of that cell, a quarter, for it is half as long. With
    # the cell 4 mm out the near limit would need 5 mm: 2500/5 from the group's focus, which is
    # 60 + 4 + 50 from the film.
    ("cell_depth_near", "near_from_film", DEEP_CELL | {"movement": 4}, 614, 1e-12, BY_HAND),
    # At 5 mm the far limit would need 4 mm: 2500/4, and 60 + 5 + 50.
    ("cell_depth_far", "far_from_film", DEEP_CELL | {"movement": 5}, 740, 1e-12, BY_HAND),
    # Only 1 mm out it would need none, which is infinity; and turned round, infinity needs 1 mm.
    ("cell_depth_far", "far_from_film", DEEP_CELL | {"movement": 1}, math.inf, 0, BY_HAND),
    ("cell_depth_far", "far_from_film", DEEP_CELL | {"movement": 0.5}, math.inf, 0, BY_HAND),
    ("cell_depth_far", "movement", DEEP_CELL | {"far_from_film": math.inf}, 1, 1e-12, BY_HAND),
    (
        "blur_budget",
        "total_blur",
        {"defocus_blur": 0.03, "airy_diameter": 0.04, "receiver_blur": 0.12},
        0.13,
        1e-12,
        BY_HAND,
    ),
    # f 90 at 1000 mm stands 10 mm out, half a turn of a lead of 20 mm.
    (
        "scale_mark",
        "mark_angle",
        {"zero_angle": 0, "film_distance": 1000, "focal_length": 90, "hiatus": 0, "lead": 20},
        math.radians(180),
        1e-11,
        BY_HAND,
    ),
    # The cell above, 5 mm out, a quarter of a turn of a lead of 20 mm, from a zero of 10°.
    (
        "cell_scale_mark",
        "mark_angle",
        {
            "zero_angle": math.radians(10),
            "film_distance": 615,
            "group_focal_length": 50,
            "cell_to_film": 60,
            "lead": 20,
        },
        math.radians(100),
        1e-11,
        BY_HAND,
    ),
    # A sixth of a turn spans the radius.
    (
        "ring_chord",
        "chord",
        {"ring_diameter": 50, "mark_angle": math.radians(60)},
        25,
        1e-12,
        BY_HAND,
    ),
    # 8 × 0.03 mm is 0.24 mm, a 75th of a turn of 18 mm: 4.8°.
    (
        "depth_mark",
        "depth_mark_angle",
        {"f_number": 8, "circle_of_confusion": 0.03, "lead": 18},
        math.radians(4.8),
        1e-12,
        BY_HAND,
    ),
    # A cell of half the focal length need move only a quarter as far.
    (
        "cell_depth_mark",
        "depth_mark_angle",
        {
            "f_number": 8,
            "circle_of_confusion": 0.03,
            "lead": 18,
            "focal_length": 100,
            "group_focal_length": 50,
        },
        math.radians(1.2),
        1e-12,
        BY_HAND,
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_depth_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)


def test_focused_at_the_hyperfocal_distance_everything_far_is_sharp() -> None:
    """The printed lens focused at its hyperfocal distance is sharp to infinity, and not nearer."""
    formula = CATALOGUE["depth_far"].solve_for("far_limit")
    at_hyperfocal = HAWKINS_LENS | {"object_distance": 4900 / (22 * 0.021) + 70}
    assert formula.value(**at_hyperfocal) > 1e9
    assert math.isinf(formula.value(**HAWKINS_LENS | {"object_distance": 10700}))
    assert math.isfinite(formula.value(**HAWKINS_LENS | {"object_distance": 10600}))
