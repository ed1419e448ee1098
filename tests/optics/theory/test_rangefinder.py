"""The coupled rangefinder: what a wrong gain does, one word with one meaning."""

import math

import pytest

from optics.theory import CATALOGUE


@pytest.mark.parametrize("ratio", [0.95, 0.99, 1.01, 1.05])
def test_a_wrong_gain_sets_the_lens_where_the_coupling_error_says(ratio: float) -> None:
    """gain_error gives the distance at which the lens that coupling_error finds is sharp."""
    # Far enough that it does not matter where the distance is measured from.
    lens = {"focal_length": 47.0, "hiatus": 0.0}
    distance, base = 2e6, 41.0
    right = base / 47.0**2
    error = (
        CATALOGUE["coupling_error"]
        .solve_for("focus_error")
        .value(
            film_distance=distance,
            base=base,
            base_to_film=0.0,
            zero_error=0.0,
            gain=ratio * right,
            **lens,
        )
    )
    stands = CATALOGUE["mark_error"].solve_for("sharp_distance")
    sharp = stands.value(mark_distance=distance, focus_error=error, **lens)
    indicated = CATALOGUE["gain_error"].solve_for("indicated_distance")
    said = indicated.value(range_distance=distance, gain_ratio=ratio)
    assert said == pytest.approx(sharp, rel=2e-4)


def test_too_little_gain_focuses_too_near() -> None:
    """With 95 per cent of the right gain the lens goes out too far and focuses before 20 m."""
    found = CATALOGUE["gain_error"].solve_for("indicated_distance")
    # 47 mm, base 41 mm, 20 m: an independent working of the coupling gives 19.09 m.
    assert found.value(range_distance=20_000.0, gain_ratio=0.95) == pytest.approx(19_090, rel=0.006)
    assert found.value(range_distance=math.inf, gain_ratio=0.95) == math.inf


@pytest.mark.parametrize("none", [0.0, -0.0])
def test_a_true_lath_stands_for_infinity(none: float) -> None:
    """A lath without an error of spacing sets the rangefinder at infinity itself, and back."""
    lath = {"base": 41.0, "lath_distance": 3000.0}
    relation = CATALOGUE["infinity_lath"]
    assert relation.solve_for("false_infinity").value(spacing_error=none, **lath) == math.inf
    for far in (math.inf, -math.inf):
        assert relation.solve_for("spacing_error").value(false_infinity=far, **lath) == 0
