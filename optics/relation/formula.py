"""Relations, and the formulas that their authored forms give when compiled."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, overload

import numpy as np
import sympy

from optics.errors import ShimwrightError
from optics.relation.admission import Admission, broadcast
from optics.relation.bound import Bound
from optics.relation.compiling import SYMPY_LOCK, compile_function
from optics.relation.form import AS_AUTHORED, Called, Form, Steps
from optics.relation.printing import to_latex
from optics.relation.quantity import Quantity
from optics.relation.range import Array, Given
from optics.relation.root_search import RootSearch
from optics.relation.working import LATEX, PLAIN, Script, Working


@dataclass(frozen=True, eq=False)
class Relation:
    """A published equation, the quantities in it, and where it comes from and holds."""

    name: str
    answers: str
    equation: sympy.Eq
    quantities: tuple[Quantity, ...]
    forms: tuple[Form, ...]
    source: str
    limits: str
    bounds: tuple[Bound, ...] = ()

    @cached_property
    def formulas(self) -> tuple["Formula", ...]:
        """One compiled-on-demand formula for each authored form."""
        return tuple(Formula(self, form) for form in self.forms)

    def solve_for(self, unknown: Quantity | str, branch: str = "") -> "Formula":
        """The formula for `unknown`; the first branch unless one is named."""
        name = unknown if isinstance(unknown, str) else unknown.name
        for formula in self.formulas:
            if formula.form.unknown.name == name and branch in ("", formula.form.branch):
                return formula
        known = ", ".join(f.form.unknown.name for f in self.formulas)
        raise ShimwrightError(
            f"The relation {self.name} is not solved for {name} {branch}".rstrip()
            + f"; it can be solved for {known}.",
            quantity=name,
        )

    def expression(self, unknown: Quantity) -> sympy.Expr:
        """The authored right-hand side for `unknown`, to build further relations from."""
        return self.solve_for(unknown).form.whole

    def last_step(self, unknown: Quantity, called: Called = AS_AUTHORED) -> sympy.Expr:
        """The authored right-hand side with its named steps left standing."""
        return self.steps_to(unknown, called)[-1][1]

    def steps_to(self, unknown: Quantity, called: Called = AS_AUTHORED) -> Steps:
        """The authored steps and the unknown as the last of them, for a form that goes on.

        `called` puts other quantities in the place of some, such as one mark's distance in
        the place of the film distance.
        """
        return self.solve_for(unknown).form.called(called).worked

    @property
    def latex(self) -> str:
        """The published equation as LaTeX."""
        return to_latex(self.equation, {q.name: q.latex for q in self.quantities})


@dataclass(frozen=True, eq=False)
class Formula:
    """A relation solved for one unknown: its value, partials, print and worked numbers."""

    relation: Relation
    form: Form

    @cached_property
    def inputs(self) -> tuple[Quantity, ...]:
        """The quantities to be given, in the relation's order."""
        return tuple(q for q in self.relation.quantities if q is not self.form.unknown)

    @cached_property
    def compiled(self) -> Callable[..., Any]:
        """The bare numpy function of the inputs in order; no checks, one output in a list."""
        if self.form.expression is None:
            return self._search.value
        with SYMPY_LOCK:
            outputs = [self.form.whole]
        return compile_function([q.name for q in self.inputs], outputs)

    @cached_property
    def compiled_with_partials(self) -> Callable[..., Any]:
        """The bare numpy function that gives the value and then each partial derivative."""
        if self.form.expression is None:
            return self._search.value_and_partials
        with SYMPY_LOCK:
            outputs = [self.form.whole, *(self.form.whole.diff(q.symbol) for q in self.inputs)]
        return compile_function([q.name for q in self.inputs], outputs)

    @overload
    def value(self, **inputs: float) -> float: ...  # type: ignore[overload-overlap]
    @overload
    def value(self, **inputs: Given) -> Array: ...
    def value(self, **inputs: Given) -> Given:
        """The unknown, for scalars or arrays that broadcast; inputs checked, never nan."""
        known = self._door.admit(inputs)
        with np.errstate(all="ignore"):
            (answer,) = self.compiled(*known)
        return self._door.release(answer, known)

    @overload
    def value_and_partials(  # type: ignore[overload-overlap]
        self, **inputs: float
    ) -> tuple[float, dict[str, float]]: ...
    @overload
    def value_and_partials(self, **inputs: Given) -> tuple[Array, dict[str, Array]]: ...
    def value_and_partials(self, **inputs: Given) -> tuple[Given, Mapping[str, Given]]:
        """The unknown and its partial derivative with respect to each input."""
        known = self._door.admit(inputs)
        with np.errstate(all="ignore"):
            answer, *partials = self.compiled_with_partials(*known)
        shaped = [broadcast(p, known) for p in partials]
        names = (q.name for q in self.inputs)
        return self._door.release(answer, known), dict(zip(names, shaped, strict=True))

    @property
    def latex(self) -> str:
        """The solved form as LaTeX."""
        if self.form.expression is None:
            return self.relation.latex
        names = {q.name: q.latex for q in self._work.named}
        return f"{self.form.unknown.latex} = {to_latex(self.form.expression, names)}"

    def working(self, **inputs: float) -> tuple[str, ...]:
        """The calculation as LaTeX lines: each step in symbols, in numbers, and its result."""
        return self._worked(inputs, LATEX)

    def working_text(self, **inputs: float) -> tuple[str, ...]:
        """The same calculation in plain Unicode, for the terminal and for copying."""
        return self._worked(inputs, PLAIN)

    def _worked(self, inputs: Mapping[str, float], script: Script) -> tuple[str, ...]:
        return tuple(self._work.lines(inputs, self.value(**inputs), script))

    @cached_property
    def _door(self) -> Admission:
        relation = self.relation
        return Admission(relation.name, self.form.unknown, self.inputs, relation.bounds)

    @cached_property
    def _search(self) -> RootSearch:
        return RootSearch(self.relation.equation, self.form, self.inputs)

    @cached_property
    def _work(self) -> Working:
        return Working(self.relation.equation, self.form, self.inputs)
