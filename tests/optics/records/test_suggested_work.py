"""What the readings of a job ask to be done."""

import json

import pytest

from optics.finding.diagnosis.wording import headline
from optics.records.files import read_job
from optics.records.solve import solve
from optics.records.suggested_work import AskedWork, work_asked
from tests.optics.records.jobs import HELICOID, READINGS, job


@pytest.mark.parametrize(
    ("sharp_at", "is_asked"), [("18 m; 18.7 m; 19.5 m", True), ("400; 900; 500 m", False)]
)
def test_a_reading_inside_tolerance_asks_for_nothing(sharp_at: str, is_asked: bool) -> None:
    """Only a reading that is not inside tolerance brings remedies to note as done."""
    reading = {"kind": "mark", "mark": "inf", "sharp_at": sharp_at}
    (asked,) = work_asked(read_job(json.dumps(job(HELICOID, reading)).encode()))
    assert bool(asked.work) is is_asked
    assert ("nothing need be done" in asked.said) is not is_asked


def test_a_reading_of_no_stated_uncertainty_asks_to_be_read_again() -> None:
    """A gauge of no known limit asks for no work but for further tries."""
    reading = {"kind": "register", "measured": "28.8", "nominal": "28.8", "limit": "0 mm"}
    (asked,) = work_asked(read_job(json.dumps(job(HELICOID, reading)).encode()))
    assert asked.work == ()
    assert "read three times" in asked.said


def test_a_correction_stands_though_its_uncertainty_is_not_known() -> None:
    """Beyond tolerance with nothing known of the ±, work is asked for and no verdict given."""
    reading = {"kind": "register", "measured": "29.4", "nominal": "28.8", "limit": "0 mm"}
    (asked,) = work_asked(read_job(json.dumps(job(HELICOID, reading)).encode()))
    assert asked.work
    assert "0.600 mm too far out, ± not known" in asked.said
    assert "outside" not in asked.said


def test_readings_weighed_together_ask_for_their_plan() -> None:
    """With a diagnosis in the job the work is the plan's, step by step, and no single remedy's."""
    document = job(HELICOID, READINGS[0], READINGS[3]) | {"diagnosis": {}}
    typed = read_job(json.dumps(document).encode())
    whole = solve(typed).whole
    assert whole is not None
    (asked,) = work_asked(typed)
    assert asked.said.startswith(headline(whole.diagnosis))
    assert [work.instruction for work in asked.work] == [
        step.adjustment.instruction for step in whole.plan.steps
    ]
    assert asked.work


MARK = {"kind": "mark", "mark": "inf", "sharp_at": "18 m; 18.7 m; 19.5 m"}


def asked_of(*readings: dict[str, str]) -> list[AskedWork]:
    """What is asked for by several readings that are answered one by one."""
    return work_asked(read_job(json.dumps(job(HELICOID, *readings)).encode()))


@pytest.mark.parametrize("register", ["28.70", "28.80"])
def test_remedies_that_would_undo_each_other_are_headed_by_that(register: str) -> None:
    """Ring too far out, register too near or right: weighing them comes before any work."""
    gauged = {"kind": "register", "measured": register, "nominal": "28.80", "instrument": "caliper"}
    first, *each = asked_of(MARK, gauged)
    assert first.work == ()
    assert "moves the others" in first.said
    assert "Whole camera" in first.said
    assert any(one.work for one in each)


def test_readings_that_ask_for_nothing_need_no_weighing() -> None:
    """One reading alone, or several all inside tolerance, are not headed by a warning."""
    inside = {"kind": "register", "measured": "28.80", "nominal": "28.80", "instrument": "caliper"}
    for said in (asked_of(MARK), asked_of(inside, {**MARK, "sharp_at": "400 m; 900 m; 500 m"})):
        assert not any("moves the others" in one.said for one in said)
