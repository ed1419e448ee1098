"""Plans carried out by words alone on cameras built of parts, and what plans say of themselves."""

import math
from dataclasses import replace

import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.camera.where_taken import AT_STOP
from optics.finding.causes import BenchStep
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.plan import make_plan
from optics.measure.uncertainty import exact, within
from optics.moves import AtHand, Workshop
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from tests.optics.readings.simulated_camera import SimulatedCamera, WholeLens
from tests.optics.teaching.bench_day import (
    AT_HAND,
    BED,
    CELL,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    TURNED,
    all_shown,
)

DRAWER = ((0.02, 6), (0.03, 4), (0.05, 6), (0.1, 6), (0.2, 3))


def built(seat: float, start: int, slip: float, right_hand: bool) -> SimulatedCamera:
    """Build a camera of parts: shims wrong, thread entered elsewhere, scale ring slipped."""
    return SimulatedCamera(
        WholeLens(47.0, 0.6),
        18.0,
        6,
        right_hand,
        60.0,
        [0.2, 0.1, 0.1],
        0.4 - seat,
        slip=slip,
        entered=500.0 + 60.0 * start,
    )


def read(parts: SimulatedCamera, thread: Helicoid) -> list[object]:
    """Take what can be read of it: gauge, stop, ∞ mark and a near mark, all by its parts."""
    taken: list[object] = [
        RegisterReading(within(parts.register(), 0.01, "gauge"), exact(60.0 + parts.maker_shims))
    ]
    for at_stop in (True, False):
        slip, parts.slip = parts.slip, 0.0 if at_stop else parts.slip
        angle, sense = parts.turned_until_sharp(math.inf, math.inf)
        parts.slip = slip
        signed = math.radians(angle) * (1 if sense == thread.extends else -1)
        rotation = within(signed, math.radians(0.2), "rotation")
        infinity = exact(math.inf)
        reading = RotationReading(rotation, infinity, infinity)
        taken.append(replace(reading, taken=AT_STOP) if at_stop else reading)
    sharp = parts.sharp_at(1500.0)
    if sharp is not None:
        taken.append(MarkReading(exact(1500.0), within(sharp, 8.0, "distance")))
    return taken


PARTS = [
    (0.1, 0, 0.0),
    (-0.13, 0, 4.0),
    (0.0, 1, 0.0),
    (0.0, -2, -3.0),
    (0.15, 1, 5.0),
    (0.0, 0, -6.0),
    (-0.2, 2, 0.0),
]


@pytest.mark.parametrize("right_hand", [True, False], ids=["right-hand", "left-hand"])
@pytest.mark.parametrize(("seat", "start", "slip"), PARTS)
def test_a_plan_done_by_its_words_puts_a_camera_of_parts_right(
    seat: float, start: int, slip: float, right_hand: bool
) -> None:
    """Seat, start and ring wrong together: the plan's words alone bring all readings inside."""
    thread = Helicoid(18.0, 6, Turn.CLOCKWISE if right_hand else Turn.COUNTER_CLOCKWISE, 52.0)
    camera = Camera("parts", Lens(47.0, 2.8, 0.6), thread, 0.03)
    parts = built(seat, start, slip, right_hand)
    bench = AtHand(Workshop(DRAWER, ((0.2, 1), (0.1, 2))))
    plan = make_plan(diagnose(camera, read(parts, thread)), bench, draws=20_000)  # type: ignore[arg-type]
    assert plan.will_conform
    for step in plan.steps:
        parts.do(step.adjustment.instruction)
    tolerance = camera.allowed_error
    assert abs(parts.true_error()) <= tolerance
    assert abs(sum(parts.leaves) - parts.maker_shims) <= tolerance
    assert parts.sharp_at(1500.0) == pytest.approx(1500.0, abs=1500**2 / 47**2 * tolerance)


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_a_sound_camera_is_left_alone(camera: Camera) -> None:
    """For a camera that reads right everywhere the plan moves nothing and promises it conforms."""
    plan = make_plan(diagnose(camera, all_shown(camera, Faults(), FULL_ROUND)), AT_HAND)
    assert plan.steps == ()
    assert plan.will_conform


def test_steps_come_in_the_order_of_the_bench() -> None:
    """Gate, seat and rangefinder wrong: the plan works them in the order of the bench."""
    hidden = Faults(gate=0.1, seat=-0.1, zero=0.2)
    plan = make_plan(diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND)), AT_HAND)
    steps = [step.bench_step for step in plan.steps]
    assert steps == sorted(steps)
    assert {BenchStep.GATE, BenchStep.INFINITY, BenchStep.RANGEFINDER_ZERO} <= set(steps)
    assert plan.steps[-1].after.all_inside > plan.as_found.all_inside


def test_what_squaring_the_standard_lifts_is_taken_out_again() -> None:
    """Shims under the standard lift the seat, and the next step takes the lift out."""
    hidden = Faults(tilt_x=0.004)
    plan = make_plan(diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND)), AT_HAND)
    causes = [step.adjustment.cause for step in plan.steps]
    assert causes[:2] == [TILT, SEAT]
    assert plan.will_conform


def test_steps_that_were_jumped_are_named() -> None:
    """A plan made without looking at film and standard says that it presumes them right."""
    plan = make_plan(diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1), (STOP, INFINITY))))
    assert plan.jumped == (BenchStep.GATE, BenchStep.STANDARD)


def test_the_way_round_the_seat_has_its_price() -> None:
    """The plan offers to leave the seat, names the register as the price, and keeps the rest."""
    readings = all_shown(HELICOID, Faults(seat=-0.1), FULL_ROUND)
    plan = make_plan(diagnose(HELICOID, readings), AT_HAND)
    (way,) = [a for a in plan.alternatives if a.avoids == (SEAT,)]
    assert SEAT not in {a.cause for a in way.adjustments}
    assert way.inside > 0.95
    assert [duty.words for duty, _ in way.leaves] == ["register"]
    assert way.leaves[0][1] == pytest.approx(-0.1, abs=0.01)


def test_too_coarse_a_reading_promises_nothing_and_asks_for_another() -> None:
    """Readings good to a twentieth of a millimetre promise nothing and name a further reading."""
    readings = all_shown(HELICOID, Faults(ring=0.2), (GAUGE, STOP, INFINITY, NEAR), limit=0.05)
    plan = make_plan(diagnose(HELICOID, readings), AT_HAND)
    assert not plan.will_conform
    assert plan.diagnosis.worth_reading is not None
    before, after = plan.diagnosis.worth_reading.standard
    assert after < before


def test_an_accused_reading_stops_the_promise() -> None:
    """While a reading is accused nothing is promised."""
    readings = list(all_shown(HELICOID, Faults(), FULL_ROUND))
    readings[6] = all_shown(HELICOID, Faults(seat=0.2), FULL_ROUND[6:7])[0]
    plan = make_plan(diagnose(HELICOID, readings), AT_HAND)
    assert plan.diagnosis.outliers
    assert not plan.will_conform


def test_what_cannot_be_done_is_said() -> None:
    """Without the screw's effect the rangefinder's step is blocked, with the trial turn to take."""
    readings = all_shown(HELICOID, Faults(zero=0.2), FULL_ROUND)
    plan = make_plan(
        diagnose(HELICOID, readings), replace(AT_HAND, zero_screw=None, gain_screw=None)
    )
    assert [blocked.cause for blocked in plan.blocked][:1] == [ZERO]
    assert not plan.will_conform


def test_a_wrong_start_is_never_taken_up_by_other_parts() -> None:
    """Two starts out, the plan parts the helicoid and moves nothing else by millimetres."""
    readings = all_shown(HELICOID, Faults(start=-6.0), (GAUGE, STOP, INFINITY, TURNED))
    plan = make_plan(diagnose(HELICOID, readings), AT_HAND)
    assert [step.adjustment.cause for step in plan.steps] == [START]
    assert plan.steps[0].adjustment.changes["start"].value == 6.0
