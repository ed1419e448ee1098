"""Ranges: what each named constructor takes and refuses, and its ends in words."""

import math

import numpy as np
import pytest

from optics.relation import Range

# the range, what lies in it, what does not, and its ends in words
RANGES = [
    (Range.any(), [-5, 0, math.inf], [-math.inf], []),
    (Range.positive(), [1e-300, math.inf], [0, -1], ["more than 0"]),
    (Range.positive(up_to=2), [2], [0, 2.1], ["more than 0", "at most 2"]),
    (Range.above(1), [1.001], [1], ["more than 1"]),
    (Range.above(-3, up_to=3), [3, -2.9], [-3, 3.1], ["more than -3", "at most 3"]),
    (Range.at_least(1), [1, math.inf], [0.999], ["at least 1"]),
    (Range.at_most(4), [-9, 4], [4.1, -math.inf], ["at most 4"]),
    (Range.between(0, 1), [0, 1], [-0.1, 1.1], ["at least 0", "at most 1"]),
    (Range.closed(), [-math.inf, 0, math.inf], [], []),
    (Range.nonzero(), [-math.inf, -1, math.inf], [0, -0.0], []),
]


@pytest.mark.parametrize(("span", "inside", "outside", "ends"), RANGES)
def test_what_a_range_takes(
    span: Range, inside: list[float], outside: list[float], ends: list[str]
) -> None:
    """A named range takes what its name says, refuses the next beside it, and says its ends."""
    for value in inside:
        assert span.fault(value, str) is None
        assert span.fault(np.array([inside[0], value]), str) is None
    for value in outside:
        wrong, limit = span.fault(value, str) or (math.nan, "")
        assert wrong == value
        assert limit
    assert list(span.ends(lambda limit: f"{limit:g}")) == ends


def test_nothing_that_is_not_a_number_is_in_a_range() -> None:
    """Not even the range of every value holds what is not a number."""
    for span, *_ in RANGES:
        assert math.isnan((span.fault(math.nan, str) or (0.0, ""))[0])


def test_the_least_value_of_a_range() -> None:
    """Where the lower end is not allowed, the least value is the next number above it."""
    assert Range.at_least(1).lowest == 1
    assert 1 < Range.above(1).lowest < 1 + 1e-15
    assert Range.positive().is_positive
    assert not Range.at_least(0).is_positive


def test_below_is_said_only_of_what_falls_below() -> None:
    """What it means to fall below a range is said of such a value alone."""
    span = Range.positive(up_to=2, below="the gutter is high")
    assert span.reason(-1) == "the gutter is high"
    assert span.reason(3) == ""
