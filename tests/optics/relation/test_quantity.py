"""Quantities refuse what has no meaning, and say so in a sentence."""

import math

import numpy as np
import pytest

from optics.errors import OutOfRange
from optics.relation import Quantity, Range

SHIM = Quantity("shim", "T", "T", "mm", "thickness of the shim", Range.positive(up_to=2))
PLAY = Quantity("play", "g", "g", "mm", "play of the plate", Range.at_least(0))
TILT = Quantity("tilt", r"\alpha", "α", "rad", "tilt of the seat (plus: top away)")
RATIO = Quantity("ratio", "i", "i", "", "ratio of the gears", Range.above(1))


@pytest.mark.parametrize("value", [1e-12, 1.0, 2.0, 2, np.float64(2), np.array([0.1, 2.0])])
def test_values_in_range_pass(value: float) -> None:
    """A number, a whole number or an array within the range passes, the upper limit included."""
    SHIM.check(value)


@pytest.mark.parametrize("value", [0.0, -0.0, math.inf, np.array([0.0, math.inf])])
def test_an_allowed_low_limit_and_infinity_pass(value: float) -> None:
    """The low limit passes where it is allowed, and infinity where nothing limits the range."""
    PLAY.check(value)


# quantity, value, the sentence, the value carried, the limit carried
REFUSALS = [
    (
        SHIM,
        0.0,
        "The thickness of the shim must be more than 0 mm: got 0 mm; check the figure "
        "and its unit.",
        0.0,
        "more than 0 mm",
    ),
    (
        SHIM,
        -0.25,
        "The thickness of the shim must be more than 0 mm: got −0.25 mm; check the "
        "figure and its unit.",
        -0.25,
        "more than 0 mm",
    ),
    (
        SHIM,
        2.5,
        "The thickness of the shim must be at most 2 mm: got 2.5 mm; check the figure "
        "and its unit.",
        2.5,
        "at most 2 mm",
    ),
    (
        SHIM,
        math.inf,
        "The thickness of the shim must be at most 2 mm: got infinity mm; check the "
        "figure and its unit.",
        math.inf,
        "at most 2 mm",
    ),
    (
        SHIM,
        np.array([1.0, 7.0, 3.0]),
        "The thickness of the shim must be at most 2 mm: got 7 mm; check the figure and its unit.",
        7.0,
        "at most 2 mm",
    ),
    (
        PLAY,
        -1e-9,
        "The play of the plate must be at least 0 mm: got −1e-09 mm; check the figure "
        "and its unit.",
        -1e-9,
        "at least 0 mm",
    ),
    (
        TILT,
        -math.inf,
        "The tilt of the seat (plus: top away) must be finite: got −infinity rad; "
        "check the figure and its unit.",
        -math.inf,
        "finite",
    ),
    (
        RATIO,
        1.0,
        "The ratio of the gears must be more than 1: got 1; check the figure and its unit.",
        1.0,
        "more than 1",
    ),
]


@pytest.mark.parametrize(("quantity", "value", "sentence", "got", "limit"), REFUSALS)
def test_refusals(quantity: Quantity, value: float, sentence: str, got: float, limit: str) -> None:
    """A refusal is one sentence, and carries the quantity, the value and the limit as data."""
    with pytest.raises(OutOfRange) as refusal:
        quantity.check(value)
    assert str(refusal.value) == sentence
    assert refusal.value.quantity == quantity.name
    assert refusal.value.value == got
    assert refusal.value.limit == limit


@pytest.mark.parametrize("value", [math.nan, np.array([1.0, math.nan]), np.array([])])
def test_what_is_not_a_number_is_refused(value: float) -> None:
    """Neither nan, nor an array with one, nor an empty array is taken for a number."""
    with pytest.raises(OutOfRange, match="thickness of the shim is not a number") as refusal:
        SHIM.check(value)
    assert math.isnan(refusal.value.value)


def test_symbols_know_their_sign() -> None:
    """A symbol is positive where the range leaves it no choice, and real otherwise."""
    assert SHIM.symbol.is_positive
    assert RATIO.symbol.is_positive
    assert PLAY.symbol.is_positive is None
    assert TILT.symbol.is_real
    assert SHIM.symbol.name == "shim"


FLAT = Quantity("flat", "R", "R", "mm", "radius", Range.nonzero())


def test_plus_and_minus_infinity_are_one_where_it_is_said() -> None:
    """A flat face is flat whichever way it is told, and is told as plus; others refuse minus."""
    FLAT.check(-math.inf)
    FLAT.check(np.array([-math.inf, 2.0]))
    assert FLAT.range.folded(-math.inf) == math.inf
    assert FLAT.range.folded(np.array([-math.inf, -2.0])).tolist() == [math.inf, -2]
    assert TILT.range.folded(-math.inf) == -math.inf


@pytest.mark.parametrize("value", [0.0, -0.0, np.array([1.0, 0.0])])
def test_zero_is_refused_where_it_is_no_figure(value: float) -> None:
    """What may have either sign may still not be zero."""
    with pytest.raises(OutOfRange, match="The radius must be other than 0 mm: got 0 mm; check"):
        FLAT.check(value)
