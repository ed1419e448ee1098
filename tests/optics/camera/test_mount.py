"""Shims under the screws, tried on a stiff plate that lies on what is put under it."""

import itertools
import math
import random
from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.mount import MountPlan, MountScrew, plan_shims
from optics.camera.plane import Plane
from optics.errors import OutOfRange
from optics.measure.uncertainty import exact, within
from optics.units import Leaves

THREE = [(-20.0, -8.0), (20.0, -8.0), (0.0, 18.0)]
FOUR = [(-20.0, 15.0), (20.0, 15.0), (20.0, -15.0), (-20.0, -15.0)]
DRAWER = ((0.02, 8), (0.03, 8), (0.05, 8), (0.1, 8))
NEAR = 0.006
slopes = st.floats(-0.002, 0.002)


def plane(across: float, up: float, middle: float = 40.0) -> Plane:
    """A plane whose slopes are known to 1e-5."""
    return Plane(exact(middle), within(across, 1e-5, "slope across"), within(up, 1e-5, "slope up"))


def screws(
    places: list[tuple[float, float]], fitted: Leaves | None = ((0.1, 1),)
) -> list[MountScrew]:
    """Screws with the same leaves under each."""
    return [MountScrew(x, y, fitted) for x, y in places]


def lying_on(points: list[tuple[float, float, float]]) -> tuple[float, float, float]:
    """Middle and slopes of a stiff plate on three supports, by the cross product."""
    first, second, third = (np.array(p) for p in points)
    across, up, normal = np.cross(second - first, third - first)
    slope_x, slope_y = -across / normal, -up / normal
    return float(first[2] - slope_x * first[0] - slope_y * first[1]), slope_x, slope_y


def supports(plan: MountPlan) -> list[tuple[float, float, float]]:
    """Where the plate is held after the shims went in: what was there and what was changed."""
    before = plan.before
    return [
        (
            s.screw.x,
            s.screw.y,
            before.middle.value
            + before.slope_across.value * s.screw.x
            + before.slope_up.value * s.screw.y
            + s.change,
        )
        for s in plan.shims
    ]


@settings(max_examples=40, deadline=None)
@given(slopes, slopes, st.floats(-0.1, 0.1))
def test_three_shims_leave_the_predicted_plane(across: float, up: float, moved: float) -> None:
    """On three shims a stiff plate lies as the plan says, nearly square, at the height asked."""
    plan = plan_shims(
        plane(across, up), screws(THREE), moved=moved, drawer=DRAWER, near_enough=NEAR
    )
    middle, slope_x, slope_y = lying_on(supports(plan))
    assert plan.after.middle.value == pytest.approx(middle, abs=1e-9)
    assert plan.after.slope_across.value == pytest.approx(slope_x, abs=1e-9)
    assert plan.after.slope_up.value == pytest.approx(slope_y, abs=1e-9)
    assert plan.gap == 0
    assert max(abs(s.left) for s in plan.shims) <= 0.0101
    assert abs(middle - 40 - moved - plan.raised) <= 0.0101
    # Two screws 40 mm apart, each at most 0.0101 mm wrong.
    assert math.hypot(slope_x, slope_y) <= 0.0202 / 26


@settings(max_examples=20, deadline=None)
@given(slopes, slopes)
def test_four_shims_lie_in_one_plane_as_far_as_the_leaves_allow(across: float, up: float) -> None:
    """Of four shims the fourth misses the plate that lies on the other three by the gap told."""
    plan = plan_shims(plane(across, up), screws(FOUR), drawer=DRAWER, near_enough=NEAR)
    points = supports(plan)
    middle, slope_x, slope_y = lying_on(points[:3])
    x, y, height = points[3]
    assert plan.gap == pytest.approx(abs(height - middle - slope_x * x - slope_y * y), abs=1e-9)
    assert plan.gap <= 0.0101
    assert max(abs(s.left) for s in plan.shims) <= 0.0101


def test_no_leaf_is_used_twice() -> None:
    """In 30 drawers drawn by lot, scarce ones among them, no plan takes more than there is."""
    chance = random.Random(7)
    for _ in range(30):
        drawer = tuple((size, chance.randint(0, 2)) for size in (0.02, 0.03, 0.05, 0.1, 0.0381))
        lean = plane(chance.uniform(-0.003, 0.003), chance.uniform(-0.003, 0.003))
        places = chance.choice((THREE, FOUR))
        plan = plan_shims(lean, screws(places), drawer=drawer, near_enough=NEAR)
        there = Counter({0.1: len(places)})
        used: Counter[float] = Counter()
        for size, number in drawer:
            there[size] += number
        for shim in plan.shims:
            used.update(dict(shim.pack.leaves if shim.pack else ()))
        assert all(number <= there[size] for size, number in used.items())


def every_pack(drawer: Leaves) -> list[float]:
    """The thickness of every handful of leaves."""
    numbers = itertools.product(*(range(number + 1) for _, number in drawer))
    return [sum(size * n for (size, _), n in zip(drawer, taken, strict=True)) for taken in numbers]


@pytest.mark.parametrize("seed", range(6))
def test_a_set_near_enough_is_found_where_there_is_one(seed: int) -> None:
    """Where some four packs come near enough, gap included, the plan's do too."""
    chance = random.Random(seed)
    lean = plane(chance.uniform(-0.002, 0.002), chance.uniform(-0.002, 0.002))
    drawer = ((0.02, 12), (0.03, 12), (0.1, 12))
    plan = plan_shims(lean, screws(FOUR, ()), drawer=drawer, near_enough=0.008)
    handfuls = every_pack(((0.02, 3), (0.03, 3), (0.1, 2)))
    near = [
        [p - s.wanted.value for p in handfuls if abs(p - s.wanted.value) <= 0.008]
        for s in plan.shims
    ]
    best = min(abs(a - b + c - d) for a, b, c, d in itertools.product(*near))
    assert best <= 0.008
    assert max(plan.gap, *(abs(s.left) for s in plan.shims)) <= 0.008 + 1e-6


def test_shims_are_those_worked_by_hand() -> None:
    """A plate leaning 0.040 mm over 40 mm takes 0.020 more on the low side, 0.020 less opposite."""
    plan = plan_shims(plane(0.001, 0.0), screws(FOUR), drawer=DRAWER, near_enough=0.001)
    wanted = {s.screw.name: s.wanted.value for s in plan.shims}
    assert wanted == pytest.approx(
        {"top left": 0.02, "top right": -0.02, "bottom right": -0.02, "bottom left": 0.02}
    )
    packs = {s.screw.name: s.pack.thickness for s in plan.shims if s.pack}
    assert packs == pytest.approx(
        {"top left": 0.12, "top right": 0.08, "bottom right": 0.08, "bottom left": 0.12}
    )
    assert plan.raised == 0
    assert plan.after.lean.value == pytest.approx(0, abs=1e-9)


def test_what_cannot_come_out_raises_the_whole() -> None:
    """With nothing fitted, the screw that should go down stays and all others are raised."""
    plan = plan_shims(plane(0.001, 0.0), screws(FOUR, ()), drawer=DRAWER, near_enough=0.001)
    assert plan.raised == pytest.approx(0.02)
    assert plan.shift.value == pytest.approx(0.02)
    assert min(s.change for s in plan.shims) == pytest.approx(0)
    assert max(s.change for s in plan.shims) == pytest.approx(0.04)


def test_the_middle_is_moved_as_asked() -> None:
    """Asked to move by minus the focus error, the middle goes that far and the rest with it."""
    plan = plan_shims(
        plane(0.001, 0.0), screws(THREE), moved=-0.05, drawer=DRAWER, near_enough=0.001
    )
    assert plan.shift.value == pytest.approx(-0.05, abs=0.002)
    assert plan.raised == 0


def test_without_leaves_the_amounts_are_told() -> None:
    """An empty drawer, or unknown shims, leaves amounts to a hundredth and no packs."""
    for drawer, fitted in (((), ((0.1, 1),)), (DRAWER, None)):
        plan = plan_shims(
            plane(0.00113, 0.0), screws(FOUR, fitted), drawer=drawer, near_enough=NEAR
        )
        assert {s.pack for s in plan.shims} == {None}
        assert [s.change for s in plan.shims] == pytest.approx([0.02, -0.02, -0.02, 0.02])


def test_uncertainty_comes_from_plane_and_leaves() -> None:
    """The lean left is at least as uncertain as the lean found, and a gauge's zero adds nothing."""
    zero = within(40.0, 0.5, "zero of the depth gauge")
    lean = Plane(zero, within(0.001, 1e-5, "across"), within(0.0, 1e-5, "up"))
    plan = plan_shims(lean, screws(THREE), drawer=DRAWER, near_enough=0.001)
    assert max(s.wanted.standard for s in plan.shims) == pytest.approx(20e-5 / 3**0.5, rel=0.1)
    assert plan.after.slope_across.standard > lean.slope_across.standard
    # The move of the middle rests on the leaves alone: three at ± 0.004 mm, two leaves at most.
    assert plan.shift.standard < 0.004


@pytest.mark.parametrize(
    ("places", "said"),
    [
        (THREE[:2], "needs 3 to 4 screws: got 2; add 1 more at another place"),
        ([*FOUR, (0.0, 0.0)], "needs 3 to 4 screws: got 5; leave out 1"),
        ([(-5.0, 0.0), (0.0, 0.0), (5.0, 0.0)], "needs screws that are not on one line"),
    ],
)
def test_screws_that_hold_no_plane_are_refused(
    places: list[tuple[float, float]], said: str
) -> None:
    """Two screws, five, or three on a line are refused, saying what is missing."""
    with pytest.raises(OutOfRange, match=said):
        plan_shims(plane(0.0, 0.0), screws(places), near_enough=NEAR)


def test_a_shim_beyond_reason_is_refused() -> None:
    """A shim of more than 10 mm is refused in one sentence."""
    with pytest.raises(OutOfRange, match="at most 10 mm thick: got "):
        plan_shims(plane(0.9, 0.0), screws(FOUR), drawer=DRAWER, near_enough=NEAR)


def test_nothing_comes_out_from_under_a_bare_screw() -> None:
    """Where no leaf is fitted and none is at hand, rounding asks for none to come out."""
    # Half of 40 mm at 3e-4 is 0.006 mm, which rounds to a hundredth; 0.006 mm is near enough.
    plan = plan_shims(plane(3e-4, 0.0), screws(FOUR, ()), near_enough=0.0061)
    assert [round(shim.change, 9) for shim in plan.shims] == [0.01, 0.0, 0.0, 0.01]
