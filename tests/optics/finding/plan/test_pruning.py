"""Steps that gain nothing are left out, and nothing else is."""

from dataclasses import replace

import numpy as np
import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.finding.causes import Adjustment, Cause
from optics.finding.causes.gain import GAIN
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.diagnosis import Diagnosis, Faults, diagnose, usual_priors
from optics.finding.plan import make_plan
from optics.finding.plan.pruning import Drawn, worth_doing
from optics.finding.plan.state import Forecast
from optics.measure.uncertainty import within
from optics.moves import AdjustingScrew, AtHand, Workshop
from optics.moves.gate import GATE
from optics.teaching.practice import Habits, PracticeBench, draw_camera
from tests.by_hand.day import round_of_readings, take_all
from tests.optics.teaching.bench_day import (
    AT_HAND,
    BED,
    CELL,
    FAR_PAIR,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    NEAR_PAIR,
    STOP,
    all_shown,
)

# 58 mm f/2 on a 15 mm lead: 0.2° of the ring is 0.008 mm, the tolerance 0.030 mm.
FAST = Camera("fast", Lens(58.0, 2.0, 0.0), Helicoid(15.0, 5, Turn.CLOCKWISE, 60.0), 0.03)
# Leaves of 0.05 and 0.1 mm cannot take the seat's last hundredth.
COARSE = AtHand(
    Workshop(((0.05, 4), (0.1, 4)), ((0.1, 2),)), AdjustingScrew(0.2), AdjustingScrew(0.2)
)


def moved(cause: Cause, amount: float) -> Adjustment:
    """Give a step that moves one fault and may miss by 0.004 mm."""
    changes = {cause.name: within(amount, 0.004, "hand")}
    return Adjustment(move=GATE, instruction="", settings=(), changes=changes, cause=cause)


def as_found(found: Diagnosis) -> Drawn:
    """Draw the camera as it was found."""
    return Drawn(Forecast(found.left, found.duties, 20_000))


def inside(found: Diagnosis, steps: tuple[Adjustment, ...]) -> float:
    """Draw afresh how probably all is inside after some steps."""
    forecast = Forecast(found.left, found.duties, 40_000, seed=9)
    for step in steps:
        forecast.apply(step)
    return forecast.state().all_inside


def test_a_stop_off_by_a_quarter_of_the_tolerance_is_left() -> None:
    """What a coarse shim leaves at the stop, 0.01 of 0.03 mm, is not worth moving the stop for."""
    readings = (GAUGE, STOP, INFINITY, NEAR)
    hidden = Faults(seat=0.061, ring=0.213)
    found = diagnose(FAST, all_shown(FAST, hidden, readings, limit=0.003))
    plan = make_plan(found, COARSE)
    assert [step.adjustment.cause for step in plan.steps] == [SEAT, RING]
    assert plan.will_conform


def test_a_step_that_only_adds_the_hand_s_error_is_left_out() -> None:
    """Of a step that is needed and one that moves what is right, the first stays."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=-0.2), FULL_ROUND))
    needed, idle = moved(RING, 0.2), moved(THE_STOP, 0.008)
    assert worth_doing(as_found(found), (needed, idle)) == (needed,)
    assert worth_doing(as_found(found), (idle, needed)) == (needed,)


def test_an_error_beyond_half_the_tolerance_is_put_right() -> None:
    """A ring off by 0.6 of its tolerance, surely inside, is still set; by 0.3 it is left."""
    for share, is_set in ((0.6, True), (0.3, False)):
        off = share * HELICOID.allowed_error
        found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=-off), FULL_ROUND, 0.002))
        step = moved(RING, off)
        assert worth_doing(as_found(found), (step,)) == ((step,) if is_set else ())


def test_where_something_else_stays_wrong_the_rest_is_still_put_right() -> None:
    """With a rangefinder that cannot be set, seat and ring are put right all the same."""
    hidden = Faults(seat=-0.1, ring=-0.15, zero=0.3)
    found = diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND))
    plan = make_plan(found, replace(AT_HAND, zero_screw=None, gain_screw=None))
    assert {SEAT, RING} <= {step.adjustment.cause for step in plan.steps}


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_no_step_of_a_plan_could_be_left_out(camera: Camera) -> None:
    """On practice cameras every step gains 0.1 %, or brings an error within half the tolerance."""
    for seed in range(12):
        chance = np.random.default_rng(seed)
        practice = draw_camera(camera, AT_HAND, usual_priors(camera), chance)
        readings = take_all(practice, round_of_readings(camera), PracticeBench(Habits(), chance))
        found = diagnose(camera, readings)
        steps = tuple(s.adjustment for s in make_plan(found, AT_HAND, draws=4000).steps)
        for step in steps:
            rest = tuple(one for one in steps if one is not step)
            assert is_needed(found, steps, rest), (seed, step.instruction)


def is_needed(
    found: Diagnosis, steps: tuple[Adjustment, ...], rest: tuple[Adjustment, ...]
) -> bool:
    """Say whether leaving a step out costs probability, or leaves a half of a tolerance."""
    if inside(found, rest) < inside(found, steps):
        return True
    forecast = Forecast(found.left, found.duties, 4000, seed=9)
    for one in rest:
        forecast.apply(one)
    expected = forecast.state().expected
    return any(abs(e.mean) > 0.45 * e.duty.tolerance for e in expected)


def test_a_screw_that_makes_it_worse_is_not_turned() -> None:
    """A near screw whose eighth of a turn overshoots, 0.025 mm for 0.006, is left alone."""
    readings = (GAUGE, STOP, INFINITY, NEAR, FAR_PAIR, NEAR_PAIR)
    found = diagnose(FAST, all_shown(FAST, Faults(gain=-0.002), readings, limit=0.007))
    eighth = moved(GAIN, 0.025 / FAST.film_side_extension(1200.0))
    assert inside(found, (eighth,)) < inside(found, ()) - 0.01
    assert worth_doing(as_found(found), (eighth,)) == ()


def test_steps_that_only_make_up_for_one_another_are_chosen_afresh() -> None:
    """A seat moved amiss, and stop and ring to make up for it, give way to the ring alone."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=-0.2), FULL_ROUND))
    made = (moved(SEAT, -0.03), moved(THE_STOP, 0.03), moved(RING, 0.23))
    alone = (moved(RING, 0.2),)

    def afresh(left_out: frozenset[Cause]) -> tuple[Adjustment, ...]:
        return alone if SEAT in left_out else made

    assert worth_doing(as_found(found), made) == made
    assert worth_doing(as_found(found), made, afresh) == alone
