"""Where to set near: against a search that knows nothing of the method."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera, FrontCell, Lens, Turn
from optics.errors import OutOfRange
from optics.rangefinder.coupling import Coupling, film_errors
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import Setting, along, where_to_set
from tests.optics.rangefinder.workshop import camera, extension, sight_angle

# Many more distances than the method looks at, evenly in 1/D.
DENSE = 20_001


def brute(base: float, back: float, focal_length: float, near: float, is_zero_free: bool) -> float:
    """Search gain (and zero) in ever smaller steps for the least worst error."""
    inverse = np.linspace(0, 1 / near, DENSE)[1:]
    distances = 1 / inverse
    reach = distances - 2 * focal_length
    wanted = np.array([0.0, *((reach - np.sqrt(reach**2 - 4 * focal_length**2)) / 2)])
    angles = np.array([0.0, *np.arctan2(base, distances - back)])
    low, high = 0.8, 1.25
    usual = wanted[-1] / angles[-1]

    def worst(stretch: float) -> float:
        errors = stretch * usual * angles - wanted
        # The best zero for a gain puts the largest and the smallest error level.
        return float(np.ptp(errors) / 2 if is_zero_free else np.abs(errors).max())

    for _ in range(12):
        tries = np.linspace(low, high, 21)
        best = int(np.argmin([worst(s) for s in tries]))
        low, high = tries[max(best - 1, 0)], tries[min(best + 1, 20)]
    return worst((low + high) / 2)


@settings(deadline=None, max_examples=25)
@given(
    base=st.floats(20, 80),
    back=st.floats(0, 60),
    focal_length=st.floats(28, 105),
    times=st.floats(10, 40),
)
def test_no_search_finds_better(
    base: float, back: float, focal_length: float, times: float
) -> None:
    """A brute search for the least worst error ends within 10⁻⁶ mm of what is found."""
    near = times * focal_length
    advice = where_to_set(camera(focal_length), Rangefinder(base, back), near)
    by_near = brute(base, back, focal_length, near, False)
    by_pair = brute(base, back, focal_length, near, True)
    assert advice.best_near.worst == pytest.approx(by_near, abs=1e-6)
    assert advice.best_pair.worst == pytest.approx(by_pair, abs=1e-6)


def test_the_known_design() -> None:
    """f 50, base 40, 20 before the film, 1 m: 0.063 mm becomes 0.043, and 0.032 with the pair."""
    advice = where_to_set(camera(50), Rangefinder(40.0, 20.0), 1000.0)
    assert advice.usual.worst == pytest.approx(0.0631, abs=5e-5)
    assert advice.best_near.worst == pytest.approx(brute(40, 20, 50, 1000, False), abs=1e-6)
    assert advice.best_pair.worst == pytest.approx(advice.usual.worst / 2, abs=1e-6)
    assert advice.gained == pytest.approx(0.0203, abs=5e-5)
    assert 1150 < advice.best_near.exact_at[1] < 1250


@settings(deadline=None, max_examples=30)
@given(
    base=st.floats(20, 80),
    back=st.floats(0, 60),
    focal_length=st.floats(28, 105),
    curvature=st.floats(-1e-4, 1e-4),
)
def test_the_errors_are_level(
    base: float, back: float, focal_length: float, curvature: float
) -> None:
    """At the best setting the worst error is met twice, and thrice with the zero free."""
    finder, body = Rangefinder(base, back), camera(focal_length)
    near = 20 * focal_length
    advice = where_to_set(body, finder, near, curvature=curvature * base / 40)
    distances = along(near, points=4001)
    for setting, times in ((advice.best_near, 2), (advice.best_pair, 3)):
        errors = film_errors(body, finder, setting.coupling, distances)
        is_worst = np.abs(errors) > setting.worst * (1 - 1e-4) - 1e-7
        signs = np.sign(errors[is_worst])
        assert 1 + np.count_nonzero(np.diff(signs)) >= times


@settings(deadline=None, max_examples=30)
@given(base=st.floats(20, 80), focal_length=st.floats(28, 105), times=st.floats(10, 40))
def test_set_where_told_nothing_is_wrong_there(
    base: float, focal_length: float, times: float
) -> None:
    """At every distance that a setting says it is exact at, the lens is where it should be."""
    near = times * focal_length
    advice = where_to_set(camera(focal_length), Rangefinder(base, 20.0), near)
    assert len(advice.best_near.exact_at) == len(advice.best_pair.exact_at) == 2
    assert advice.usual.exact_at == (math.inf, near)
    for setting in (advice.best_near, advice.best_pair):
        for distance in setting.exact_at:
            wrong = left(setting.coupling, base, focal_length, distance)
            assert wrong == pytest.approx(0, abs=1e-7)


def left(coupling: Coupling, base: float, focal_length: float, distance: float) -> float:
    """Return the error of a straight linkage by drawn sight and halved lens."""
    stands = (sight_angle(base, 20, distance) - coupling.zero) / coupling.gain
    return stands - extension(focal_length, distance)


def test_the_range_need_not_begin_at_infinity() -> None:
    """From 10 m on less is to be levelled, and the far end is exact in its place."""
    finder, body = Rangefinder(40.0, 20.0), camera(50)
    whole, part = where_to_set(body, finder, 1000.0), where_to_set(body, finder, 1000.0, 10_000.0)
    assert part.best_near.worst < whole.best_near.worst
    assert part.best_near.exact_at[0] == pytest.approx(10_000)


def test_a_front_cell_is_levelled_at_the_film() -> None:
    """For a front cell too the best near setting lessens the worst error at the film."""
    cell = FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0)
    body = Camera("Sample", Lens(75.0, 3.5), cell, 0.05)
    advice = where_to_set(body, Rangefinder(50.0, 30.0), 1200.0)
    settings_found: tuple[Setting, ...] = (advice.best_pair, advice.best_near, advice.usual)
    worsts = [setting.worst for setting in settings_found]
    assert worsts == sorted(worsts)
    assert worsts[0] < 0.6 * worsts[-1]


@pytest.mark.parametrize(("near", "far"), [(0.0, 1e3), (2000.0, 1000.0), (1000.0, 1000.0)])
def test_a_range_the_wrong_way_round_is_refused(near: float, far: float) -> None:
    """The near end must be nearer than the far end."""
    with pytest.raises(OutOfRange, match="nearer than its far end"):
        along(near, far)


def test_distances_along_the_range_hold_both_ends() -> None:
    """The range begins at infinity, exactly, ends at the near end, and is even in 1/D."""
    distances = along(1000.0, points=5)
    assert distances.tolist() == [math.inf, 4000.0, 2000.0, pytest.approx(4000 / 3), 1000.0]
