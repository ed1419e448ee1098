"""Unknowns that have no closed form: a root inside a bracket, and its slopes."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import sympy

from optics.relation.compiling import SYMPY_LOCK, compile_function
from optics.relation.form import Form
from optics.relation.quantity import Quantity


@dataclass(frozen=True, eq=False)
class RootSearch:
    """The unknown of a form without an expression, found numerically inside its bracket."""

    equation: sympy.Eq
    form: Form
    inputs: tuple[Quantity, ...]

    def value(self, *known: Any) -> list[Any]:
        """The root for each element of the inputs; nan where the bracket holds none."""
        # Imported here: only forms without a closed solution pay for loading scipy.
        from scipy.optimize import elementwise

        found = elementwise.find_root(
            lambda unknown, *rest: self._residual(unknown, *rest)[0],
            tuple(np.broadcast_arrays(*self._bracket(*known), *known)[:2]),
            args=tuple(np.broadcast_arrays(*known)),
        )
        return [np.where(found.success, found.x, np.nan)]

    def value_and_partials(self, *known: Any) -> list[Any]:
        """The root, then its slope with respect to each input."""
        # Implicit-function rule: the slope of the root is minus the ratio of the slopes.
        (root,) = self.value(*known)
        _, slope, *others = self._residual(root, *known)
        return [root, *(-other / slope for other in others)]

    @cached_property
    def _residual(self) -> Callable[..., Any]:
        """Left minus right of the equation and its slopes: unknown first, then the inputs."""
        ordered = (self.form.unknown, *self.inputs)
        with SYMPY_LOCK:
            difference = self.equation.lhs - self.equation.rhs
            slopes = [difference.diff(q.symbol) for q in ordered]
        return compile_function([q.name for q in ordered], [difference, *slopes])

    @cached_property
    def _bracket(self) -> Callable[..., Any]:
        return compile_function([q.name for q in self.inputs], list(self.form.bracket or ()))
