"""Two readings of one thing that cannot both be true, where no diagnosis weighs them."""

import json
import math
from typing import Any

import numpy as np
import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.finding.disagreement import disagreement_line, disagreements
from optics.measure.uncertainty import exact, from_repeats, within
from optics.readings.correction import Correction, correct
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.records.files import read_job
from optics.records.report import report_of
from optics.records.result import result_of
from optics.records.solve import Solution, solve
from optics.records.suggested_work import work_asked
from tests.optics.records.jobs import HELICOID, job
from ui.terminal.plain_text import solution_text

INFINITY = exact(math.inf)
CAMERA = Camera("", Lens(50.0, 2.8), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
TRIALS = 400
MARK = {"kind": "mark", "mark": "inf", "sharp_at": "9 m", "limit": "0.1 m"}
COLLIMATOR = {
    "kind": "collimator",
    "shift": "3",
    "limit": "0.02",
    "collimator_focal_length": "300",
    "towards": "away from its lens",
}


def turned(error: float, *more: float, mark: float = math.inf) -> Correction:
    """Give the answer to a turn from a mark that shows an error, once or several times."""
    tries = [-one / 18.0 * 2 * math.pi for one in (error, *more)]
    reading = RotationReading(from_repeats(tries, 0.0, "turn"), exact(mark), exact(mark))
    return correct(CAMERA, reading, marks=())


def gauged(error: float, limit: float = 0.0) -> Correction:
    """Give the answer to a register gauged so far off."""
    return correct(CAMERA, RegisterReading(within(45 + error, limit, "gauge"), exact(45.0)))


def solved(*readings: dict[str, Any]) -> Solution:
    """Solve a job with these readings, as it is typed."""
    return solve(read_job(json.dumps(job(HELICOID, *readings)).encode()))


def test_two_ways_of_reading_infinity_must_agree() -> None:
    """Ring mark and collimator at infinity, 0.3 mm apart, contradict each other in figures."""
    # By hand: 50²/(10100 − 50) ≈ 0.2488 mm out; 1.8 × (50/300)² = 0.0500 mm in.
    mark = correct(CAMERA, MarkReading(INFINITY, within(10100.0, 50.0, "tape")))
    reticle = CollimatorReading(within(-1.8, 0.02, "slide"), exact(300.0))
    (found,) = disagreements([mark, None, correct(CAMERA, reticle)])
    assert found.indices == (0, 2)
    said = disagreement_line(found)
    assert said.startswith("The ∞ mark was read twice, and the two cannot both be true: ")
    assert "0.050 mm too far in by collimator (± 0.024 mm)" in said
    # Two eyes of ± 0.021 mm: 1.96 × √2 × 0.021/√3 = 0.0336 mm.
    assert "both ± together allow 0.034 mm" in said
    assert said.endswith("Take both again before anything is moved.")


def test_what_both_uncertainties_allow_is_no_contradiction() -> None:
    """Readings that lie apart by less than both ± together, or of two things, stand."""
    assert disagreements([turned(0.0), turned(0.03)]) == ()
    assert disagreements([turned(0.0), turned(0.3, mark=3000.0)]) == ()
    assert len(disagreements([turned(0.0), turned(0.04)])) == 1


def test_one_slip_among_many_is_named_once() -> None:
    """One of four readings of a thing that contradicts all the others is named in one pair."""
    (found,) = disagreements([turned(0.0), turned(0.01), turned(0.3), turned(-0.01)])
    assert found.indices == (2, 3)


def test_figures_of_unknown_uncertainty_are_compared_by_the_tolerance() -> None:
    """Gauged twice with nothing known of the gauge, only a gap beyond the tolerance is named."""
    assert disagreements([gauged(0.0), gauged(0.08)]) == ()
    (found,) = disagreements([gauged(0.0), gauged(0.3)])
    assert "the two do not agree: right by gauge (± not known), and 0.300 mm" in disagreement_line(
        found
    )


@pytest.mark.parametrize(("count", "tries"), [(2, 1), (4, 1), (2, 4)])
def test_sound_readings_are_seldom_accused(count: int, tries: int) -> None:
    """Of honest eyes' readings of one thing one set in twenty is accused, however many."""
    chance = np.random.default_rng(count + tries)
    accused = 0
    for _ in range(TRIALS):
        seen = chance.normal(0.0, 0.021 / math.sqrt(3), (count, tries))
        accused += bool(disagreements([turned(*row) for row in seen.tolist()]))
    # 5 %, and three deviations of so many trials.
    assert accused / TRIALS <= 0.05 + 3 * math.sqrt(0.05 * 0.95 / TRIALS)


def test_a_contradiction_stands_before_any_remedy() -> None:
    """Terminal, JSON, the record's page and the bench sheet name it before they say what to do."""
    solution = solved(MARK, COLLIMATOR)
    (pair,) = solution.disagreements
    line = disagreement_line(pair)
    flat = " ".join(solution_text(solution).split())
    assert 0 < flat.index(line) < flat.index("What to do")
    (out,) = result_of(solution).disagreements
    assert (out.answers, out.words) == ((1, 2), line)
    assert work_asked(solution.job)[0].said == line
    assert report_of(solution.job).disagreeing == (line,)


def test_a_diagnosis_and_other_places_are_left_to_themselves() -> None:
    """A diagnosis weighs its own contradictions; mark and stop are two things, as are corners."""
    whole = job(HELICOID, MARK, COLLIMATOR) | {"diagnosis": {}}
    assert solve(read_job(json.dumps(whole).encode())).disagreements == ()
    assert solved(MARK, COLLIMATOR | {"where": "at the stop"}).disagreements == ()
    # The size of the picture is not told, so that nobody knows where this corner is.
    assert solved(MARK, COLLIMATOR | {"place": "top left"}).disagreements == ()
