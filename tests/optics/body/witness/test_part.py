"""Thread starts and witness marks as part of a job."""

from typing import Any

import pytest

from optics.body.witness import RankingFinding
from optics.errors import ShimwrightError
from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK
from tests.optics.records.bench_jobs import (
    WITNESS,
    solved,
    spoilt,
)


def test_starts_are_those_worked_by_hand() -> None:
    """By hand, two starts and mark B leave 6.48 − 6 − 0.5 = −0.02 mm: that is what comes first."""
    ranking = solved(OSTRIN, witness=WITNESS).witness
    assert ranking is not None
    assert ranking.finding is RankingFinding.TOLD
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
