"""What was measured besides focus is told as the bench tells it anywhere else."""

import json

from optics.bench.verdict import Verdict
from optics.records.checks import checks_of
from optics.records.files import read_job
from optics.records.report import report_of
from optics.records.solve import solve
from tests.optics.records.bench_jobs import BUDGET, GATE, STANDARD, WITNESS
from tests.optics.records.diagnoses import RANGEFINDER as MET
from tests.optics.records.diagnoses import READINGS
from tests.optics.records.diagnoses import job as diagnosed
from tests.optics.records.jobs import record
from tests.optics.records.rangefinders import RANGEFINDER
from ui.plain_text import solution_text

SCALE = {"marks": "∞ = 0; 3 m = 17; 1 m = 50", "depth_marks": "f/16 = 19", "limit": "0.2"}
PARTS = {
    "scale": SCALE, "rangefinder": RANGEFINDER, "standard": STANDARD, "gate": GATE,
    "witness": WITNESS, "budget": BUDGET,
}  # fmt: skip


def test_every_check_is_told_in_the_words_of_the_solution() -> None:
    """Each part has its title, and each of its sentences is one that the solved job says."""
    job = read_job(json.dumps(record(**PARTS)).encode())
    checks = checks_of(job)
    assert len(checks) == len(PARTS)
    whole = " ".join(solution_text(solve(job)).split())
    for check in checks:
        assert check.title in whole
        assert check.said
        for sentence in check.said:
            assert " ".join(sentence.split()) in whole


def test_each_check_has_its_verdict() -> None:
    """What is outside its tolerance, or cannot be told, is not passed over as if it were right."""
    made = report_of(read_job(json.dumps(record(**PARTS)).encode()))
    open_checks = dict(made.open_checks)
    assert {one.title: one.verdict for one in made.checked}.items() >= open_checks.items()
    assert Verdict.INSIDE not in open_checks.values()
    assert open_checks


def test_diagnosis_and_cam_are_told() -> None:
    """What the readings say together, and what comes off a cam."""
    cam = {"body": {"kind": "a straight follower", "gain": "58"}, "turn": "52",
           "lifts": "0 = 0; 20 = 1.1; 40 = 2.2"}  # fmt: skip
    job = diagnosed(*READINGS, rangefinder=MET | {"cam": cam})
    checks = checks_of(job)
    assert [check.title for check in checks] == ["Whole camera", "Coupled rangefinder", "Cam"]
    whole = " ".join(solution_text(solve(job)).split())
    for sentence in (sentence for check in checks for sentence in check.said):
        assert " ".join(sentence.split()) in whole


def test_a_job_with_readings_alone_has_no_checks() -> None:
    """A job without those parts tells of none."""
    assert checks_of(read_job(json.dumps(record()).encode())) == ()
