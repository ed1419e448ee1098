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
    convention, where there is one, is part of `meaning`.
    """

    name: str
    latex: str
    plain: str
    unit: str
    meaning: str
    low: float = -math.inf
    high: float = math.inf
    low_allowed: bool = False

    @cached_property
    def symbol(self) -> sympy.Symbol:
        """The sympy symbol; positive where the range says so, real otherwise."""
        if self.low >= 0 and not self.low_allowed:
            return sympy.Symbol(self.name, positive=True)
        return sympy.Symbol(self.name, real=True)

    def check(self, value: Given) -> None:
        """Raise OutOfRange unless every element of `value` lies in the quantity's range."""
        lowest, highest = (value, value) if isinstance(value, float | int) else extremes(value)
        if lowest > self.low or (self.low_allowed and lowest == self.low):
            if highest <= self.high:
                return
            raise self.refuse(highest, f"at most {said(self.high, self.unit)}")
        if math.isnan(lowest):
            raise OutOfRange(
                f"The {self.meaning} is not a number; enter it again in {self.unit or 'digits'}.",
                quantity=self.name,
                value=lowest,
            )
        if lowest == -math.inf:
            raise self.refuse(lowest, "finite")
        limit = "at least" if self.low_allowed else "more than"
        raise self.refuse(lowest, f"{limit} {said(self.low, self.unit)}")

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
