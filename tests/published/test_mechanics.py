"""Threads, rings and warm metal, against numbers from handbooks and from the rule of three."""

import math

import pytest

from optics.theory import CATALOGUE

INCH = 25.4

SHIGLEY = "Shigley's Mechanical Engineering Design, ch. 8, power-screw example"
BY_HAND = "worked by hand"

# relation, unknown, inputs, value, half of the last printed digit, source; in mm and rad.
ROWS = [
    ("thread_lead", "lead", {"starts": 2, "pitch": 4}, 8, 0.5, SHIGLEY),
    ("mean_diameter", "mean_diameter", {"outside_diameter": 32, "pitch": 4}, 30, 0.5, SHIGLEY),
    ("thread_lead", "starts", {"lead": 8, "pitch": 2}, 4, 1e-12, "ISO 2901 designation Tr 8×8(P2)"),
    # Handbooks give aluminium 22 to 24 millionths per kelvin.
    (
        "thermal_expansion",
        "expansion",
        {"length": INCH, "warming": 60, "expansion_coefficient": 23e-6},
        0.001 * INCH,
        0.0005 * INCH,
        "Thermal example: 1 in of aluminium, 60 K, 0.001 in",
    ),
    # A hundred millimetres of brass at 19 millionths, 10 K: 0.019 mm.
    (
        "thermal_expansion",
        "expansion",
        {"length": 100, "warming": 10, "expansion_coefficient": 19e-6},
        0.019,
        1e-12,
        BY_HAND,
    ),
    # A thread that climbs once its circumference in a turn is at 45°.
    ("lead_angle", "lead_angle", {"lead": 94.24778, "mean_diameter": 30}, 0.785398, 5e-7, BY_HAND),
    ("ring_rotation", "travel", {"rotation": math.radians(180), "lead": 12}, 6, 1e-12, BY_HAND),
    ("ring_rotation", "rotation", {"travel": 2, "lead": 12}, math.radians(60), 1e-12, BY_HAND),
    # Once round a ring of 50 mm is 157.080 mm.
    (
        "ring_arc",
        "arc",
        {"rotation": math.radians(360), "ring_diameter": 50},
        157.080,
        5e-4,
        BY_HAND,
    ),
    ("start_angle", "rotation", {"starts_moved": 1, "starts": 6}, math.radians(60), 1e-12, BY_HAND),
    *(
        (
            "start_shift",
            "travel",
            {"starts_moved": moved, "lead": 12, "starts": 6},
            shift,
            1e-12,
            BY_HAND,
        )
        for moved, shift in [(0, 0), (1, 2), (2, 4), (3, 6), (-3, -6), (-2, -4), (-1, -2)]
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_mechanics_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)
