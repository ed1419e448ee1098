"""Standard, gate, starts and budget in the result document."""

from optics.records.lantern_street import OSTRIN
from optics.records.result import ResultDocument, result_of
from tests.optics.records.bench_jobs import (
    WITNESS,
    everything,
    solved,
    spoilt,
)


def test_result_says_every_figure_with_its_uncertainty() -> None:
    """The result holds all four parts, reads back the same, and is described field by field."""
    solution = everything()
    result = result_of(solution)
    assert ResultDocument.model_validate_json(result.model_dump_json()) == result
    assert result.standard is not None
    assert result.standard.mount is not None
    assert result.gate is not None
    assert result.witness is not None
    assert result.budget is not None
    assert solution.standard is not None
    lean = solution.standard.standard.plane.lean
    assert result.standard.lean.expanded_uncertainty == lean.expanded
    assert len(result.standard.corners) == 4
    assert len(result.witness.combinations) == 21
    assert result.witness.what_to_do
    assert result.budget.next == "standard"
    schema = ResultDocument.model_json_schema()["$defs"]
    for name in ("StandardOut", "GateOut", "WitnessOut", "BudgetOut"):
        assert schema[name]["description"]


def test_nothing_is_told_to_do_where_it_cannot_be_told() -> None:
    """Two marks too close for the reading: the result gives no steps."""
    close = spoilt(WITNESS, marks="A = 0; B = 10; C = 11.5")
    result = result_of(solved(OSTRIN, witness=close)).witness
    assert result is not None
    assert result.finding == "cannot tell"
    assert result.what_to_do == ()
