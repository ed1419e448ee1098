"""What is printed as JSON keeps to its own published schema, and loses nothing."""

import json
import math
from typing import Any

import pytest

from optics.records.files import read_job
from optics.records.result import ResultDocument, result_of
from optics.records.solve import Solution, solve
from optics.typed.result_parts import FigureOut
from tests.optics.records.jobs import BED, FOCUSINGS, HELICOID, READINGS, job
from tests.optics.records.result_lines import ADDED, RELEASED, lines_of


def solved(document: dict[str, Any]) -> Solution:
    """Solve a document as a file would be."""
    return solve(read_job(json.dumps(document).encode()))


def strictly(text: str) -> Any:
    """Read JSON as the standard has it, without NaN or Infinity."""
    return json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))


def without_rotation(focusing: dict[str, str]) -> list[dict[str, str]]:
    """Give every reading that a camera can take."""
    return [r for r in READINGS if not (focusing is BED and r["kind"] == "rotation")]


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_the_result_is_as_its_schema_says(focusing: dict[str, str]) -> None:
    """The JSON of a result is read back by the published model to the same result."""
    result = result_of(solved(job(focusing, *without_rotation(focusing))))
    text = result.model_dump_json()
    strictly(text)
    assert ResultDocument.model_validate_json(text) == result


def test_infinity_is_a_word_in_quotes() -> None:
    """A distance at infinity is written “inf”, and one beyond it null."""
    sharp = {"kind": "mark", "mark": "inf", "sharp_at": "inf"}
    inside = {"kind": "mark", "mark": "3 m", "sharp_at": "inf"}
    right, wrong = strictly(result_of(solved(job(HELICOID, sharp, inside))).model_dump_json())[
        "answers"
    ]
    assert right["sights"][0]["mark"] == right["sights"][0]["sharp_at"] == "inf"
    assert wrong["sights"][0]["sharp_at"] is None
    assert wrong["sights"][0]["farthest"] is None


def test_a_figure_has_all_of_its_uncertainty() -> None:
    """Three readings give value, u, two degrees of freedom, k 4.30 and U with their sources."""
    reading = {"kind": "register", "measured": "45.50; 45.52; 45.54", "nominal": "45.46"}
    (answer,) = result_of(solved(job(BED, {**reading, "limit": "0"}))).answers
    figure = answer.error
    assert figure is not None
    assert figure.value == pytest.approx(0.06)
    # s = 0.02, u = s/√3, k from GUM table G.2.
    assert figure.standard_uncertainty == pytest.approx(0.0115470, abs=1e-7)
    assert figure.degrees_of_freedom == pytest.approx(2)
    assert figure.coverage_factor == pytest.approx(4.30, abs=0.005)
    assert figure.expanded_uncertainty == pytest.approx(0.0497, abs=0.0001)
    assert figure.budget == {"spread of register measured": pytest.approx(0.0115470, abs=1e-7)}


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_every_budget_adds_up_to_its_figure(focusing: dict[str, str]) -> None:
    """The sources of each figure have names of their own, and their squares add up to u²."""
    figures: list[FigureOut] = []
    for answer in result_of(solved(job(focusing, *without_rotation(focusing)))).answers:
        figures += [answer.error] if answer.error else []
        figures += [remedy.residual for remedy in answer.remedies if remedy.residual]
    assert len(figures) > 8
    for figure in figures:
        total = math.hypot(*figure.budget.values())
        assert total == pytest.approx(figure.standard_uncertainty, rel=1e-9, abs=1e-15)


def test_unlimited_degrees_of_freedom_are_null() -> None:
    """Infinite degrees of freedom are null, and the schema says so."""
    reading = {"kind": "register", "measured": "45.5", "nominal": "45.46", "limit": "0.01"}
    (answer,) = result_of(solved(job(BED, reading))).answers
    assert answer.error is not None
    assert answer.error.degrees_of_freedom is None
    schema = ResultDocument.model_json_schema()["$defs"]["FigureOut"]["properties"]
    assert "null means infinite" in schema["degrees_of_freedom"]["description"]


def test_a_remedy_that_does_not_apply_says_why() -> None:
    """A remedy that is not called for is in the result with its reason and no figures."""
    reading = {"kind": "register", "measured": "45.46", "nominal": "45.46", "limit": "0"}
    (answer,) = result_of(solved(job(HELICOID, reading))).answers
    assert [r.applies for r in answer.remedies] == [False, False, False]
    for remedy in answer.remedies:
        assert remedy.words.endswith(".")
        assert (remedy.figures, remedy.residual) == ({}, None)


def test_a_remedy_has_its_figures_and_sense() -> None:
    """A turn is in the result with its radians and its sense: 0.9 mm of lead 18 is 18° inward."""
    reading = {"kind": "register", "measured": "46.36", "nominal": "45.46", "limit": "0"}
    (answer,) = result_of(solved(job(HELICOID, reading))).answers
    ring = next(r for r in answer.remedies if r.kind == "ring")
    assert ring.figures["rotation"] == pytest.approx(-math.pi / 10)
    assert ring.figures["sense"] == "clockwise"


def _said_now() -> set[str]:
    return set(lines_of(ResultDocument.model_json_schema(mode="serialization")))


def test_released_lines_stand() -> None:
    """Nothing that a reader of the result could rely on was removed or means something else."""
    released = RELEASED.read_text(encoding="utf-8").splitlines()
    assert sorted(set(released) - _said_now()) == []


def test_additions_are_listed() -> None:
    """All that the result says beyond what was released is listed, and the list holds no more."""
    released = set(RELEASED.read_text(encoding="utf-8").splitlines())
    listed = set(ADDED.read_text(encoding="utf-8").splitlines())
    assert sorted(_said_now() - released - listed) == []
    assert sorted(listed - _said_now()) == []
