"""Shim packs against a plain enumerator of every handful of leaves there is."""

import itertools
import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.shims import MakeUp, Pack, make_up
from optics.errors import OutOfRange

# Whole tenths of a micrometre, so that the enumerator counts without rounding. The leaves are
# metric, and 1/2, 1, 1 1/2 and 2 thou: 0.0127, 0.0254, 0.0381 and 0.0508 mm exactly.
KINDS = (100, 127, 200, 254, 300, 381, 500, 508, 1000, 2000)
Chosen = tuple[tuple[int, int], ...]


def every_pack(stock: dict[int, int]) -> list[Chosen]:
    """Take every number of every kind of leaf."""
    kinds = sorted(stock, reverse=True)
    numbers = itertools.product(*(range(stock[kind] + 1) for kind in kinds))
    return [tuple((k, n) for k, n in zip(kinds, taken, strict=True) if n) for taken in numbers]


def away(pack: Chosen, target: int) -> int:
    """Return how far a pack is from the target."""
    return abs(sum(kind * number for kind, number in pack) - target)


def leaves(pack: Chosen) -> int:
    """Return how many leaves a pack has."""
    return sum(number for _, number in pack)


def best_by_hand(stock: dict[int, int], target: int, near: int) -> tuple[set[Chosen], set[Chosen]]:
    """Return the best packs, all equal, and all the nearest of the fewest leaves."""
    packs = every_pack(stock)
    least = min(away(pack, target) for pack in packs)
    nearest = [pack for pack in packs if away(pack, target) == least]
    good = [pack for pack in packs if away(pack, target) <= near] or nearest
    few = [pack for pack in good if leaves(pack) == min(map(leaves, good))]
    best = {p for p in few if away(p, target) == min(away(q, target) for q in few)}
    fewest = min(map(leaves, nearest))
    return best, {pack for pack in nearest if leaves(pack) == fewest}


def in_units(pack: Pack) -> Chosen:
    """Count a pack in tenths of a micrometre."""
    return tuple((round(thickness * 10_000), number) for thickness, number in pack.leaves)


def made_of(stock: dict[int, int], target: int, near: int) -> MakeUp:
    """Ask for a pack in tenths of a micrometre."""
    return make_up(target / 10_000, [(k / 10_000, n) for k, n in stock.items()], near / 10_000)


stocks = st.dictionaries(st.sampled_from(KINDS), st.integers(0, 3), max_size=4)


@settings(max_examples=200, deadline=None)
@given(stocks, st.integers(0, 9000), st.integers(0, 150))
def test_the_fewest_leaves_and_then_the_nearest(
    stock: dict[int, int], target: int, near: int
) -> None:
    """The packs are those of the fewest leaves near enough, then nearest, with every tie."""
    best, nearest = best_by_hand(stock, target, near)
    made = made_of(stock, target, near)
    found = {in_units(pack) for pack in made.packs}
    assert len(found) == len(made.packs)
    assert found == best if len(best) <= 5 else found < best
    assert in_units(made.nearest) in nearest


@settings(max_examples=100, deadline=None)
@given(stocks, st.integers(0, 9000), st.integers(0, 150))
def test_never_more_leaves_than_there_are(stock: dict[int, int], target: int, near: int) -> None:
    """No pack takes more leaves of a thickness than the drawer holds."""
    made = made_of(stock, target, near)
    for pack in (*made.packs, made.nearest):
        assert all(number <= stock[kind] for kind, number in in_units(pack))


def packs(made: MakeUp) -> list[tuple[tuple[float, int], ...]]:
    """Return the equals as plain leaves."""
    return [pack.leaves for pack in made.packs]


def test_one_leaf_is_better_than_two_nearer_ones() -> None:
    """One leaf near enough is taken, and the nearer pair is told beside it; worked by hand."""
    made = make_up(0.105, [(0.1, 1), (0.05, 1), (0.055, 1)], 0.006)
    assert packs(made) == [((0.1, 1),)]
    assert made.nearest.leaves == ((0.055, 1), (0.05, 1))


def test_equals_are_all_told() -> None:
    """0.10 mm from two of 0.05, or 0.08 and 0.02, is a tie; worked by hand."""
    made = make_up(0.1, [(0.05, 2), (0.08, 1), (0.02, 1)], 0.001)
    assert sorted(packs(made)) == [((0.05, 2),), ((0.08, 1), (0.02, 1))]


def test_above_and_below_by_the_same_is_a_tie() -> None:
    """Leaves 0.01 mm too thick and too thin serve equally well; worked by hand."""
    assert sorted(packs(make_up(0.06, [(0.05, 1), (0.07, 1)], 0.02))) == [
        ((0.05, 1),),
        ((0.07, 1),),
    ]


def test_inch_leaves_add_up_exactly() -> None:
    """Two leaves of 1 1/2 thou make 3 thou, 0.0762 mm, with nothing left over."""
    made = make_up(0.0762, [(0.0381, 2), (0.05, 5), (0.02, 5)], 0.0)
    assert packs(made) == [((0.0381, 2),)]
    assert made.best.thickness == pytest.approx(3 * 0.0254, abs=1e-12)


def test_no_leaves_make_no_pack() -> None:
    """An empty drawer, and nothing to add, make a pack of no leaves."""
    for made in (make_up(0.2, [], 0.01), make_up(0.0, [(0.1, 3)], 0.01)):
        assert made.best == Pack(())
        assert (made.best.count, made.best.thickness) == (0, 0.0)


def test_leaves_of_one_thickness_are_counted_together() -> None:
    """The same thickness twice in the drawer is one kind of leaf."""
    assert packs(make_up(0.15, [(0.05, 1), (0.05, 2)], 0.0)) == [((0.05, 3),)]


def test_the_only_leaf_may_be_far_too_thick() -> None:
    """Where nothing comes near, the nearest there is may lie above the target."""
    assert packs(make_up(0.7, [(1.0, 1)], 0.01)) == [((1.0, 1),)]
    assert packs(make_up(0.3, [(1.0, 1)], 0.01)) == [()]


def test_many_kinds_of_leaf_are_quickly_made_up() -> None:
    """A cabinet of forty kinds, whose ties are beyond counting, answers within two seconds."""
    cabinet = [(0.1 + 0.01 * step, 6) for step in range(40)]
    began = time.perf_counter()
    made = make_up(8.66, cabinet, 0.005)
    assert time.perf_counter() - began < 2
    assert len(made.packs) == 5
    # Eighteen of the thickest, six each of 0.49, 0.48 and 0.47, come to 8.64: one short.
    assert made.best.count == 19


@pytest.mark.parametrize("target", [10.0001, 25.0, -0.001, math.inf, math.nan])
def test_a_pack_beyond_ten_millimetres_or_below_none_is_refused(target: float) -> None:
    """A pack is between 0 and 10 mm thick, or is refused in one sentence."""
    with pytest.raises(OutOfRange, match=r"^A shim pack must be between 0 and 10 mm thick: got "):
        make_up(target, [(0.1, 3)], 0.01)


def test_a_pack_of_ten_millimetres_is_made() -> None:
    """Ten millimetres itself is made up."""
    assert packs(make_up(10.0, [(2.0, 5)], 0.01)) == [((2.0, 5),)]


@pytest.mark.parametrize("thickness", [0.0, -0.1, 10.001, 1e9, math.inf, math.nan])
def test_a_leaf_that_is_none_is_refused(thickness: float) -> None:
    """A leaf is thicker than 0 and at most 10 mm, or is refused in one sentence."""
    with pytest.raises(OutOfRange, match=r"^A shim leaf must be thicker than 0 mm and at most 10"):
        make_up(0.1, [(thickness, 1)], 0.01)


@pytest.mark.parametrize("count", [-3, 2.5])
def test_a_count_that_is_none_is_refused(count: float) -> None:
    """A drawer holds a whole number of leaves, or none."""
    with pytest.raises(OutOfRange, match=r"^The number of shim leaves of 0\.1 mm must be"):
        make_up(1.0, [(0.1, count)], 0.01)  # type: ignore[list-item]


@pytest.mark.parametrize("near", [-0.01, math.inf, math.nan])
def test_how_near_is_a_length(near: float) -> None:
    """How near a pack must come is zero or more, and finite."""
    with pytest.raises(OutOfRange, match=r"^How near a shim pack must come must be zero or more"):
        make_up(1.0, [(0.1, 10)], near)
