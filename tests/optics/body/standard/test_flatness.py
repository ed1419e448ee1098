"""Bent or only tilted: simulated standards, gauged with the limits stated."""

import random

import pytest

from optics.body.standard import Bend, Flatness, depth_readings, measure_standard

PLACES = [(-18, -12), (18, -12), (-18, 12), (18, 12), (0, 0), (18, 0)]
LIMIT = 0.005


def judged(chance: random.Random, bend: float, repeats: int = 1, spread: float = 0.0) -> Flatness:
    """A leaning standard whose middle is raised by `bend`, gauged within the limit."""
    values = []
    for x, y in PLACES:
        true = 40 + 0.001 * x - 0.0005 * y + (bend if (x, y) == (0, 0) else 0)
        gauge = chance.uniform(-LIMIT, LIMIT)
        values.append([true + gauge + chance.gauss(0, spread) for _ in range(repeats)])
    return measure_standard(depth_readings(PLACES, values, LIMIT)).flatness


def test_flat_standards_are_seldom_called_bent() -> None:
    """Of 400 flat standards at most one in twenty is called bent."""
    chance = random.Random(4)
    wrong = sum(judged(chance, 0.0).bend is Bend.BENT for _ in range(400))
    assert wrong <= 20


def test_flat_standards_with_repeats_are_seldom_called_bent() -> None:
    """Where three repeats each tell the spread, at most one in twenty of 300 is called bent."""
    chance = random.Random(5)
    wrong = sum(judged(chance, 0.0, 3, 0.01).bend is Bend.BENT for _ in range(300))
    assert wrong <= 15


def test_a_bend_is_found_where_it_is() -> None:
    """A middle raised by eight times the limit is called bent, and named, in all of 100."""
    chance = random.Random(6)
    for _ in range(100):
        found = judged(chance, 0.04)
        assert found.bend is Bend.BENT
        assert found.reading.place == "middle"
        assert found.deviation.value > 0
        assert found.ratio > found.limit


def test_three_readings_cannot_tell() -> None:
    """Three readings always lie on a plane, so nothing can be said of a bend."""
    readings = depth_readings(PLACES[:3], [[0], [0.1], [0.2]], LIMIT)
    assert measure_standard(readings).flatness.bend is Bend.THREE_READINGS


def test_nothing_stated_nothing_told() -> None:
    """Readings without a limit leave open whether their deviations mean anything."""
    readings = depth_readings(PLACES[:5], [[0], [0], [0], [0], [0.03]], 0.0)
    found = measure_standard(readings).flatness
    assert found.bend is Bend.NOT_STATED
    assert abs(found.deviation.value) == pytest.approx(0.024)


def test_a_common_zero_bends_nothing() -> None:
    """A gauge's zero that all readings share neither hides a bend nor makes one."""
    values = [[0], [0], [0], [0], [0.03]]
    sure, unsure = (
        measure_standard(depth_readings(PLACES[:5], values, LIMIT, zero)).flatness
        for zero in (0.0, 0.5)
    )
    assert unsure.ratio == pytest.approx(sure.ratio, rel=1e-6)
