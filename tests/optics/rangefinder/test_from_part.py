"""From a rangefinder's texts to the bench: units, repeats, tape and eye."""

import json
import math
import statistics
from typing import Any

import pytest

from optics.errors import NoAnswer, OutOfRange, Unreadable
from optics.rangefinder import set_up_wording
from optics.rangefinder.acuity import TRAINED, WORKING
from optics.rangefinder.from_part import acuity_of, bench_of, set_up_of
from optics.rangefinder.model import Compensator, CounterWedges, Mirror, SlidingWedge, SwungLens
from optics.rangefinder.readings import Apart
from optics.records.files import read_job
from optics.records.solve import Solution, solve
from tests.optics.rangefinder.workshop import extension, sight_angle
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
    """Repeats are averaged by nearness, infinity stays infinite, and turns keep their sense."""
    found = solved(near_adjuster="eccentric", rounds=[ROUND | {"near_turned": "1/8 ccw"}]).set_up
    assert found is not None
    first, middle, last = found.readings
    assert first.true.value == math.inf
    assert first.scale.value == pytest.approx(statistics.harmonic_mean([22e3, 23e3, 22.5e3]))
    assert middle.scale.value == pytest.approx(8.5 * 304.8)
    assert last.true.standard == pytest.approx(5 / math.sqrt(3))  # GUM 4.3.7
    (one,) = found.rounds
    assert (one.zero, one.gain) == (0.25, -0.125)
    assert one.near.value == pytest.approx(996.5, rel=1e-5)
    assert found.bench.rangefinder.gain_adjuster.is_eccentric


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0.21 turn", "0.21 turn clockwise"),
        ("−0,2", "0.2 turn counter-clockwise"),
        ("1/3 cw", "1/3 turn clockwise"),
        ("75.6°", "75.6° clockwise"),
    ],
)
def test_a_turn_that_was_done_is_told_as_it_was_typed(typed: str, said: str) -> None:
    """The round's line says 0.21 turn of what was typed so, and makes no sixty-fourths of it."""
    found = solved(rounds=[ROUND | {"infinity_turned": typed}]).set_up
    assert found is not None
    assert set_up_wording.said_round(found, found.rounds[0]) == f"infinity adjuster {said}"


@pytest.mark.parametrize(
    ("text", "name"),
    [("60", WORKING.name), ("1'", WORKING.name), ("12″", TRAINED.name), ("30", "stated eye")],
)
def test_a_usual_eye_is_known_by_its_figure(text: str, name: str) -> None:
    """However a usual figure is written, its eye and source are told; others are as stated."""
    assert acuity_of(text).name == name


def test_images_apart_at_the_stop_give_the_zero() -> None:
    """On infinity, lens at its stop, 3′ apart to be closed towards nearer: 3′ too little."""
    apart = {"target": "∞", "scale": "∞", "apart": "3", "ring": "towards nearer"}
    found = solved(pairs=None, rounds=None, apart=[apart]).set_up
    assert found is not None
    assert math.degrees(found.found.zero.value) * 60 == pytest.approx(-3)
    # The images would meet with the lens out by 3′ of the gain, which the design has at 3 ft.
    # The principal planes lie 0.6 mm the wrong way round, which the film plane is nearer by.
    gain = sight_angle(41, 24, 914.4) / extension(47.0, 914.4 + 0.6)
    assert found.correction.far.value == pytest.approx(math.radians(3 / 60) / gain, rel=1e-6)


def test_images_apart_on_a_ruled_target_are_an_angle() -> None:
    """Two millimetres apart on a target 1 m from the film, base line 24 mm before it: 2/976."""
    apart = {
        "target": "1 m",
        "scale": "1 m",
        "apart": "2 mm",
        "measured": "on the target",
        "ring": "towards farther",
    }
    found = solved(pairs="∞ = ∞", rounds=None, apart=[apart]).set_up
    assert found is not None
    (gap,) = (one for one in found.readings if isinstance(one, Apart))
    assert gap.angle.value == pytest.approx(2 / 976, rel=1e-5)
    assert gap.excess.value > 0
    assert found.correction.near.value < 0  # converges too much: the lens is left too far in


@pytest.mark.parametrize(
    ("changed", "typed"),
    [
        ({"rounds": [ROUND | {"far_reads": "∞", "near_reads": "102"}]}, "102"),
        (
            {"apart": [{"target": "1 m", "scale": "102", "apart": "3′", "ring": "towards nearer"}]},
            "102",
        ),
    ],
)
def test_a_bare_figure_far_off_from_its_target_is_asked_about(
    changed: dict[str, Any], typed: str
) -> None:
    """102 for a target at 1 m is neither read as 102 m in a round nor while images stand apart."""
    with pytest.raises(Unreadable, match=f"“{typed}” has no unit and is far off from 1 m: metres"):
        solved(**({"pairs": "∞ = ∞; 1 m = 1", "rounds": None} | changed))


def test_rounds_may_follow_images_that_stood_apart() -> None:
    """However the images stood at first, a round is where they met after it."""
    apart = {"target": "∞", "scale": "∞", "apart": "3", "ring": "towards nearer"}
    found = solved(pairs="1 m = 1", apart=[apart]).set_up
    assert found is not None
    assert len(found.states) == 2


@pytest.mark.parametrize(
    ("typed", "compensator"),
    [
        ({"kind": "turning mirror"}, Mirror()),
        ({"kind": "swung lens", "focal_length": "6 cm"}, SwungLens(60.0)),
        (
            {"kind": "counter-turning wedges", "index": "1,5", "wedge_angle": "30°"},
            CounterWedges(1.5, math.pi / 6),
        ),
        (
            {"kind": "sliding wedge", "deviation": "60'", "focal_length": "60"},
            SlidingWedge(math.pi / 180, 60.0),
        ),
    ],
)
def test_the_compensator_reaches_the_bench(typed: dict[str, str], compensator: Compensator) -> None:
    """Each kind of compensator takes its own figures, in mm and radians."""
    bench = solved(compensator=typed).rangefinder
    assert bench is not None
    assert bench.rangefinder.compensator == compensator


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
