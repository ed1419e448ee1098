"""The worked substitution: a calculation in symbols, in numbers, and its result."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import sympy

from optics.relation.compiling import compile_function
from optics.relation.form import Form
from optics.relation.printing import to_digits, to_latex, to_plain
from optics.relation.quantity import Quantity


@dataclass(frozen=True)
class Script:
    """How a calculation is written: in LaTeX, or plainly on one line."""

    name: str
    show: Callable[[Any, Mapping[str, str]], str]
    infinity: str

    def letter(self, quantity: Quantity) -> str:
        """The quantity's symbol."""
        return str(getattr(quantity, self.name))

    def figure(self, value: float) -> str:
        """A number as it stands in a sum."""
        return to_digits(value, self.name, self.infinity)

    def result(self, quantity: Quantity, value: float) -> str:
        """A number as a result, with its unit."""
        number = to_digits(value, self.name, self.infinity, bracketed=False)
        unit = rf"\,\mathrm{{{quantity.unit}}}" if self.name == "latex" else f" {quantity.unit}"
        return f"{number}{unit if quantity.unit else ''}"


LATEX = Script("latex", to_latex, r"\infty")
PLAIN = Script("plain", to_plain, "∞")


@dataclass(frozen=True, eq=False)
class Working:
    """What a person would write down to work a form out."""

    equation: sympy.Eq
    form: Form
    inputs: tuple[Quantity, ...]

    @property
    def named(self) -> tuple[Quantity, ...]:
        """Every quantity that the calculation names: the unknown, the inputs, the steps."""
        return (self.form.unknown, *self.inputs, *(q for q, _ in self.form.steps))

    def lines(self, inputs: Mapping[str, float], answer: float, script: Script) -> Iterator[str]:
        """The calculation for inputs whose answer is known, a line at a time."""
        symbols = {q.name: script.letter(q) for q in self.named}
        numbers = {name: script.figure(value) for name, value in inputs.items()}
        if self.form.expression is None:
            yield script.show(self.equation, symbols)
            yield script.show(self.equation, {**symbols, **numbers})
            unknown = self.form.unknown
            yield f"{script.letter(unknown)} = {script.result(unknown, answer)}"
            return
        known = [np.float64(inputs[q.name]) for q in self.inputs]
        for quantity, step, compute in self._stepwise:
            with np.errstate(all="ignore"):
                (result,) = compute(*known)
            yield " = ".join(
                (
                    symbols[quantity.name],
                    script.show(step, symbols),
                    script.show(step, numbers),
                    script.result(quantity, float(result)),
                )
            )
            known.append(np.float64(result))
            numbers[quantity.name] = script.figure(float(result))

    @cached_property
    def _stepwise(self) -> tuple[tuple[Quantity, Any, Callable[..., Any]], ...]:
        """Each step's quantity and expression, and its function of all that is known by then."""
        known = [q.name for q in self.inputs]
        steps = []
        for quantity, step in self.form.worked:
            steps.append((quantity, step, compile_function(list(known), [step])))
            known.append(quantity.name)
        return tuple(steps)
