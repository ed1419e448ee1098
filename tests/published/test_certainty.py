"""Repeats and two readings of one thing against printed and hand-worked figures."""

import pytest

from optics.theory import CATALOGUE

# relation, unknown, inputs, figure, tolerance, source of the figure
ROWS = [
    (
        # 0.10 mm over four repeats is 0.05; 0.06/√3 = 0.034641; √(0.0025 + 0.0012) = 0.0608276.
        "mean_uncertainty",
        "standard_uncertainty",
        {"scatter": 0.1, "repeats": 4, "half_width": 0.06},
        0.0608276,
        5e-8,
        "by hand",
    ),
    (
        "mean_uncertainty",
        "standard_uncertainty",
        {"scatter": 1.489, "repeats": 20, "half_width": 0.0},
        0.333,
        5e-4,
        "JCGM 100:2008, 4.4.3: s 1.489, 20 readings, u 0.333",
    ),
    (
        # Students A and B of the textbook's example: 11 ± 1 and 12 ± 1 ohm.
        "weighted_mean",
        "best_value",
        {
            "first_reading": 11.0,
            "first_uncertainty": 1.0,
            "second_reading": 12.0,
            "second_uncertainty": 1.0,
        },
        11.5,
        1e-12,
        "by hand: equal weights",
    ),
    (
        # With the third, 10 ± 3 ohm, the book has 11.42.
        "weighted_mean",
        "best_value",
        {
            "first_reading": 11.5,
            "first_uncertainty": 0.5**0.5,
            "second_reading": 10.0,
            "second_uncertainty": 3.0,
        },
        11.42,
        5e-3,
        "J. R. Taylor, An Introduction to Error Analysis, 2e, ch. 7 (from memory)",
    ),
    (
        "weighted_uncertainty",
        "standard_uncertainty",
        {"first_uncertainty": 0.5**0.5, "second_uncertainty": 3.0},
        0.69,
        5e-3,
        "J. R. Taylor, An Introduction to Error Analysis, 2e, ch. 7 (from memory)",
    ),
]


@pytest.mark.parametrize(("name", "unknown", "inputs", "figure", "tolerance", "source"), ROWS)
def test_certainty_of_the_books(
    name: str,
    unknown: str,
    inputs: dict[str, float],
    figure: float,
    tolerance: float,
    source: str,
) -> None:
    """Uncertainties of means and weighted means come out as printed or worked by hand."""
    found = CATALOGUE[name].solve_for(unknown).value(**inputs)
    assert found == pytest.approx(figure, abs=tolerance), source
