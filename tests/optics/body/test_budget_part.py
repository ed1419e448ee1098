"""The error budget as part of a job."""

import pytest

from optics.errors import ShimwrightError
from optics.records.lantern_street import OSTRIN
from tests.optics.records.bench_jobs import (
    BUDGET,
    GATE,
    everything,
    solved,
)


def test_budget_adds_squares() -> None:
    """Known errors add with signs, limits by squares: √(0.015² + 0.03²)/√3 by hand 0.0194 mm."""
    budget = solved(OSTRIN, budget=BUDGET).budget
    assert budget is not None
    assert budget.combined.value == pytest.approx(0.03)
    assert budget.combined.standard == pytest.approx(0.01936, abs=1e-5)
    assert budget.next is not None
    assert budget.next.term.key == "register"


def test_budget_takes_gate_and_standard_from_the_job() -> None:
    """What the job itself measured counts, unless the budget says otherwise."""
    found = everything()
    assert found.budget is not None
    assert found.gate is not None
    terms = {term.key: term.error.value for term in found.budget.terms}
    assert terms["gate"] == found.gate.error.value
    assert found.standard is not None
    assert terms["standard"] == found.standard.view.worst.error.value
    typed = solved(OSTRIN, gate=GATE, budget={"terms": {"gate": "0.1"}}).budget
    assert typed is not None
    assert [term.error.value for term in typed.terms] == [0.1]


def test_budget_without_a_part_is_refused() -> None:
    """A budget of nothing says what to enter."""
    with pytest.raises(ShimwrightError, match="at least one part"):
        solved(budget={})
