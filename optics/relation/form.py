"""Forms: authored solutions of a relation, as data."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import TypeAlias

import sympy

from optics.relation.quantity import Quantity

Steps: TypeAlias = "tuple[tuple[Quantity, sympy.Expr], ...]"
Called: TypeAlias = Mapping[Quantity, Quantity]

AS_AUTHORED: Called = MappingProxyType({})


@dataclass(frozen=True)
class Form:
    """An authored solution of a relation for one unknown.

    `steps` name sub-expressions in the order in which a person would work them out;
    `branch` names the root taken where the equation has several. A form without an
    expression is found numerically inside `bracket`, for equations with no closed form.
    """

    unknown: Quantity
    expression: sympy.Expr | None = None
    steps: Steps = ()
    branch: str = ""
    bracket: tuple[sympy.Expr, sympy.Expr] | None = None

    @cached_property
    def whole(self) -> sympy.Expr:
        """The expression with its named steps written out."""
        expression = sympy.sympify(self.expression)
        for quantity, step in reversed(self.steps):
            expression = expression.subs(quantity.symbol, step)
        return expression

    @property
    def worked(self) -> Steps:
        """The steps and, as the last of them, the unknown itself."""
        return (*self.steps, (self.unknown, sympy.sympify(self.expression)))

    def called(self, called: Called) -> "Form":
        """The form with other quantities in the place of some, without branch and bracket."""
        other = {old.symbol: new.symbol for old, new in called.items()}
        *steps, (unknown, expression) = (
            (called.get(quantity, quantity), step.xreplace(other)) for quantity, step in self.worked
        )
        return Form(unknown, expression, tuple(steps))
