"""What an answer does when one of the figures behind it is a little different."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from optics.relation import Formula, Quantity
from optics.teaching.classroom.shop import said

# Where a figure is zero, a hundredth of it would be nothing: take a step of the trade instead.
_FROM_ZERO = {"mm": 0.01, "rad": math.radians(1 / 60), "": 0.1}
_WHOLE = frozenset({"starts", "starts_moved", "repeats", "stops", "target_group", "target_element"})


@dataclass(frozen=True)
class Nudge:
    """An input, the step it grows by, and what the answer then changes by to first order."""

    quantity: Quantity
    step: float
    change: float


def nudges(formula: Formula, values: Mapping[str, float]) -> tuple[Nudge, ...]:
    """For each finite input, about a hundredth of it and what that makes; mm and rad.

    Equation: change = (∂ answer/∂ input) · step. Limits: first order; what counts whole things
    is given a step of 1 all the same.
    """
    _, partials = formula.value_and_partials(**values)
    found = []
    for quantity in formula.inputs:
        value = values[quantity.name]
        if math.isfinite(value) and math.isfinite(partials[quantity.name]):
            step = _step(quantity, value)
            found.append(Nudge(quantity, step, partials[quantity.name] * step))
    return tuple(found)


def nudge_line(nudge: Nudge, unknown: Quantity) -> str:
    """The nudge as a sentence."""
    name = nudge.quantity.words
    article = "" if name.startswith("where ") else "the "
    subject = f"If {article}{name} grows by {said(nudge.quantity, nudge.step)}"
    if nudge.change == 0:
        return f"{subject}, the {unknown.words} stays as it is."
    way = "grows" if nudge.change > 0 else "falls"
    return f"{subject}, the {unknown.words} {way} by {said(unknown, abs(nudge.change))}."


def _step(quantity: Quantity, value: float) -> float:
    """A hundredth of the figure, rounded to one digit."""
    if quantity.name in _WHOLE:
        return 1.0
    if value == 0:
        return _FROM_ZERO.get(quantity.unit, 0.001)
    if quantity.unit == "rad":
        return math.radians(_rounded(math.degrees(abs(value)) / 100))
    return _rounded(abs(value) / 100)


def _rounded(size: float) -> float:
    return float(f"{size:.1g}")
