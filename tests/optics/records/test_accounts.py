"""What was measured besides focus is told as the bench tells it anywhere else."""

import json
import re

from optics.measure.verdict import Verdict
from optics.records.accounts import checks_of
from optics.records.files import read_job
from optics.records.report import report_of
from optics.records.solve import solve
from tests.optics.records.bench_jobs import BUDGET, GATE, STANDARD, WITNESS
from tests.optics.records.diagnoses import RANGEFINDER as MET
from tests.optics.records.diagnoses import READINGS
from tests.optics.records.diagnoses import job as diagnosed
from tests.optics.records.jobs import record
from tests.optics.records.rangefinders import RANGEFINDER
from ui.terminal.plain_text import solution_text

SCALE = {"marks": "∞ = 0; 3 m = 17; 1 m = 50", "depth_marks": "f/16 = 19", "limit": "0.2"}
PARTS = {
    "scale": SCALE,
    "rangefinder": RANGEFINDER,
    "standard": STANDARD,
    "gate": GATE,
    "witness": WITNESS,
    "budget": BUDGET,
}


def test_every_check_is_told_in_the_words_of_the_solution() -> None:
    """Each part has its title, and each of its sentences is one that the solved job says."""
    job = read_job(json.dumps(record(**PARTS)).encode())
    checks = checks_of(job)
    assert len(checks) == len(PARTS)
    whole = " ".join(solution_text(solve(job)).split())
    for check in checks:
        assert check.title in whole
        assert check.said
        for sentence in (*check.at_bench, *check.weighed):
            assert " ".join(sentence.split()) in whole


def test_each_check_has_its_verdict() -> None:
    """What is outside its tolerance, or cannot be told, is not passed over as if it were right."""
    made = report_of(read_job(json.dumps(record(**PARTS)).encode()))
    assert made.open_checks
    assert all(one.verdict in (Verdict.OUTSIDE, Verdict.UNSURE) for one in made.open_checks)
    passed = [one for one in made.checked if one not in made.open_checks]
    assert all(one.verdict in (None, Verdict.INSIDE) for one in passed)


# What the bench is told to do, and how a fit came out, is no business of who owns the camera.
BENCH_ONLY = re.compile(
    r"\b(take off|put the|look for|loosen|measure|shim the|work on|turn the|chi-square|assumes)\b"
    r"|\b0\.0 ?%",
    re.IGNORECASE,
)


def test_orders_are_for_the_bench_alone() -> None:
    """What is said of a camera gives no order and no statistic; the bench is told those too."""
    cam = {
        "body": {"kind": "a straight follower", "gain": "58"},
        "turn": "52",
        "lifts": "0 = 0; 20 = 1.1; 40 = 2.2",
    }
    parts = PARTS | {"rangefinder": RANGEFINDER | {"cam": cam}}
    checks = checks_of(read_job(json.dumps(record(**parts)).encode()))
    for check in checks:
        assert not BENCH_ONLY.search(" ".join(check.said))
    to_do = " ".join(line for check in checks for line in check.to_do)
    assert all(told in to_do for told in ("Take off at most", "Put the gate right first"))
    weighed = " ".join(line for check in checks for line in check.weighed)
    assert all(told in weighed for told in ("chi-square", "assumes", "mm now, 0.130 mm in all"))


def test_every_check_that_may_be_open_has_a_plain_name() -> None:
    """Whatever has a verdict has a name for somebody who does not know the trade."""
    checks = checks_of(read_job(json.dumps(record(**PARTS)).encode()))
    assert all(check.plain for check in checks if check.verdict is not None)


def test_diagnosis_and_cam_are_told() -> None:
    """What the readings say together, and what comes off a cam."""
    cam = {
        "body": {"kind": "a straight follower", "gain": "58"},
        "turn": "52",
        "lifts": "0 = 0; 20 = 1.1; 40 = 2.2",
    }
    job = diagnosed(*READINGS, rangefinder=MET | {"cam": cam})
    checks = checks_of(job)
    assert [check.title for check in checks] == ["Whole camera", "Coupled rangefinder", "Cam"]
    whole = " ".join(solution_text(solve(job)).split())
    for sentence in (sentence for check in checks for sentence in check.at_bench):
        assert " ".join(sentence.split()) in whole


def test_a_job_with_readings_alone_has_no_checks() -> None:
    """A job without those parts tells of none."""
    assert checks_of(read_job(json.dumps(record()).encode())) == ()
