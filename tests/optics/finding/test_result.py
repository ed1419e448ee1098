"""Diagnosis and plan as JSON: to their schema, complete, and without a number that is none."""

import json
import math

import pytest

from optics.finding.result import DiagnosisOut
from optics.records.result import ResultDocument, result_of
from tests.optics.records.diagnoses import (
    GAUGE,
    NEAR,
    RANGEFINDER,
    READINGS,
    STANDARD,
    STOP,
    solved,
)


def printed(*readings: dict[str, str], **parts: object) -> DiagnosisOut:
    """Solve a job and return its diagnosis, once it has been through JSON and back."""
    result = result_of(solved(*readings, **parts))
    text = result.model_dump_json()
    json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))
    assert ResultDocument.model_validate_json(text) == result
    assert result.diagnosis is not None
    return result.diagnosis


def test_a_job_that_does_not_ask_has_none() -> None:
    """Without a diagnosis in the job the result says null."""
    assert result_of(solved(diagnosis=None)).diagnosis is None


def test_causes_are_printed_with_their_figures() -> None:
    """The first cause is the shims, 0.08 mm too thin as worked by hand, with its uncertainty."""
    found = printed()
    first = found.causes[0]
    assert first.cause == "shims"
    assert first.probability > 0.95
    figure = first.figures["seat"]
    assert abs(figure.value + 0.082) < figure.expanded_uncertainty
    total = math.hypot(*figure.budget.values())
    assert total == pytest.approx(figure.standard_uncertainty, rel=1e-6)
    assert math.fsum(one.probability for one in found.cause_sets) == pytest.approx(1, abs=0.02)
    assert found.cause_sets[0].causes == ("shims",)


def test_every_reading_is_printed_with_what_was_foretold() -> None:
    """Each reading stands with its error, and the causes make it what was read."""
    found = printed()
    assert [one.kind for one in found.readings] == ["register", "rotation", "mark"]
    for one in found.readings:
        assert abs(one.foretold - one.error.value) < one.error.expanded_uncertainty


def test_the_plan_is_printed_step_by_step() -> None:
    """The step says leaves, change and cautions, and what is to be expected after it."""
    plan = printed().plan
    (step,) = plan.steps
    assert (step.number, step.bench_step, step.cause) == (1, 3, "shims")
    assert step.changes["seat"].value == pytest.approx(0.08)
    assert step.after.all_inside > 0.95
    assert plan.will_conform
    assert {one.words for one in step.after.expected} == {
        "the register",
        "the infinity stop",
        "the ∞ mark",
        "the 1.5 m mark",
    }
    assert [one.avoids for one in plan.alternatives] == [("shims",)]


def test_what_cannot_be_told_is_printed() -> None:
    """Two causes alike are named, and the reading that tells them apart comes first."""
    turned = {
        "kind": "rotation",
        "turned": "2.5; 2.75; 2.75; 2.5",
        "sense": "clockwise",
        "limit": "0.25",
    }
    found = printed(turned, {**NEAR, "mark": "3 m", "sharp_at": "2.55; 2.58; 2.57; 2.555"})
    assert "cannot be told apart" in found.cannot_tell[0]
    best = found.further[0]
    assert best.words == "the register gauged from the lens seat"
    assert best.wrong_cause[1] < best.wrong_cause[0]


def test_a_reading_that_disagrees_is_printed() -> None:
    """A mark read 0.3 mm out beside three readings that agree is accused."""
    wrong = {"kind": "mark", "mark": "3 m", "sharp_at": "4.5; 4.51; 4.49", "limit": "2 mm"}
    found = printed(GAUGE, STOP, NEAR, wrong, {**NEAR, "mark": "2 m", "sharp_at": "2.16; 2.17"})
    assert any("take it again" in words for words in found.outliers) == bool(found.outliers)
    assert found.plan.will_conform is False


def test_the_whole_bench_goes_through_json() -> None:
    """With rangefinder and standard, and film judged, everything is still JSON to its schema."""
    found = printed(
        *READINGS, {**NEAR, "judged": "on film"}, rangefinder=RANGEFINDER, standard=STANDARD
    )
    assert {"tilt_x", "tilt_y"} <= {name for one in found.causes for name in one.figures}
    assert len(found.readings) == 10
