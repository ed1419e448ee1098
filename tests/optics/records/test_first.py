"""Jobs whose camera is not told in full: first answers, their JSON, and what still refuses."""

import json
from typing import Any

import pytest

from optics.errors import Unreadable
from optics.records.files import read_job, write_job
from optics.records.first import FirstResult, FirstSolution, answered, first_result_of
from optics.records.job import JobDocument
from optics.records.report import report_of
from optics.records.result import result_of
from optics.records.solve import Solution, solve
from optics.records.to_bench import camera_of
from tests.optics.records.jobs import HELICOID, READINGS, job
from ui.terminal.plain_text import solution_text

TURNED = {"kind": "rotation", "turned": "40", "sense": "clockwise"}
PARALLAX = {"kind": "parallax", "image_moves": "with the eye"}


def bare(*readings: dict[str, Any], **more: Any) -> JobDocument:
    """A job of which nothing is told but which way the lens moves out."""
    camera = {"lens": {}, "focusing": {"kind": "helicoid", "extends": "counter-clockwise"}}
    return JobDocument.model_validate({"camera": camera, "readings": list(readings), **more})


def result(*readings: dict[str, Any]) -> FirstResult:
    """The first answers of such a job as a document."""
    found = answered(bare(*readings))
    assert isinstance(found, FirstSolution)
    return first_result_of(found)


def test_a_camera_told_in_full_is_solved_as_ever() -> None:
    """Nothing changes for a job whose camera has its figures."""
    whole = JobDocument.model_validate(job(HELICOID, READINGS[0]))
    found = answered(whole)
    assert isinstance(found, Solution)
    assert result_of(found) == result_of(solve(whole))


def test_the_first_answer_is_documented_json() -> None:
    """The turn stands in the JSON in radians with its sense, and null for what is not known yet."""
    told = json.loads(result(TURNED, PARALLAX).model_dump_json())
    assert told["format"] == "shimwright first answer"
    turn, parallax = told["answers"]
    # 40° is 0.698132 rad; clockwise moves this lens in, so it is minus.
    assert turn["turn"]["value"] == pytest.approx(-0.698132, abs=5e-7)
    assert turn["turn_sense"] == "clockwise"
    assert (turn["error"], turn["verdict"]) == (None, None)
    assert turn["still_needed"][0]["figures"] == ["lead"]
    assert parallax["sense"] == "too far out"


GAUGED = {"kind": "register", "nominal": "28.8 mm", "limit": "0.01 mm"}


def test_first_answers_that_contradict_each_other_are_named_first() -> None:
    """A register gauged 28.7 and 29.3 mm: the two stand in text and JSON before any shim."""
    readings = [GAUGED | {"measured": "28.7"}, PARALLAX, GAUGED | {"measured": "29.3"}]
    (found,) = result(*readings).disagreements
    assert found.answers == (1, 3)
    assert "was read twice, and the two cannot both be true" in found.words
    said = answered(bare(*readings))
    assert isinstance(said, FirstSolution)
    text = " ".join(solution_text(said).split())
    assert text.index("cannot both be true") < text.index("shim under the lens seat")
    assert report_of(said.job).disagreeing == (found.words,)


def test_first_answers_agree_while_their_spread_is_not_known() -> None:
    """Single tries whose eye is not known contradict nothing, unless a tolerance says how far."""
    marks = [{"kind": "mark", "sharp_at": one} for one in ("18 m", "40 m")]
    camera = {"lens": {"focal_length": "50 mm"}, "focusing": {"kind": "bed"}}
    job = {"camera": camera, "readings": marks}
    # f²/(D − 2f): 0.140 and 0.063 mm, 0.077 mm apart; two figures within ± 0.03 mm may be 0.06.
    for tolerance, count in ((None, 0), ("0.03 mm", 1), ("0.05 mm", 0)):
        camera["tolerance"] = tolerance
        found = answered(JobDocument.model_validate(job))
        assert isinstance(found, FirstSolution)
        assert len(found.disagreements) == count, tolerance


def test_a_job_file_without_figures_is_read_and_written_back() -> None:
    """A file that tells no focal length reads, and comes back as it was."""
    kept = bare(TURNED)
    assert read_job(write_job(kept).encode()) == kept


@pytest.mark.parametrize(
    "more", [{"diagnosis": {}}, {"budget": {"terms": {"rangefinder": "0.02"}}}]
)
def test_what_cannot_do_without_names_the_figures(more: dict[str, Any]) -> None:
    """A part that needs the whole camera says which figures it lacks."""
    with pytest.raises(
        Unreadable,
        match=r"^The camera's focal length, full aperture, circle of confusion and lead are not",
    ):
        answered(bare(TURNED, **more))


def test_one_missing_figure_is_named_alone() -> None:
    """A camera that lacks its lead alone is told so."""
    whole = job(HELICOID, READINGS[0])
    del whole["camera"]["focusing"]["lead"]
    described = JobDocument.model_validate(whole).camera
    assert described is not None
    with pytest.raises(Unreadable, match=r"^The camera's lead is not told yet: enter what is"):
        camera_of(described)


def test_a_job_booked_in_without_figures_has_its_report() -> None:
    """What was written down about a job is reported though its camera lacks figures."""
    assert report_of(bare(title="soft at a distance")).title == "soft at a distance"
