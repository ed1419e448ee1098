"""Making up a shim pack from the leaves at hand."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from typing import Any

import numpy as np
from numpy.typing import NDArray

from optics.errors import OutOfRange
from optics.units import Leaves

# Leaves are added up in whole tenths of a micrometre, finer than any gauge reads.
_UNITS_PER_MM = 10_000
DIGITS = 4
THICKEST_PACK = 10.0
_MOST_TIES = 5
_NONE = 1_000_000


@dataclass(frozen=True)
class Pack:
    """A set of leaves: (thickness in mm, how many) from thick to thin, and their sum."""

    leaves: tuple[tuple[float, int], ...]

    @property
    def thickness(self) -> float:
        """Total in mm."""
        return math.fsum(t * n for t, n in self.leaves)

    @property
    def count(self) -> int:
        """How many leaves."""
        return sum(n for _, n in self.leaves)


@dataclass(frozen=True)
class MakeUp:
    """The packs that serve equally well (more than one is a tie), and the nearest of all."""

    target: float
    packs: tuple[Pack, ...]
    nearest: Pack

    @property
    def best(self) -> Pack:
        """The first of the equals."""
        return self.packs[0]


def make_up(target: float, leaves: Leaves, near_enough: float) -> MakeUp:
    """Which leaves make a pack of `target` mm: fewest leaves first, then nearest.

    Among the packs within ± `near_enough` of the target the one with fewest leaves is taken,
    and of those the nearest; where no pack comes so near, the nearest there is. `leaves` are
    (thickness in mm, how many). Zero leaves is a pack too.
    Errors: OutOfRange for a target below zero or above 10 mm, for a leaf that is none, a count
    below zero or not whole, and for a `near_enough` that is not zero or more and finite.
    """
    if not 0 <= target <= THICKEST_PACK:
        raise OutOfRange(
            f"A shim pack must be between 0 and {THICKEST_PACK:g} mm thick: "
            f"got {target:.3f} mm; check the reading and its unit.",
            quantity="shim_pack",
            value=target,
            limit=THICKEST_PACK,
        )
    if not 0 <= near_enough < math.inf:
        raise OutOfRange(
            f"How near a shim pack must come must be zero or more and finite: got {near_enough:g} "
            "mm; give it in mm.",
            quantity="near_enough",
            value=near_enough,
            limit=0.0,
        )
    kinds = _merged(leaves)
    tables = _fewest_leaves(kinds, round((target + near_enough) * _UNITS_PER_MM) + 1)
    fewest = tables[-1]
    sums = np.flatnonzero(fewest < _NONE)
    away = np.abs(sums / _UNITS_PER_MM - target)
    nearest_sums = _least(sums, away)
    nearest_sum = nearest_sums[np.argmin(fewest[nearest_sums])]
    close = sums[away <= near_enough + 0.5 / _UNITS_PER_MM]
    if close.size:
        close = _least(close, fewest[close])
        close = _least(close, np.abs(close / _UNITS_PER_MM - target))
    else:
        close = _least(nearest_sums, fewest[nearest_sums])
    # Leaves of many kinds can tie in thousands of ways, so only so many are looked for.
    packs = chain.from_iterable(_packs(tables, kinds, int(total)) for total in close)
    ties = tuple(islice(packs, _MOST_TIES))
    return MakeUp(target, ties, next(_packs(tables, kinds, int(nearest_sum))))


def _merged(leaves: Leaves) -> list[tuple[int, int]]:
    """Leaves of one thickness counted together, in tenths of a micrometre, thick first."""
    counts: Counter[int] = Counter()
    for thickness, count in leaves:
        if not 0 < thickness <= THICKEST_PACK:
            raise OutOfRange(
                f"A shim leaf must be thicker than 0 mm and at most {THICKEST_PACK:g} mm: "
                f"got {thickness:g} mm; check the stock and its unit.",
                quantity="shim_leaf",
                value=thickness,
                limit=THICKEST_PACK,
            )
        if count < 0 or count % 1:
            raise OutOfRange(
                f"The number of shim leaves of {thickness:g} mm must be whole and at least 0: got "
                f"{count:g}; count the stock again.",
                quantity="shim_leaf",
                value=count,
                limit=0,
            )
        counts[round(thickness * _UNITS_PER_MM)] += int(count)
    return sorted(((t, n) for t, n in counts.items() if t and n), reverse=True)


def _fewest_leaves(kinds: Iterable[tuple[int, int]], size: int) -> list[NDArray[np.int64]]:
    """For each first so many kinds, the fewest leaves that make each total up to `size`.

    A leaf beyond `size` may still be the nearest pack by itself, so the table reaches one
    thickest leaf farther.
    """
    kinds = list(kinds)
    reach = size + max((t for t, _ in kinds), default=0)
    table = np.full(reach + 1, _NONE, np.int64)
    table[0] = 0
    tables = [table]
    for thickness, count in kinds:
        following = table.copy()
        for number in range(1, min(count, reach // thickness) + 1):
            shifted = table[: reach + 1 - number * thickness] + number
            np.minimum(
                following[number * thickness :], shifted, out=following[number * thickness :]
            )
        tables.append(following)
        table = following
    return tables


def _packs(
    tables: Sequence[NDArray[np.int64]], kinds: Sequence[tuple[int, int]], total: int
) -> Iterator[Pack]:
    """Every pack of exactly `total` with the fewest leaves, by walking the tables back."""

    def walk(level: int, rest: int, chosen: tuple[tuple[float, int], ...]) -> Iterator[Pack]:
        if level == 0:
            yield Pack(tuple(reversed(chosen)))
            return
        thickness, count = kinds[level - 1]
        for number in range(min(count, rest // thickness), -1, -1):
            before = rest - number * thickness
            if tables[level - 1][before] + number == tables[level][rest]:
                leaf = ((thickness / _UNITS_PER_MM, number),) if number else ()
                yield from walk(level - 1, before, chosen + leaf)

    yield from walk(len(kinds), total, ())


def _least(items: NDArray[np.int64], by: NDArray[Any]) -> NDArray[np.int64]:
    # Two packs equally far above and below the target differ only in the last bit.
    chosen: NDArray[np.int64] = items[by <= by.min() + 1e-9]
    return chosen
