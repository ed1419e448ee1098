"""Standard, gate, starts and budget as parts of a job."""

import json
import math
from typing import Any

import pytest

from optics.bench.witness import Finding
from optics.errors import ShimwrightError, Unreadable
from optics.records.files import read_job, write_job
from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK
from optics.records.result import ResultDocument, result_of
from tests.optics.records.bench_jobs import (
    BUDGET,
    GATE,
    STANDARD,
    WITNESS,
    everything,
    solved,
    spoilt,
)


def test_standard_is_the_one_worked_by_hand() -> None:
    """The readings rise by 0.392 mm over 60 mm: 22.5 minutes; the leaf sums come from stock."""
    answer = solved(standard=STANDARD, workshop={"drawer": "0.02 × 6; 0.03 × 4; 0.05 × 6"}).standard
    assert answer is not None
    swing = 60 * math.degrees(answer.standard.plane.swing.value)
    assert swing == pytest.approx(22.5, abs=0.05)
    assert answer.view.worst.name in ("top right", "bottom left")
    assert answer.plan is not None
    assert all(shim.pack is not None for shim in answer.plan.shims)


def test_corners_are_those_that_were_gauged() -> None:
    """Named corners are those of the gauged rectangle, and of the picture where it is not given."""
    near = solved(standard=spoilt(STANDARD, screws=None)).standard
    wide = solved(standard=spoilt(STANDARD, screws=None, corners=None)).standard
    assert near is not None
    assert wide is not None
    assert near.plan is None
    assert (near.standard.readings[0].x, near.standard.readings[0].y) == (-30, 25)
    assert (wide.standard.readings[0].x, wide.standard.readings[0].y) == (-42, 28)


def test_close_up_the_lens_counts_more_than_the_film() -> None:
    """At a third of life-size a leaning lens counts 1.38 times, worked by hand, a film once."""
    close = spoilt(STANDARD, subject="525 mm")
    lens = solved(standard=close).standard
    film = solved(standard=spoilt(close, leans="film")).standard
    assert lens is not None
    assert film is not None
    assert lens.view.factor == pytest.approx(1.38, abs=0.005)
    assert film.view.factor == 1


def test_middle_is_put_right_only_with_the_right_depth() -> None:
    """The shims move the middle by what it is out; without the right depth that is refused."""
    right = spoilt(STANDARD, middle="put right", nominal="0.300")
    drawer = {"drawer": "0.02 × 20; 0.03 × 9; 0.05 × 9"}
    answer = solved(standard=right, workshop=drawer).standard
    assert answer is not None
    assert answer.plan is not None
    # The plane passes 0.184 mm in the middle, so 0.116 mm is lacking.
    assert answer.view.middle.value == pytest.approx(-0.116, abs=0.001)
    assert answer.plan.shift.value == pytest.approx(0.116, abs=answer.harmless)
    with pytest.raises(ShimwrightError, match="depth that is right there is needed"):
        solved(standard=spoilt(right, nominal=None))


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"depths": "left = 0.1; middle = 0.2; right = 0.3"}, "not on one line"),
        ({"depths": "top left = 0.1; right = 0.2"}, "got 2"),
        ({"screws": "top = 0.1; bottom = 0.1"}, "screw"),
        ({"screws": "left = 0.1; middle = 0.1; right = none"}, "line across"),
    ],
)
def test_places_that_fix_no_plane_are_refused(changes: dict[str, str], why: str) -> None:
    """Three readings on one line, two readings, or two screws are refused and say what lacks."""
    with pytest.raises(ShimwrightError, match=why):
        solved(standard=spoilt(STANDARD, **changes))


def test_gate_is_the_articles() -> None:
    """Film of 0.15 mm in a channel of 0.200 mm has 0.05 mm of play, half of it in the mean."""
    gate = solved(OSTRIN, gate=GATE).gate
    assert gate is not None
    assert gate.play.value == pytest.approx(0.05)
    assert gate.error.value == pytest.approx(0.025)


def test_typed_figures_replace_the_usual_ones() -> None:
    """Film, paper and a glass against the plate, each typed with its limit, are what counts."""
    own = {
        "plate": "on stops",
        "channel": "0,30 ± 0.01",
        "film_thickness": "0.11 ± 0.01",
        "paper": "0.09",
        "glass": "against the plate",
        "glass_thickness": "0.25",
    }
    gate = solved(OSTRIN, gate=own).gate
    assert gate is not None
    # 0.30 − 0.20 = 0.10 of play, 0.05 in the mean; the ground side lies 0.30 − 0.25 = 0.05 deep.
    assert gate.play.value == pytest.approx(0.10)
    assert gate.error.value == pytest.approx(0.0, abs=1e-12)


def test_sheet_film_lies_in_its_holder() -> None:
    """The holder's usual depth from the standard of 1998 stands in for a gauged one."""
    sheet = {"film": "sheet", "glass": "in the back", "glass_depth": "4.83", "slot": "0.305"}
    usual = solved(gate=sheet | {"holder": "4x5"}).gate
    gauged = solved(gate=sheet | {"holder_depth": "0.197 in"}).gate
    assert usual is not None
    assert gauged is not None
    assert usual.error.value == pytest.approx(gauged.error.value)
    assert usual.error.standard > gauged.error.standard


@pytest.mark.parametrize(
    ("gate", "why"),
    [
        ({}, "depth of the film channel"),
        ({"plate": "none"}, "how far it can bow"),
        ({"film": "glass"}, "choose one of perforated"),
        ({"channel": "0.1"}, "0.15"),
        ({"channel": "0.2", "glass": "against the plate"}, "thickness of the ground glass"),
        ({"glass": "in the back"}, "depth of the ground side"),
        ({"glass": "in the back", "glass_depth": "4.8", "holder": "9x9"}, "depth of the holder"),
        ({"glass": "against the plate", "plate": "sprung"}, "depth of the film channel"),
    ],
)
def test_gate_asks_for_what_it_needs(gate: dict[str, str], why: str) -> None:
    """A figure that is needed and missing, or cannot be, is named."""
    with pytest.raises(ShimwrightError, match=why):
        solved(gate=gate)


def test_starts_are_those_worked_by_hand() -> None:
    """By hand, two starts and mark B leave 6.48 − 6 − 0.5 = −0.02 mm: that is what comes first."""
    ranking = solved(OSTRIN, witness=WITNESS).witness
    assert ranking is not None
    assert ranking.finding is Finding.TOLD
    assert (ranking.first.mark.name, ranking.first.starts_moved) == ("B", -2)
    assert ranking.first.error.value == pytest.approx(-0.02, abs=0.001)


def test_sense_may_be_a_word_or_a_minus() -> None:
    """Too far in is the same as a minus before the figure."""
    word = solved(OSTRIN, witness=spoilt(WITNESS, sense="too far in")).witness
    minus = solved(OSTRIN, witness=spoilt(WITNESS, error="−6.47; −6,49; −6.48; −6.48")).witness
    assert word is not None
    assert minus is not None
    assert word.first.error.value == pytest.approx(minus.first.error.value)
    assert word.first.starts_moved == minus.first.starts_moved == 2


def test_front_cell_takes_its_starts_from_the_job() -> None:
    """A front cell has one start until the job says otherwise."""
    one = solved(CORVANE, witness=WITNESS).witness
    three = solved(CORVANE, witness=spoilt(WITNESS, starts="3")).witness
    assert one is not None
    assert three is not None
    assert one.thread.starts == 1
    assert three.thread.starts == 3


@pytest.mark.parametrize(
    ("camera", "changes", "why"),
    [
        (OSTRIN, {"present": "D"}, "one of A, B, C"),
        (OSTRIN, {"marks": "A = 0; A = 10"}, "name of its own"),
        (TARNBROOK, {}, "has no thread"),
    ],
)
def test_marks_that_make_no_sense_are_refused(camera: Any, changes: Any, why: str) -> None:
    """An unknown mark in use, a name twice, a camera without thread."""
    with pytest.raises(ShimwrightError, match=why):
        solved(camera, witness=spoilt(WITNESS, **changes))


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


def test_job_keeps_what_was_typed() -> None:
    """Written and read again, every text of all four parts is as it was typed."""
    job = everything().job
    again = json.loads(write_job(read_job(write_job(job).encode())))
    parts = {"standard": STANDARD, "gate": GATE, "witness": WITNESS, "budget": BUDGET}
    for name, typed in parts.items():
        assert typed.items() <= again[name].items()


@pytest.mark.parametrize(
    ("part", "field", "text"),
    [
        ("standard", "depths", "top left = 1,200"),
        ("standard", "frame", "84"),
        ("gate", "channel", "0.2 ±"),
        ("witness", "marks", "A: 0"),
        ("standard", "gauge", "0.1"),
        ("budget", "terms", {"shutter": "0.1"}),
    ],
)
def test_bad_part_is_refused_with_its_place(part: str, field: str, text: Any) -> None:
    """A text that cannot be read, or a field that is not known, is refused where it stands."""
    parts = {"standard": STANDARD, "gate": GATE, "witness": WITNESS, "budget": BUDGET}
    document = json.loads(write_job(everything().job))
    document[part] = parts[part] | {field: text}
    with pytest.raises(Unreadable, match=f"In {part}"):
        read_job(json.dumps(document).encode())


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
