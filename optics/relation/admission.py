"""The door of a formula: what may go in, what may come out, and the sentence for what may not."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from optics.errors import NoAnswer, OutOfRange
from optics.relation.bound import Bound
from optics.relation.quantity import Quantity
from optics.relation.range import Given, extremes


@dataclass(frozen=True, eq=False)
class Admission:
    """Checks the inputs and the answer of a relation solved for one unknown."""

    relation: str
    unknown: Quantity
    inputs: tuple[Quantity, ...]
    bounds: tuple[Bound, ...]

    def admit(self, inputs: Mapping[str, Given]) -> list[Any]:
        """Turn inputs to float64 once, in order, and check every range and bound."""
        if len(inputs) != len(self.inputs) or any(q.name not in inputs for q in self.inputs):
            wanted = ", ".join(q.name for q in self.inputs)
            raise TypeError(f"{self.relation} needs exactly: {wanted}")
        known = []
        for quantity in self.inputs:
            given = inputs[quantity.name]
            value = np.float64(given) if np.ndim(given) == 0 else np.asarray(given, np.float64)
            quantity.check(value)
            known.append(quantity.range.folded(value))
        named = self._by_name(known)
        for bound in self._bounds_on_inputs:
            bound.check(named)
        return known

    def release(self, answer: Any, known: list[Any]) -> Given:
        """Shape the answer, and refuse one that is not a number or has no meaning."""
        unknown = self.unknown
        shaped = unknown.range.folded(broadcast(answer, known))
        lowest = shaped if isinstance(shaped, float) else extremes(shaped)[0]
        if math.isnan(lowest):
            raise self._no_answer(shaped, known)
        fault = unknown.range.fault(shaped, unknown.said)
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
    def _bounds_on_inputs(self) -> tuple[Bound, ...]:
        names = {q.name for q in self.inputs}
        return tuple(b for b in self.bounds if b.needs <= names)

    @cached_property
    def _bounds_on_answer(self) -> tuple[Bound, ...]:
        return tuple(b for b in self.bounds if self.unknown.name in b.needs)

    def _by_name(self, known: list[Any]) -> dict[str, Any]:
        return {q.name: v for q, v in zip(self.inputs, known, strict=True)}

    def _no_answer(self, shaped: Given, known: list[Any]) -> NoAnswer:
        """The sentence for the first element that has no answer, ready to raise."""
        given = self._told(shaped, known, int(np.argmax(np.isnan(shaped))))
        return NoAnswer(
            f"No {self.unknown.meaning} satisfies the relation '{self.relation}' "
            f"for {given}; check these figures against each other.",
            quantity=self.unknown.name,
        )

    def _refuse_answer(
        self, shaped: Given, known: list[Any], wrong: float, limit: str, reason: str
    ) -> OutOfRange:
        """The sentence for an answer that has no meaning, ready to raise."""
        given = self._told(shaped, known, int(np.argmax(np.equal(shaped, wrong))))
        unknown = self.unknown
        why = f" ({reason})" if reason else ""
        return OutOfRange(
            f"These figures give {unknown.said(wrong)} for the {unknown.meaning}, but it "
            f"must be {limit}{why}: got {given}; check these figures.",
            quantity=unknown.name,
            value=wrong,
            limit=limit,
        )

    def _told(self, shaped: Given, known: list[Any], place: int) -> str:
        """All inputs in words, as they are for one element of the answer."""
        return ", ".join(
            f"{q.meaning} {q.said(float(np.broadcast_to(v, np.shape(shaped)).flat[place]))}"
            for q, v in zip(self.inputs, known, strict=True)
        )


def broadcast(value: Any, known: list[Any]) -> Given:
    """A result in the shape of the inputs, though it may not depend on an array among them."""
    if all(isinstance(v, float) for v in known):
        return float(value)
    shape = np.broadcast_shapes(*(np.shape(v) for v in known))
    return np.array(np.broadcast_to(value, shape), np.float64)
