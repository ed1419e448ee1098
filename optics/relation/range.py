"""Ranges: which values a quantity can have, and in which words one is refused."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Given: TypeAlias = "float | Array"


@dataclass(frozen=True)
class Range:
    """From where to where a value has a meaning; made by one of the named constructors.

    `high` is always allowed, `low` where `low_allowed` says so. `below` says what it means that
    a worked out value falls below the range. `is_closed` says that plus and minus infinity
    are one and the same, as for the radius of a flat face: both are taken, and told as plus.
    `is_never_zero` is for what may have either sign and would divide by nothing at zero.
    """

    low: float = -math.inf
    high: float = math.inf
    low_allowed: bool = False
    below: str = ""
    is_closed: bool = False
    is_never_zero: bool = False

    @classmethod
    def any(cls) -> "Range":
        """Every value of either sign, and plus infinity."""
        return cls()

    @classmethod
    def positive(cls, up_to: float = math.inf, below: str = "") -> "Range":
        """More than nothing."""
        return cls(0, up_to, below=below)

    @classmethod
    def above(cls, low: float, up_to: float = math.inf) -> "Range":
        """More than `low`, which itself is not allowed."""
        return cls(low, up_to)

    @classmethod
    def at_least(cls, low: float) -> "Range":
        """From `low` on, which itself is allowed."""
        return cls(low, low_allowed=True)

    @classmethod
    def at_most(cls, high: float) -> "Range":
        """Up to `high`, of either sign."""
        return cls(high=high)

    @classmethod
    def between(cls, low: float, high: float) -> "Range":
        """From `low` to `high`, both allowed."""
        return cls(low, high, low_allowed=True)

    @classmethod
    def closed(cls) -> "Range":
        """Every value, plus and minus infinity being one."""
        return cls(is_closed=True)

    @classmethod
    def nonzero(cls) -> "Range":
        """Every value but zero, plus and minus infinity being one."""
        return cls(is_closed=True, is_never_zero=True)

    def __and__(self, other: "Range") -> "Range":
        """What lies in both; the rest is told of this one."""
        # Where both begin at one value, it is allowed only if both allow it.
        low, is_open = max((self.low, not self.low_allowed), (other.low, not other.low_allowed))
        return replace(self, low=low, low_allowed=not is_open, high=min(self.high, other.high))

    @property
    def is_positive(self) -> bool:
        """Whether the range leaves a value no choice but to be positive."""
        return self.low >= 0 and not self.low_allowed

    @property
    def lowest(self) -> float:
        """The least value in the range."""
        return self.low if self.low_allowed else float(np.nextafter(self.low, math.inf))

    def ends(self, say: Callable[[float], str]) -> Iterator[str]:
        """Each end that the range has in words, the lower first, its figure as `say` says it."""
        if math.isfinite(self.low):
            yield f"{'at least' if self.low_allowed else 'more than'} {say(self.low)}"
        if math.isfinite(self.high):
            yield f"at most {say(self.high)}"

    def fault(self, value: Given, say: Callable[[float], str]) -> tuple[float, str] | None:
        """An element that is not in the range, and the limit in words; None where all are.

        `say` says the limit's figure with its unit.
        """
        value = self.folded(value)
        lowest, highest = (value, value) if isinstance(value, float | int) else extremes(value)
        if lowest > self.low or (self.low_allowed and lowest == self.low):
            if highest <= self.high:
                holds_zero = self.is_never_zero and np.any(np.equal(value, 0))
                return (0.0, f"other than {say(0.0)}") if holds_zero else None
            return highest, [*self.ends(say)][-1]
        is_endless = lowest == -math.inf or self.low == -math.inf
        return lowest, "finite" if is_endless else next(self.ends(say))

    def reason(self, value: float) -> str:
        """What it means that a worked out value is not in the range, where that is known."""
        return self.below if value < self.low else ""

    def folded(self, value: Given) -> Given:
        """The value with minus infinity told as plus, where the two are one."""
        if not self.is_closed:
            return value
        if isinstance(value, float | int):
            return -value if value == -math.inf else value
        return np.where(value == -math.inf, math.inf, value)


ANY = Range.any()


def extremes(value: Array) -> tuple[float, float]:
    """The least and the greatest element; nan if there is one, or none at all."""
    return (float(np.min(value)), float(np.max(value))) if value.size else (math.nan, math.nan)
