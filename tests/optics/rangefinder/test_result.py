"""The rangefinder as JSON: to its schema, with senses and uncertainty."""

import json
import math
from typing import Any

import pytest

from optics.rangefinder.result import RangefinderOut
from optics.records.files import read_job
from optics.records.result import ResultDocument, result_of
from optics.records.solve import solve
from tests.optics.records.jobs import BED, READINGS, job
from tests.optics.records.rangefinders import ROUND, rangefinder_job

# f 47, base 41, k 24, as the job has it.
GOOD = "∞ = inf; 1 m = 1"


def printed(**changed: Any) -> RangefinderOut:
    """Solve a job and return its rangefinder, once it has been through JSON and back."""
    result = result_of(solve(read_job(json.dumps(rangefinder_job(**changed)).encode())))
    text = result.model_dump_json()
    json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))
    assert ResultDocument.model_validate_json(text) == result
    assert result.rangefinder is not None
    return result.rangefinder


def test_a_job_without_one_has_none() -> None:
    """Where no rangefinder is described the result says null, and where nothing was read too."""
    document = job(BED, READINGS[-1])
    assert result_of(solve(read_job(json.dumps(document).encode()))).rangefinder is None
    assert printed(pairs=None, rounds=None).set_up is None


def test_the_set_up_is_printed_with_its_uncertainty() -> None:
    """Both ends are figures with a budget that adds up, and eye and tape are among the sources."""
    found = printed().set_up
    assert found is not None
    assert found.far_target == "inf"
    assert found.near_target == 1000.0
    for figure in (found.far_error, found.near_error, found.zero, found.gain):
        total = math.hypot(*figure.budget.values())
        assert total == pytest.approx(figure.standard_uncertainty, rel=1e-9)
    assert any(name.startswith("eye at reading") for name in found.far_error.budget)
    assert "tape at 1 m" in found.near_error.budget
    assert "too far out" in found.words


def test_the_next_turn_is_printed_with_its_sense() -> None:
    """A trial is printed as turns of one adjuster, and a set rangefinder as done."""
    trial = printed(rounds=None).set_up
    done = printed(pairs=GOOD, rounds=None).set_up
    assert trial is not None
    assert trial.next is not None
    assert (trial.next.kind, trial.next.infinity_turns, trial.next.near_turns) == ("trial", 0.25, 0)
    assert done is not None
    assert done.next is not None
    assert (done.next.kind, done.next.infinity_turns) == ("done", 0)
    assert done.far_error.value == pytest.approx(0, abs=1e-9)


def test_a_step_foretells_what_it_leaves() -> None:
    """Once both adjusters were tried, a step says its turns and the errors it foretells."""
    rounds = [ROUND, {"near_turned": "1/2 ccw", "far_reads": "40", "near_reads": "1.10"}]
    found = printed(rounds=rounds, acuity="12").set_up
    assert found is not None
    assert found.next is not None
    assert found.next.kind == "step"
    assert found.next.foretold is not None
    assert abs(found.next.foretold.near) < abs(found.near_error.value)
    assert len(found.states) == 3


def test_where_to_set_near_is_printed() -> None:
    """The usual setting is exact at infinity and at the near end; the better two are better."""
    found = printed(pairs=None, rounds=None)
    assert found.usual.exact_at == ("inf", pytest.approx(914.4))
    assert found.best_pair.worst < found.best_near.worst < found.usual.worst
    assert len(found.near_words) == 3


def test_one_reading_is_printed_without_a_next_turn() -> None:
    """With one target there is no next turn, and what is missing is said."""
    found = printed(pairs="1 m = 1.01", rounds=None).set_up
    assert found is not None
    assert found.next is None
    assert found.states == ()
    assert found.missing


def test_eyes_have_their_sources() -> None:
    """What each eye leaves is printed with whose eye it is and who says so."""
    working, trained = printed().eyes
    # The published unit of error of 12″ is a fifth of the working minute.
    assert working.error == pytest.approx(5 * trained.error)
    assert "TM 9-258" in trained.source
