"""The cam's relations, against numbers worked by hand."""

import math

import pytest

from optics.theory import CATALOGUE

BY_HAND = "worked by hand"
# A 90 mm lens 10 mm out has its subject 2·90 + 10 + 90²/10 = 1000 mm from the film.
NINETY = {"extension": 10, "focal_length": 90, "hiatus": 0}

# relation, unknown, inputs, value, half of the last digit, source; in mm and rad.
ROWS = [
    # For the same subject 50 mm must stand out by the y of y + 2500/y = 900.
    (
        "cam_lift",
        "lift",
        {**NINETY, "body_focal_length": 50, "body_hiatus": 0},
        450 - math.sqrt(450**2 - 2500),
        1e-9,
        BY_HAND,
    ),
    # 40 mm seen from 800 mm is a slope of 0.05, an angle of 0.05 − 0.05³/3 + 0.05⁵/5.
    (
        "straight_follower",
        "lift",
        {**NINETY, "base": 40, "base_to_film": 200, "follower_gain": 0.02},
        2.4979198,
        5e-8,
        BY_HAND,
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_cam_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A number worked by hand is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)
