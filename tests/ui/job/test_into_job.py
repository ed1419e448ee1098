"""What a calculator sends into a job, and what stays as it was."""

import json
from typing import Any

import pytest

from optics.records.files import read_job
from optics.records.job import JobDocument
from tests.optics.records.jobs import READINGS, RECORD, job, record
from ui.job.into_job import FOUND, LEFT, WORKING, with_result

JOB = read_job(json.dumps(record()).encode())
SENT = read_job(json.dumps(job() | {"readings": [READINGS[0]]}).encode())
DETAILS = {"day": "2026-03-06", "instrument": "tape", "note": ""}


def test_a_reading_goes_where_it_belongs() -> None:
    """As found and as left grow by the reading with its day; to work with, neither does."""
    for where, name in ((FOUND, "found"), (LEFT, "left")):
        sent = with_result(JOB, SENT, DETAILS | {"where": where})
        before, after = getattr(JOB, name), getattr(sent, name)
        assert after[:-1] == before
        assert (after[-1].reading, after[-1].day) == (SENT.readings[0], "2026-03-06")
        assert sent.readings == SENT.readings
    kept = with_result(JOB, SENT, DETAILS | {"where": WORKING})
    assert (kept.found, kept.left) == (JOB.found, JOB.left)


def test_sending_twice_does_not_double() -> None:
    """The same reading of the same day and instrument is kept once."""
    taken = DETAILS | {"where": FOUND}
    once = with_result(JOB, SENT, taken)
    assert with_result(once, SENT, taken) == once


def test_what_a_calculator_knows_nothing_of_stays() -> None:
    """Intake, trays, work and the title are those of the job, whatever is sent."""
    sent = with_result(JOB, SENT.model_copy(update={"title": "other"}), {})
    assert sent.title == JOB.title
    assert (sent.intake, sent.trays, sent.work) == (JOB.intake, JOB.trays, JOB.work)
    assert RECORD["trays"][0]["part"] == sent.trays[0].part


def test_shims_fitted_are_not_forgotten() -> None:
    """A calculator that asks for the drawer alone leaves the shims fitted as they were."""
    drawer = JobDocument.model_validate({"workshop": {"drawer": "0.02 × 3"}})
    sent = with_result(JOB, drawer, {})
    assert sent.workshop.drawer == "0.02 × 3"
    assert sent.workshop.fitted == JOB.workshop.fitted is not None


def test_what_was_asked_for_and_left_empty_is_taken_out() -> None:
    """A tolerance wiped on the page leaves the job, and a hiatus is what none is taken for."""
    lens = {"focal_length": "50", "hiatus": "2 mm"}
    camera = {"lens": lens, "focusing": {"kind": "bed"}, "tolerance": "0.05"}
    held = JobDocument.model_validate({"camera": camera})
    wiped = {"lens": {"hiatus": "0 mm"}, "focusing": {"kind": "bed"}, "tolerance": None}
    sent = with_result(held, JobDocument.model_validate({"camera": wiped}), {})
    assert sent.camera is not None
    assert (sent.camera.tolerance, sent.camera.lens.hiatus) == (None, "0 mm")
    assert sent.camera.lens.focal_length == "50"


def test_a_row_of_the_whole_camera_leaves_the_gates_other_figures() -> None:
    """A page that asks for the channel alone does not forget the plate and the glass."""
    gate = {"plate": "sprung", "channel": "0.2", "paper": "0.09"}
    held = JobDocument.model_validate({"gate": gate})
    sent = JobDocument.model_validate({"gate": {"film": "roll_with_paper", "channel": "0.25"}})
    found = with_result(held, sent, {}).gate
    assert found is not None
    assert (found.plate, found.paper, found.channel) == ("sprung", "0.09", "0.25")


def sent_readings(*readings: dict[str, str], **parts: Any) -> JobDocument:
    """What a calculator sends: readings, and parts that are its own."""
    return read_job(json.dumps(job() | {"readings": readings} | parts).encode())


INFINITY, NEAR, REGISTER = READINGS[0], READINGS[1], READINGS[3]


@pytest.mark.parametrize("other", [REGISTER, NEAR, INFINITY | {"judged": "on film"}])
def test_readings_of_other_things_stay_to_be_worked_with(other: dict[str, str]) -> None:
    """Another kind, another mark of the ring, or the film itself: each is a reading of its own."""
    one = with_result(JOB, sent_readings(INFINITY, diagnosis={}), {})
    assert with_result(one, sent_readings(other), {}) == with_result(
        one, sent_readings(INFINITY, other), {}
    )


def test_a_reading_replaces_that_of_the_same_thing() -> None:
    """Read again, even with the mark written in another way, only the last is worked with."""
    one = with_result(JOB, sent_readings(NEAR, diagnosis={}), {})
    again = sent_readings(NEAR | {"mark": "3000 mm", "sharp_at": "2.95 m"})
    assert with_result(one, again, {}).readings == again.readings


def test_readings_weighed_together_are_all_there_is_to_work_with() -> None:
    """A row taken away on the page that weighs them all is taken out of the job."""
    three = with_result(JOB, sent_readings(INFINITY, NEAR, REGISTER, diagnosis={}), {})
    two = sent_readings(INFINITY, REGISTER, diagnosis={})
    assert with_result(three, two, {}).readings == two.readings


def test_read_as_left_what_was_found_is_past() -> None:
    """After the work an as-left reading is not weighed together with those from before it."""
    found = with_result(
        JOB, sent_readings(INFINITY, NEAR, diagnosis={}), DETAILS | {"where": FOUND}
    )
    left = sent_readings(INFINITY | {"sharp_at": "400 m"})
    after = with_result(found, left, DETAILS | {"where": LEFT})
    assert after.readings == left.readings
    assert after.found == found.found
    assert found.diagnosis is not None
    assert after.diagnosis is None


def test_one_reading_sent_from_two_pages_is_one() -> None:
    """The mark written in another way and another gauge's name make no second reading as found."""
    taken = DETAILS | {"where": FOUND}
    before = JOB.model_copy(update={"found": ()})
    once = with_result(before, sent_readings(INFINITY), taken)
    again = with_result(once, sent_readings(INFINITY | {"mark": "∞"}), taken | {"instrument": ""})
    assert again.found == once.found
    other_day = with_result(once, sent_readings(INFINITY), taken | {"day": "2026-03-07"})
    assert len(other_day.found) == 2


def test_one_task_of_the_rangefinder_leaves_what_another_put_there() -> None:
    """Readings sent after a cam leave the cam in the job, and the other way round."""
    cam = {"body": {"kind": "a straight follower", "gain": "58"}, "turn": "52"}
    first = JobDocument.model_validate({"rangefinder": {"base": "41", "cam": cam}})
    second = JobDocument.model_validate({"rangefinder": {"base": "40", "pairs": "1 m = 1"}})
    for one, other in ((first, second), (second, first)):
        job = with_result(with_result(JOB, one, {}), other, {})
        assert job.rangefinder is not None
        assert other.rangefinder is not None
        assert job.rangefinder.cam is not None
        assert job.rangefinder.pairs == "1 m = 1"
        assert job.rangefinder.base == other.rangefinder.base
