"""Bounds: limits that the other inputs of a relation set."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import sympy

from optics.relation.compiling import compile_function
from optics.relation.quantity import Quantity
from optics.relation.range import Given

ROUNDING = 1e-12


@dataclass(frozen=True)
class Bound:
    """A limit that the other inputs set, such as the nearest distance a lens can focus.

    `is_open` says that the limit itself has no answer either, as where one would be infinite.
    """

    quantity: Quantity
    limit: sympy.Expr
    reason: str
    is_upper: bool = False
    is_open: bool = False

    @cached_property
    def needs(self) -> frozenset[str]:
        """The names of all inputs that must be known before the bound can be checked."""
        return frozenset(s.name for s in self.limit.free_symbols) | {self.quantity.name}

    @cached_property
    def _limit_of(self) -> Callable[..., Any]:
        return compile_function(sorted(self.needs), [self.limit])

    def limit_for(self, inputs: Mapping[str, Given]) -> Any:
        """The limit that the other inputs set."""
        (limit,) = self._limit_of(*(inputs[name] for name in sorted(self.needs)))
        return limit

    def check(self, inputs: Mapping[str, Given]) -> None:
        """Raise OutOfRange where an input passes the limit; unless open, the limit is allowed."""
        fault = self.fault(inputs)
        if fault is not None:
            raise self.quantity.refuse(*fault, self.reason)

    def fault(self, inputs: Mapping[str, Given]) -> tuple[float, str] | None:
        """The first element that passes the limit, and the limit in words; None where none does."""
        value, limit = inputs[self.quantity.name], self.limit_for(inputs)
        # What was computed or rounded to lie at the limit must not fail by its last digit, nor
        # escape by it where the limit is open.
        slack = ROUNDING * np.sign(limit)
        edge = limit * (1 + slack if self.is_upper != self.is_open else 1 - slack)
        wrong = value > edge if self.is_upper else value < edge
        if self.is_open:
            wrong = wrong | (value == limit)
        # One figure is the everyday case, and numpy takes its time over it.
        if not (np.any(wrong) if np.ndim(wrong) else wrong):
            return None
        value, limit, wrong = np.broadcast_arrays(value, limit, wrong)
        sides = ("more than", "less than") if self.is_open else ("at least", "at most")
        side = sides[self.is_upper]
        nearest = self.quantity.said(float(limit[wrong][0]))
        return float(value[wrong][0]), f"{side} {nearest}"
