"""A rangefinder set up from its readings, on linkages that know none of the formulas."""

import math

import pytest

from optics.camera.camera import Bed, Camera, Lens
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import exact
from optics.rangefinder.acuity import WORKING
from optics.rangefinder.adjusters import AdjusterStep, Done, Stuck, Trial, Which
from optics.rangefinder.coupling import Coupling
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import Coincidence
from optics.rangefinder.set_up import (
    CoupledCamera,
    Round,
    SetUp,
    excess,
    near_advice,
    next_turns,
    set_up,
)
from tests.optics.rangefinder.workshop import HandSet, extension, halved, sight_angle

FOCAL, BASE, BACK, NEAR = 50.0, 40.0, 20.0, 1000.0
CAMERA = Camera("", Lens(FOCAL, 2.0), Bed(), 0.03)
BENCH = CoupledCamera(CAMERA, Rangefinder(BASE, BACK, 0.8), WORKING, NEAR)


def hidden(zero: float, gain: float) -> HandSet:
    """Return a linkage whose adjusters stand so many turns off, with some cross-talk."""
    return HandSet(FOCAL, BASE, BACK, NEAR, (0.3, -0.4), (0.1, 0.5), off=(zero, gain))


def scale_at(error: float, true: float) -> float:
    """Return what the lens scale reads when the lens stands wrongly by an error at a target."""
    stands = extension(FOCAL, true) + error
    if stands <= 0:
        return math.inf
    return halved(lambda subject: extension(FOCAL, subject) - stands, 4 * FOCAL + 1e-9, 1e9)


def read(linkage: HandSet) -> tuple[float, float]:
    """Return the lens scale where the images meet, far and near."""
    far, near = linkage.errors()
    return scale_at(far, math.inf), scale_at(near, NEAR)


def coincidences(far: float, near: float) -> list[Coincidence]:
    """Return the first readings of both targets."""
    targets = ((math.inf, far), (NEAR, near))
    return [Coincidence(exact(true), exact(scale)) for true, scale in targets]


@pytest.mark.parametrize(("zero", "gain"), [(0.9, 0.0), (1.1, 0.3), (0.5, -0.5)])
def test_a_hidden_linkage_is_set_by_the_turns_advised(zero: float, gain: float) -> None:
    """Turning as advised and reading the scale again brings a hidden linkage inside its goal."""
    linkage = hidden(zero, gain)
    readings, rounds = coincidences(*read(linkage)), list[Round]()
    for _ in range(10):
        found = set_up(BENCH, readings, rounds)
        if isinstance(found.advice, Done):
            break
        turned = next_turns(found.advice)
        linkage.turned = linkage.turned + turned
        far, near = read(linkage)
        rounds.append(Round(*turned, exact(far), exact(near)))
    assert isinstance(found.advice, Done)
    assert abs(linkage.errors()).max() <= BENCH.goal.error


def test_first_readings_give_the_error_at_both_ends() -> None:
    """A lens that stands 0.10 and 0.05 mm out when the images meet is found so, with its sense."""
    readings = coincidences(scale_at(0.10, math.inf), scale_at(0.05, NEAR))
    found = set_up(BENCH, readings)
    assert found.correction.far.value == pytest.approx(0.10, abs=1e-5)
    assert found.correction.near.value == pytest.approx(0.05, abs=1e-5)
    (state,) = found.states
    assert (state.far, state.near) == pytest.approx((0.10, 0.05), abs=1e-5)


def test_the_latest_round_is_what_stands_now() -> None:
    """After a round the correction is that of its readings, and what was found stays as found."""
    readings = coincidences(scale_at(0.10, math.inf), scale_at(0.05, NEAR))
    last = Round(0.25, 0.0, exact(scale_at(0.02, math.inf)), exact(scale_at(-0.03, NEAR)))
    found = set_up(BENCH, readings, [last])
    assert found.correction.far.value == pytest.approx(0.02, abs=1e-5)
    assert found.correction.near.value == pytest.approx(-0.03, abs=1e-5)
    assert found.found.film_error(math.inf).value == pytest.approx(0.10, abs=1e-5)


def test_the_farthest_and_the_nearest_target_are_the_two_that_count() -> None:
    """In whatever order readings come, far is the farthest target and near the nearest."""
    middle = Coincidence(exact(3000.0), exact(3000.0))
    near, far = Coincidence(exact(1200.0), exact(1200.0)), Coincidence(exact(5e4), exact(5e4))
    found = set_up(BENCH, [middle, near, far])
    assert (found.far, found.near) == (5e4, 1200.0)


def test_one_distance_alone_gives_no_turns() -> None:
    """With readings at one distance nothing is advised, and rounds are refused with a reason."""
    alone = coincidences(2e4, 1000.0)[:1]
    found: SetUp = set_up(BENCH, alone)
    assert (found.history, found.advice, found.states) == (None, None, ())
    assert (found.far, found.near) == (math.inf, NEAR)
    assert found.found.missing
    with pytest.raises(NoAnswer, match="read a second target"):
        set_up(BENCH, alone, [Round(0.25, 0, exact(3e4), exact(1000.0))])


def test_one_near_reading_leaves_infinity_as_the_far_target() -> None:
    """A reading at the near end alone is held against infinity."""
    found = set_up(BENCH, coincidences(2e4, 1000.0)[1:])
    assert (found.far, found.near) == (math.inf, NEAR)


def test_excess_is_the_angle_by_which_the_sights_converge_too_much() -> None:
    """A coupling that adds a milliradian everywhere converges a milliradian too much."""
    gain = sight_angle(BASE, BACK, NEAR) / extension(FOCAL, NEAR)
    coupling = Coupling(0.001, gain)
    for distance in (math.inf, NEAR):
        assert excess(BENCH, coupling, distance) == pytest.approx(0.001, abs=1e-9)


def test_turns_are_those_of_the_advice() -> None:
    """A trial turns its own adjuster alone, and nothing is turned where nothing is advised."""
    assert next_turns(Trial(Which.ZERO, 0.25)) == (0.25, 0.0)
    assert next_turns(Trial(Which.GAIN, -0.5)) == (0.0, -0.5)
    assert next_turns(Stuck(None)) == next_turns(None) == (0.0, 0.0)


def test_a_range_without_a_near_end_is_refused() -> None:
    """A near end at infinity is no range, and is refused with the quantity."""
    with pytest.raises(OutOfRange, match="near end of the range in use must be finite"):
        CoupledCamera(CAMERA, BENCH.rangefinder, WORKING, math.inf)


def test_near_advice_is_worked_out_once() -> None:
    """The same camera and range are answered from memory, another range anew."""
    assert near_advice(BENCH) is near_advice(
        CoupledCamera(CAMERA, BENCH.rangefinder, WORKING, NEAR)
    )
    assert near_advice(CoupledCamera(CAMERA, BENCH.rangefinder, WORKING, 1500.0)).near == 1500.0


def test_a_step_turns_both() -> None:
    """Once both adjusters are known, the turns of a step are passed on as they are."""
    linkage = hidden(1.1, 0.3)
    readings, rounds = coincidences(*read(linkage)), list[Round]()
    found = set_up(BENCH, readings, rounds)
    while isinstance(found.advice, Trial):
        turned = next_turns(found.advice)
        linkage.turned = linkage.turned + turned
        far, near = read(linkage)
        rounds.append(Round(*turned, exact(far), exact(near)))
        found = set_up(BENCH, readings, rounds)
    assert isinstance(found.advice, AdjusterStep)
    assert next_turns(found.advice) == (found.advice.zero, found.advice.gain)
