"""From a rangefinder's texts to the bench: units, repeats, tape and eye."""

import json
import math
from typing import Any

import pytest

from optics.bench.rangefinder.acuity import TRAINED, WORKING
from optics.errors import NoAnswer, OutOfRange
from optics.records.files import read_job
from optics.records.rangefinder_bench import acuity_of, bench_of, set_up_of
from optics.records.solve import Solution, solve
from tests.optics.records.rangefinders import ROUND, rangefinder_job


def solved(**changed: Any) -> Solution:
    """Solve a job with a rangefinder."""
    return solve(read_job(json.dumps(rangefinder_job(**changed)).encode()))


def test_figures_reach_the_bench_in_millimetres() -> None:
    """Centimetres, decimal commas, feet and arcminutes become mm and radians."""
    bench = solved().rangefinder
    assert bench is not None
    finder = bench.rangefinder
    assert (finder.base, finder.base_to_film, finder.magnification) == (41.0, 24.0, 0.6)
    assert bench.near_end == pytest.approx(914.4)  # 3 ft of 304.8 mm
    assert bench.acuity == WORKING
    assert not finder.zero_adjuster.is_eccentric


def test_readings_and_rounds_reach_the_bench() -> None:
    """Repeats are averaged, infinity stays infinite, and turns keep their sense."""
    found = solved(near_adjuster="eccentric", rounds=[ROUND | {"near_turned": "1/8 ccw"}]).set_up
    assert found is not None
    first, middle, last = found.readings
    assert first.true.value == math.inf
    assert first.scale.value == pytest.approx(22_500.0)
    assert middle.scale.value == pytest.approx(8.5 * 304.8)
    assert last.true.standard == pytest.approx(5 / math.sqrt(3))  # GUM 4.3.7
    (one,) = found.rounds
    assert (one.zero, one.gain) == (0.25, -0.125)
    assert one.near.value == pytest.approx(996.5)
    assert found.bench.rangefinder.gain_adjuster.is_eccentric


@pytest.mark.parametrize(
    ("text", "name"),
    [("60", WORKING.name), ("1'", WORKING.name), ("12″", TRAINED.name), ("30", "stated eye")],
)
def test_a_usual_eye_is_known_by_its_figure(text: str, name: str) -> None:
    """However a usual figure is written, its eye and source are told; others are as stated."""
    assert acuity_of(text).name == name


def test_nothing_read_is_no_set_up() -> None:
    """A rangefinder without readings is described, but not set up."""
    solution = solved(pairs=None, rounds=None)
    assert solution.rangefinder is not None
    assert solution.set_up is None
    assert solution.job.rangefinder is not None
    assert set_up_of(solution.job.rangefinder, solution.camera) is None
    assert bench_of(solution.job.rangefinder, solution.camera) == solution.rangefinder


def test_what_the_bench_refuses_is_refused() -> None:
    """Rounds without a second target, and a range without an end, are refused in words."""
    with pytest.raises(NoAnswer, match="read a second target"):
        solved(pairs="1 m = 1.01")
    with pytest.raises(OutOfRange, match="must be finite"):
        solved(near_end="inf")
