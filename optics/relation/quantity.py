"""Quantities: names, symbols, units, meanings and the ranges in which they have one."""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
import sympy
from numpy.typing import NDArray

from optics.errors import OutOfRange

Array: TypeAlias = NDArray[np.float64]
Given: TypeAlias = "float | Array"


@dataclass(frozen=True)
class Quantity:
    """A named physical quantity: its symbol, unit, meaning and the range it can have.

    `name` is at once keyword argument, column heading and widget key. A sign
    convention, where there is one, is part of `meaning`. `below` says what it means that
    a worked out value falls below the range. `is_closed` says that plus and minus infinity
    are one and the same, as for the radius of a flat face: both are taken, and told as plus.
    `is_never_zero` is for what may have either sign and would divide by nothing at zero.
    """

    name: str
    latex: str
    plain: str
    unit: str
    meaning: str
    low: float = -math.inf
    high: float = math.inf
    low_allowed: bool = False
    below: str = ""
    is_closed: bool = False
    is_never_zero: bool = False

    @cached_property
    def symbol(self) -> sympy.Symbol:
        """The sympy symbol; positive where the range says so, real otherwise."""
        if self.low >= 0 and not self.low_allowed:
            return sympy.Symbol(self.name, positive=True)
        return sympy.Symbol(self.name, real=True)

    def check(self, value: Given) -> None:
        """Raise OutOfRange unless every element of `value` lies in the quantity's range."""
        fault = self.fault(value)
        if fault is None:
            return
        wrong, limit = fault
        if math.isnan(wrong):
            raise OutOfRange(
                f"The {self.meaning} is not a number; enter it again in {self.unit or 'digits'}.",
                quantity=self.name,
                value=wrong,
            )
        raise self.refuse(wrong, limit)

    def fault(self, value: Given) -> tuple[float, str] | None:
        """An element that is not in the range, and the limit in words; None where all are."""
        value = self.folded(value)
        lowest, highest = (value, value) if isinstance(value, float | int) else extremes(value)
        if lowest > self.low or (self.low_allowed and lowest == self.low):
            if highest <= self.high:
                holds_zero = self.is_never_zero and np.any(np.equal(value, 0))
                return (0.0, f"other than {said(0.0, self.unit)}") if holds_zero else None
            return highest, f"at most {said(self.high, self.unit)}"
        if lowest == -math.inf:
            return lowest, "finite"
        limit = "at least" if self.low_allowed else "more than"
        return lowest, f"{limit} {said(self.low, self.unit)}"

    def folded(self, value: Given) -> Given:
        """The value with minus infinity told as plus, where the two are one."""
        if not self.is_closed:
            return value
        if isinstance(value, float | int):
            return -value if value == -math.inf else value
        return np.where(value == -math.inf, math.inf, value)

    def refuse(self, value: float, limit: str, reason: str = "") -> OutOfRange:
        """The sentence for a value outside a limit, ready to raise."""
        why = f" ({reason})" if reason else ""
        return OutOfRange(
            f"The {self.meaning} must be {limit}{why}: got {said(value, self.unit)}; "
            "check the figure and its unit.",
            quantity=self.name,
            value=value,
            limit=limit,
        )


def extremes(value: Array) -> tuple[float, float]:
    """The least and the greatest element; nan if there is one, or none at all."""
    return (float(np.min(value)), float(np.max(value))) if value.size else (math.nan, math.nan)


def said(value: float, unit: str) -> str:
    """A number with its unit as a sentence shows it."""
    number = "infinity" if math.isinf(value) else f"{value:.6g}"
    if value < 0:
        number = "−" + number.removeprefix("-")
    return f"{number} {unit}".strip()
