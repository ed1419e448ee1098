"""The plane of least largest deviation, against every set of four readings."""

import itertools
import random

import numpy as np
import pytest

from optics.body.standard import Standard, depth_readings, measure_standard


def gauged(seed: int, count: int) -> tuple[list[tuple[float, float]], list[float], Standard]:
    """A standard with no order in its heights."""
    chance = random.Random(seed)
    places = [(chance.uniform(-20, 20), chance.uniform(-15, 15)) for _ in range(count)]
    heights = [chance.uniform(-0.05, 0.05) for _ in range(count)]
    return places, heights, measure_standard(depth_readings(places, [[z] for z in heights], 0.005))


def least_by_fours(places: list[tuple[float, float]], heights: list[float]) -> float:
    """The largest deviation that some four readings force upon every plane.

    De la Vallée Poussin: weights that cancel every plane, their sum of sizes 1.
    """
    forced = 0.0
    for four in itertools.combinations(range(len(places)), 4):
        rows = np.array([(1.0, *places[i]) for i in four])
        weights = np.linalg.svd(rows.T)[2][-1]
        z = np.array([heights[i] for i in four])
        forced = max(forced, abs(float(weights @ z)) / float(np.abs(weights).sum()))
    return forced


@pytest.mark.parametrize("count", [4, 5, 8, 12])
@pytest.mark.parametrize("seed", range(6))
def test_no_plane_comes_nearer(seed: int, count: int) -> None:
    """The largest deviation is what some four of the readings force on every plane."""
    places, heights, found = gauged(seed, count)
    least = least_by_fours(places, heights)
    assert found.minimax.worst.value == pytest.approx(least, rel=1e-9)
    plane = found.minimax.plane
    away = [abs(z - plane.height(x, y).value) for (x, y), z in zip(places, heights, strict=True)]
    assert max(away) == pytest.approx(least, rel=1e-9)
    assert max(away) <= abs(found.worst_residual.value) + 1e-12


def test_uncertainty_follows_the_readings_that_touch() -> None:
    """Moving one reading a little moves the plane by what the uncertainty parts foretell."""
    places, heights, found = gauged(3, 7)
    for i, reading in enumerate(found.readings):
        (source,) = reading.depth.parts
        step = 1e-6
        moved = [[z + step * (n == i)] for n, z in enumerate(heights)]
        after = measure_standard(depth_readings(places, moved, 0.005)).minimax
        for before, later in (
            (found.minimax.worst, after.worst),
            (found.minimax.plane.middle, after.plane.middle),
            (found.minimax.plane.slope_up, after.plane.slope_up),
        ):
            slope = before.parts.get(source, 0.0) / reading.depth.standard
            assert (later.value - before.value) / step == pytest.approx(slope, abs=1e-5)


def test_three_readings_leave_nothing_over() -> None:
    """Through three readings both planes are one, and the largest deviation is 0."""
    _, _, found = gauged(1, 3)
    assert found.minimax.worst.value == 0
    assert found.minimax.plane == found.plane


def test_readings_in_one_place_leave_the_plane_open() -> None:
    """Where repeats at one place decide, the least deviation is still half their difference."""
    places = [(0, 0), (0, 0), (20, 0), (0, 20)]
    found = measure_standard(depth_readings(places, [[0.0], [0.02], [0.0], [0.0]], 0.005)).minimax
    assert found.worst.value == pytest.approx(0.01, abs=1e-9)
    assert found.plane.middle.value == pytest.approx(0.01, abs=1e-9)
    assert found.plane.middle.standard > 0
