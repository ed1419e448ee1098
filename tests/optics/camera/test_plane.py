"""The least-squares plane against exact arithmetic and an independent propagation."""

import itertools
import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from optics.body.standard import depth_readings, measure_standard
from optics.measure.places import Point
from optics.measure.uncertainty import within

grid = st.integers(-40, 40)
spots = st.lists(st.tuples(grid, grid), min_size=3, max_size=12, unique=True)
heights = st.integers(-500, 500)


def determinant(rows: list[list[Any]]) -> Any:
    """Three by three, written out."""
    (a, b, c), (d, e, f), (g, h, i) = rows
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)


def normal_equations(places: list[tuple[int, int]], values: list[Any]) -> list[Any]:
    """Gauss's normal equations by Cramer's rule, in whatever numbers are given."""
    columns = [[Fraction(1)] * len(places), *([Fraction(p[i]) for p in places] for i in (0, 1))]
    left = [[sum(a * b for a, b in zip(p, q, strict=True)) for q in columns] for p in columns]
    right = [sum(a * b for a, b in zip(p, values, strict=True)) for p in columns]
    whole = determinant(left)
    answers = []
    for column in range(3):
        swapped = [[*r[:column], right[n], *r[column + 1 :]] for n, r in enumerate(left)]
        answers.append(determinant(swapped) / whole)
    return answers


def spread_out(places: list[tuple[int, int]]) -> bool:
    """Whether some triangle of the places has a fair area."""
    return any(
        abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) > 100
        for a, b, c in itertools.combinations(places, 3)
    )


@settings(max_examples=60, deadline=None)
@given(spots, st.data())
def test_plane_is_that_of_the_normal_equations(
    places: list[tuple[int, int]], data: st.DataObject
) -> None:
    """For any places the plane is that which exact rational arithmetic gives."""
    assume(spread_out(places))
    microns = data.draw(st.lists(heights, min_size=len(places), max_size=len(places)))
    found = measure_standard(depth_readings(places, [[m / 1000] for m in microns], 0.005)).plane
    wanted = normal_equations(places, [Fraction(m, 1000) for m in microns])
    for one, exactly in zip(
        (found.middle, found.slope_across, found.slope_up), wanted, strict=True
    ):
        assert one.value == pytest.approx(float(exactly), abs=1e-12)


def test_uncertainties_are_those_of_another_program() -> None:
    """Slopes, middle and the height of a far corner have the uncertainty another library gives."""
    places = [(-18, -12), (18, -12), (-18, 12), (18, 12), (3, 1)]
    limits = [0.005, 0.01, 0.005, 0.02, 0.004]
    readings = [
        depth_readings([place], [[z]], limit)[0]
        for place, z, limit in zip(places, (0, 0.03, 0.01, 0.04, 0.02), limits, strict=True)
    ]
    plane = measure_standard(readings).plane
    values = [
        ufloat(z, limit / math.sqrt(3))
        for z, limit in zip((0, 0.03, 0.01, 0.04, 0.02), limits, strict=True)
    ]
    floats = [[1.0] * 5, *([float(p[i]) for p in places] for i in (0, 1))]
    left = [[sum(a * b for a, b in zip(p, q, strict=True)) for q in floats] for p in floats]
    right = [sum(a * b for a, b in zip(p, values, strict=True)) for p in floats]
    middle, across, up = (
        determinant([[*r[:c], right[n], *r[c + 1 :]] for n, r in enumerate(left)])
        / determinant(left)
        for c in range(3)
    )
    corner = middle + 40 * across - 30 * up
    for one, other in (
        (plane.middle, middle),
        (plane.slope_across, across),
        (plane.slope_up, up),
        (plane.height(40, -30), corner),
    ):
        assert one.value == pytest.approx(other.n, abs=1e-12)
        assert one.standard == pytest.approx(other.s, rel=1e-9)


def test_a_common_zero_moves_the_plane_and_tilts_nothing() -> None:
    """A gauge whose zero is out by up to 0.1 mm leaves the slopes as well known as before."""
    places: list[Point] = [(-18, -12), (18, -12), (-18, 12), (18, 12)]
    values = [[0.0], [0.03], [0.01], [0.04]]
    sure, unsure = (
        measure_standard(depth_readings(places, values, 0.005, zero)).plane for zero in (0.0, 0.1)
    )
    assert unsure.slope_up.standard == pytest.approx(sure.slope_up.standard, rel=1e-9)
    assert unsure.lean.standard == pytest.approx(sure.lean.standard, rel=1e-9)
    assert unsure.middle.standard > 10 * sure.middle.standard


@settings(max_examples=60, deadline=None)
@given(st.floats(-0.05, 0.05), st.floats(-0.05, 0.05), st.floats(20, 60))
def test_a_known_plane_is_found_again(across: float, up: float, middle: float) -> None:
    """Heights taken off a plane give that plane, its tilt and swing, and no deviations."""
    places: list[Point] = [(-20, -15), (20, -15), (0, 22), (7, 3), (-11, 9)]
    values = [[middle + across * x + up * y] for x, y in places]
    found = measure_standard(depth_readings(places, values, 0.005))
    assert found.plane.height(100, -70).value == pytest.approx(
        middle + 100 * across - 70 * up, abs=1e-9
    )
    assert math.tan(found.plane.tilt.value) == pytest.approx(up, abs=1e-12)
    assert math.tan(found.plane.swing.value) == pytest.approx(across, abs=1e-12)
    # The angle between the plane's normal and the axis.
    normal = (-across, -up, 1.0)
    assert math.cos(found.plane.lean.value) == pytest.approx(1 / math.hypot(*normal), abs=1e-9)
    assert max(abs(r.value) for r in found.residuals) < 1e-9


def test_a_square_standard_is_level() -> None:
    """Where all heights agree the lean is 0, still has an uncertainty, and no direction."""
    places: list[Point] = [(-18, -12), (18, -12), (0, 12)]
    plane = measure_standard(depth_readings(places, [[40.0]] * 3, 0.005)).plane
    assert plane.lean.value == 0
    assert plane.lean.standard > 0
    assert plane.is_level
    assert math.isfinite(plane.lean.expanded)


def test_a_clear_lean_is_not_level() -> None:
    """A lean far beyond its uncertainty is told, with or without a stated limit."""
    for limit in (0.0, 0.002):
        values = [[0.0], [0.1], [0.0]]
        readings = depth_readings([(-18, -12), (18, -12), (-18, 12)], values, limit)
        assert not measure_standard(readings).plane.is_level
    assert within(1.0, 0.0, "nothing").standard == 0
