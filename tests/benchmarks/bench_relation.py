"""How fast relations answer: against numpy written by hand, and one call at a time."""

import statistics
import time
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from optics.theory import CATALOGUE

ELEMENTS = 1_000_000
ROUNDS = 31
AT_MOST_BY_HAND = 1.10
VALUE_AT_MOST = 20e-6
PARTIALS_AT_MOST = 40e-6


def unit_focusing(D: Any, f: Any, h: Any) -> Any:  # noqa: N803
    """What a careful hand writes for the extension."""
    a = D - h - 2 * f
    return 2 * f**2 / (a * (1 + np.sqrt(1 - 4 * f**2 / a**2)))


def mark_error(Ds: Any, Dm: Any, f: Any, h: Any) -> Any:  # noqa: N803
    """What a careful hand writes for the focus error between two distances."""
    return unit_focusing(Ds, f, h) - unit_focusing(Dm, f, h)


def thin_lens(f: Any, s: Any) -> Any:
    """What a careful hand writes for the image distance."""
    return 1 / (1 / f - 1 / s)


def depth_of_focus(N: Any, c: Any, m: Any, p: Any) -> Any:  # noqa: N803
    """What a careful hand writes for the depth of focus."""
    return N * c * (1 + m / p)


def columns(ranges: list[tuple[float, float]]) -> list[np.ndarray]:
    """A million numbers for each range, the same ones on every run."""
    chance = np.random.default_rng(1)
    return [chance.uniform(low, high, ELEMENTS) for low, high in ranges]


# relation, unknown, hand-written, the arrays in the relation's order
CASES = [
    ("thin_lens", "image_distance", thin_lens, [(40, 60), (1e3, 1e5)]),
    ("unit_focusing", "extension", unit_focusing, [(1e3, 1e5), (40, 60), (-5, 5)]),
    ("mark_error", "focus_error", mark_error, [(1e3, 1e5), (1e3, 1e5), (40, 60), (-5, 5)]),
    ("depth_of_focus", "depth_each_way", depth_of_focus, [(2, 16), (0.02, 0.05), (0, 1), (0.5, 2)]),
]


def _took(call: Callable[[], Any]) -> float:
    start = time.perf_counter()
    call()
    return time.perf_counter() - start


def _ratio(one: Callable[[], Any], other: Callable[[], Any]) -> float:
    """The median of how many times as long one takes as the other, called in turns."""
    one(), other()
    return statistics.median(_took(one) / _took(other) for _ in range(ROUNDS))


def _each(call: Callable[[], Any]) -> float:
    """The least time of one call, over bursts that no other program can all disturb."""
    call()
    return min(_took(lambda: [call() for _ in range(200)]) / 200 for _ in range(ROUNDS))


@pytest.mark.parametrize(("name", "unknown", "by_hand", "ranges"), CASES)
def test_compiled_is_as_fast_as_by_hand(
    name: str, unknown: str, by_hand: Callable[..., Any], ranges: list[tuple[float, float]]
) -> None:
    """On a million elements a compiled relation takes at most 1.10 of hand-written numpy."""
    formula = CATALOGUE[name].solve_for(unknown)
    arrays = columns(ranges)
    np.testing.assert_allclose(formula.compiled(*arrays)[0], by_hand(*arrays), rtol=1e-6)
    ratio = _ratio(lambda: formula.compiled(*arrays), lambda: by_hand(*arrays))
    print(f"\n{name}: {ratio:.2f} of hand-written numpy on {ELEMENTS:,} elements")
    assert ratio <= AT_MOST_BY_HAND


@pytest.mark.parametrize(
    ("name", "unknown", "inputs"),
    [
        ("thin_lens", "image_distance", {"focal_length": 50.0, "object_distance": 3000.0}),
        (
            "unit_focusing",
            "extension",
            {"film_distance": 3000.0, "focal_length": 50.0, "hiatus": -2.0},
        ),
        (
            "mark_error",
            "focus_error",
            {
                "sharp_distance": 2900.0,
                "mark_distance": 3000.0,
                "focal_length": 50.0,
                "hiatus": -2.0,
            },
        ),
    ],
)
def test_one_call_is_short(name: str, unknown: str, inputs: dict[str, float]) -> None:
    """A checked scalar call takes at most 20 µs, and at most 40 µs with its partials."""
    formula = CATALOGUE[name].solve_for(unknown)
    value = _each(lambda: formula.value(**inputs))
    partials = _each(lambda: formula.value_and_partials(**inputs))
    print(f"\n{name}: value {value * 1e6:.1f} µs, with partials {partials * 1e6:.1f} µs")
    assert value <= VALUE_AT_MOST
    assert partials <= PARTIALS_AT_MOST
