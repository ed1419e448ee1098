"""Relations, their authored solved forms, and the formulas compiled from them."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, overload

import numpy as np
import sympy

from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.relation.compiling import SYMPY_LOCK, compile_function
from optics.relation.printing import to_digits, to_latex, to_plain
from optics.relation.quantity import Quantity
from optics.relation.range import Array, Given, extremes, said

ROUNDING = 1e-12


@dataclass(frozen=True)
class Bound:
    """A limit that the other inputs set, such as the nearest distance a lens can focus."""

    quantity: Quantity
    limit: sympy.Expr
    reason: str
    is_upper: bool = False

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
        """Raise OutOfRange where an input passes the limit; the limit itself is allowed."""
        fault = self.fault(inputs)
        if fault is not None:
            raise self.quantity.refuse(*fault, self.reason)

    def fault(self, inputs: Mapping[str, Given]) -> tuple[float, str] | None:
        """The first element that passes the limit, and the limit in words; None where none does."""
        value = np.asarray(inputs[self.quantity.name])
        limit = self.limit_for(inputs)
        # What was computed or rounded to lie at the limit must not fail by its last digit.
        edge = limit * (1 + ROUNDING if self.is_upper else 1 - ROUNDING)
        wrong = value > edge if self.is_upper else value < edge
        if not np.any(wrong):
            return None
        value, limit, wrong = np.broadcast_arrays(value, limit, wrong)
        side = "at most" if self.is_upper else "at least"
        nearest = said(float(limit[wrong][0]), self.quantity.unit)
        return float(value[wrong][0]), f"{side} {nearest}"


@dataclass(frozen=True)
class Form:
    """An authored solution of a relation for one unknown.

    `steps` name sub-expressions in the order in which a person would work them out;
    `branch` names the root taken where the equation has several. A form without an
    expression is found numerically inside `bracket`, for equations with no closed form.
    """

    unknown: Quantity
    expression: sympy.Expr | None = None
    steps: tuple[tuple[Quantity, sympy.Expr], ...] = ()
    branch: str = ""
    bracket: tuple[sympy.Expr, sympy.Expr] | None = None

    @cached_property
    def whole(self) -> sympy.Expr:
        """The expression with its named steps written out."""
        expression = sympy.sympify(self.expression)
        for quantity, step in reversed(self.steps):
            expression = expression.subs(quantity.symbol, step)
        return expression


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

    def last_step(self, unknown: Quantity) -> sympy.Expr:
        """The authored right-hand side with its named steps left standing."""
        return sympy.sympify(self.solve_for(unknown).form.expression)

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
            return lambda *known: [self._root(*known)]
        with SYMPY_LOCK:
            outputs = [self.form.whole]
        return compile_function([q.name for q in self.inputs], outputs)

    @cached_property
    def compiled_with_partials(self) -> Callable[..., Any]:
        """The bare numpy function that gives the value and then each partial derivative."""
        if self.form.expression is None:
            return self._root_with_partials
        with SYMPY_LOCK:
            outputs = [self.form.whole, *(self.form.whole.diff(q.symbol) for q in self.inputs)]
        return compile_function([q.name for q in self.inputs], outputs)

    @overload
    def value(self, **inputs: float) -> float: ...  # type: ignore[overload-overlap]
    @overload
    def value(self, **inputs: Given) -> Array: ...
    def value(self, **inputs: Given) -> Given:
        """The unknown, for scalars or arrays that broadcast; inputs checked, never nan."""
        known = self._admit(inputs)
        with np.errstate(all="ignore"):
            (answer,) = self.compiled(*known)
        return self._release(answer, known)

    @overload
    def value_and_partials(  # type: ignore[overload-overlap]
        self, **inputs: float
    ) -> tuple[float, dict[str, float]]: ...
    @overload
    def value_and_partials(self, **inputs: Given) -> tuple[Array, dict[str, Array]]: ...
    def value_and_partials(self, **inputs: Given) -> tuple[Given, Mapping[str, Given]]:
        """The unknown and its partial derivative with respect to each input."""
        known = self._admit(inputs)
        with np.errstate(all="ignore"):
            answer, *partials = self.compiled_with_partials(*known)
        shaped = [_shaped(p, known) for p in partials]
        names = (q.name for q in self.inputs)
        return self._release(answer, known), dict(zip(names, shaped, strict=True))

    @property
    def latex(self) -> str:
        """The solved form as LaTeX."""
        if self.form.expression is None:
            return self.relation.latex
        names = {q.name: q.latex for q in self._named}
        return f"{self.form.unknown.latex} = {to_latex(self.form.expression, names)}"

    def working(self, **inputs: float) -> tuple[str, ...]:
        """The calculation as LaTeX lines: each step in symbols, in numbers, and its result."""
        return self._worked(inputs, to_latex, "latex", r"\infty")

    def working_text(self, **inputs: float) -> tuple[str, ...]:
        """The same calculation in plain Unicode, for the terminal and for copying."""
        return self._worked(inputs, to_plain, "plain", "∞")

    @cached_property
    def _named(self) -> tuple[Quantity, ...]:
        return (*self.relation.quantities, *(q for q, _ in self.form.steps))

    @cached_property
    def _stepwise(self) -> tuple[tuple[Quantity, Any, Callable[..., Any]], ...]:
        """Each step's quantity and expression, and its function of all that is known by then."""
        known = [q.name for q in self.inputs]
        steps = []
        for quantity, step in (*self.form.steps, (self.form.unknown, self.form.expression)):
            steps.append((quantity, step, compile_function(list(known), [step])))
            known.append(quantity.name)
        return tuple(steps)

    def _worked(
        self, inputs: Mapping[str, float], show: Callable[..., str], style: str, infinity: str
    ) -> tuple[str, ...]:
        answer = self.value(**inputs)
        symbols = {q.name: getattr(q, style) for q in self._named}
        numbers = {name: to_digits(v, style, infinity) for name, v in inputs.items()}
        if self.form.expression is None:
            equation = self.relation.equation
            filled = show(equation, {**symbols, **numbers})
            result = self._result(self.form.unknown, answer, style, infinity)
            return (show(equation, symbols), filled, result)
        lines = []
        known = [np.float64(inputs[q.name]) for q in self.inputs]
        for quantity, step, compute in self._stepwise:
            with np.errstate(all="ignore"):
                (result,) = compute(*known)
            end = self._result(quantity, float(result), style, infinity)
            lines.append(
                f"{symbols[quantity.name]} = {show(step, symbols)} = {show(step, numbers)}"
                f"{end[end.index(' = ') :]}"
            )
            known.append(np.float64(result))
            numbers[quantity.name] = to_digits(float(result), style, infinity)
        return tuple(lines)

    @staticmethod
    def _result(quantity: Quantity, value: float, style: str, infinity: str) -> str:
        number = to_digits(value, style, infinity, bracketed=False)
        unit = rf"\,\mathrm{{{quantity.unit}}}" if style == "latex" else f" {quantity.unit}"
        return f"{getattr(quantity, style)} = {number}{unit if quantity.unit else ''}"

    def _admit(self, inputs: Mapping[str, Given]) -> list[Any]:
        """Turn inputs to float64 once, in order, and check every range and bound."""
        if len(inputs) != len(self.inputs) or any(q.name not in inputs for q in self.inputs):
            wanted = ", ".join(q.name for q in self.inputs)
            raise TypeError(f"{self.relation.name} needs exactly: {wanted}")
        known = []
        for quantity in self.inputs:
            given = inputs[quantity.name]
            value = np.float64(given) if np.ndim(given) == 0 else np.asarray(given, np.float64)
            quantity.check(value)
            known.append(quantity.range.folded(value))
        named = self._by_name(known)
        for bound in self.relation.bounds:
            if bound.needs <= named.keys():
                bound.check(named)
        return known

    def _release(self, answer: Any, known: list[Any]) -> Given:
        """Shape the answer, and refuse one that is not a number or has no meaning."""
        unknown = self.form.unknown
        shaped = unknown.range.folded(_shaped(answer, known))
        lowest = shaped if isinstance(shaped, float) else extremes(shaped)[0]
        if math.isnan(lowest):
            raise self._no_answer(shaped, known)
        fault = unknown.range.fault(shaped, unknown.unit)
        if fault is not None:
            raise self._refuse_answer(shaped, known, *fault, unknown.range.reason(fault[0]))
        for bound in self._bounds_on_answer:
            named = {unknown.name: shaped, **self._by_name(known)}
            if bound.quantity is not unknown:
                bound.check(named)
            elif (fault := bound.fault(named)) is not None:
                raise self._refuse_answer(shaped, known, *fault, bound.reason)
        return shaped

    @cached_property
    def _bounds_on_answer(self) -> tuple[Bound, ...]:
        return tuple(b for b in self.relation.bounds if self.form.unknown.name in b.needs)

    def _by_name(self, known: list[Any]) -> dict[str, Any]:
        return {q.name: v for q, v in zip(self.inputs, known, strict=True)}

    def _no_answer(self, shaped: Given, known: list[Any]) -> NoAnswer:
        """The sentence for the first element that has no answer, ready to raise."""
        given = self._told(shaped, known, int(np.argmax(np.isnan(shaped))))
        unknown = self.form.unknown
        return NoAnswer(
            f"No {unknown.meaning} satisfies the relation '{self.relation.name}' "
            f"for {given}; check these figures against each other.",
            quantity=unknown.name,
        )

    def _refuse_answer(
        self, shaped: Given, known: list[Any], wrong: float, limit: str, reason: str
    ) -> OutOfRange:
        """The sentence for an answer that has no meaning, ready to raise."""
        given = self._told(shaped, known, int(np.argmax(np.equal(shaped, wrong))))
        unknown = self.form.unknown
        why = f" ({reason})" if reason else ""
        return OutOfRange(
            f"These figures give {said(wrong, unknown.unit)} for the {unknown.meaning}, but it "
            f"must be {limit}{why}: got {given}; check these figures.",
            quantity=unknown.name,
            value=wrong,
            limit=limit,
        )

    def _told(self, shaped: Given, known: list[Any], place: int) -> str:
        """All inputs in words, as they are for one element of the answer."""
        return ", ".join(
            f"{q.meaning} {said(float(np.broadcast_to(v, np.shape(shaped)).flat[place]), q.unit)}"
            for q, v in zip(self.inputs, known, strict=True)
        )

    @cached_property
    def _residual(self) -> Callable[..., Any]:
        """Left minus right of the equation and its slopes: unknown first, then the inputs."""
        ordered = (self.form.unknown, *self.inputs)
        with SYMPY_LOCK:
            difference = self.relation.equation.lhs - self.relation.equation.rhs
            slopes = [difference.diff(q.symbol) for q in ordered]
        return compile_function([q.name for q in ordered], [difference, *slopes])

    @cached_property
    def _bracket(self) -> Callable[..., Any]:
        return compile_function([q.name for q in self.inputs], list(self.form.bracket or ()))

    def _root(self, *known: Any) -> Any:
        # Imported here: only forms without a closed solution pay for loading scipy.
        from scipy.optimize import elementwise

        found = elementwise.find_root(
            lambda unknown, *rest: self._residual(unknown, *rest)[0],
            tuple(np.broadcast_arrays(*self._bracket(*known), *known)[:2]),
            args=tuple(np.broadcast_arrays(*known)),
        )
        return np.where(found.success, found.x, np.nan)

    def _root_with_partials(self, *known: Any) -> list[Any]:
        # Implicit-function rule: the slope of the root is minus the ratio of the slopes.
        root = self._root(*known)
        _, slope, *others = self._residual(root, *known)
        return [root, *(-other / slope for other in others)]


def _shaped(value: Any, known: list[Any]) -> Given:
    """Broadcast a result that happens not to depend on an array input."""
    if all(isinstance(v, float) for v in known):
        return float(value)
    shape = np.broadcast_shapes(*(np.shape(v) for v in known))
    return np.array(np.broadcast_to(value, shape), np.float64)
