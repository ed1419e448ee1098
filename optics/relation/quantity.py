"""Quantities: names, symbols, units, meanings and the ranges in which they have one."""

import math
from dataclasses import dataclass
from functools import cached_property

import sympy

from optics.errors import OutOfRange
from optics.relation.range import ANY, Given, Range


@dataclass(frozen=True)
class Quantity:
    """A named physical quantity: its symbol, unit, meaning and the range it can have.

    `name` is at once keyword argument, column heading and widget key. A sign
    convention, where there is one, is part of `meaning`. `typed_in` names the unit that a bare
    number has on paper and page, where it is not the everyday one of `unit`: the distance to a
    subject is told in metres, and may be infinite.
    """

    name: str
    latex: str
    plain: str
    unit: str
    meaning: str
    range: Range = ANY
    typed_in: str = ""

    @cached_property
    def symbol(self) -> sympy.Symbol:
        """The sympy symbol; positive where the range says so, real otherwise."""
        if self.range.is_positive:
            return sympy.Symbol(self.name, positive=True)
        return sympy.Symbol(self.name, real=True)

    @cached_property
    def words(self) -> str:
        """The meaning without what stands in brackets, as a label says it."""
        return self.meaning.partition(" (")[0]

    def said(self, value: float) -> str:
        """A value with its unit as a sentence shows it."""
        number = "infinity" if math.isinf(value) else f"{value:.6g}"
        if value < 0:
            number = "−" + number.removeprefix("-")
        return f"{number} {self.unit}".strip()

    def check(self, value: Given) -> None:
        """Raise OutOfRange unless every element of `value` lies in the quantity's range."""
        fault = self.range.fault(value, self.said)
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

    def refuse(self, value: float, limit: str, reason: str = "") -> OutOfRange:
        """The sentence for a value outside a limit, ready to raise."""
        why = f" ({reason})" if reason else ""
        return OutOfRange(
            f"The {self.meaning} must be {limit}{why}: got {self.said(value)}; "
            "check the figure and its unit.",
            quantity=self.name,
            value=value,
            limit=limit,
        )
