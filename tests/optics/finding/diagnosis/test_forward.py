"""What readings show on a faulty camera, against parts placed by numbers and rays."""

import math
from dataclasses import dataclass

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.camera.where_taken import AT_STOP, Taken
from optics.finding.diagnosis import Faults, predict
from optics.measure.uncertainty import exact
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.kinds.ruler import RulerReading
from tests.optics.readings.simulated_camera import FrontCellLens, SimulatedCamera, WholeLens, halved
from tests.optics.teaching.bench_day import (
    BED,
    CELL,
    CORNERS,
    FAR_PAIR,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    INFINITY_FILM,
    MIDDLE,
    NEAR,
    NEAR_PAIR,
    RULER,
    STOP,
    TURNED,
    shown,
)

quick = settings(max_examples=60, deadline=None)
tenths = st.floats(-0.4, 0.4)
LEAD, STARTS = 18.0, 6


@dataclass
class Misengraved(SimulatedCamera):
    """A simulated camera whose scale was engraved for another lens than it carries."""

    marked: WholeLens | FrontCellLens | None = None

    def engraved(self, distance: float) -> float:
        """Return the angle at which a distance is engraved for the marked lens."""
        assert self.marked is not None
        right = SimulatedCamera(self.marked, self.lead, self.starts, self.right_hand, 60.0, [], 0.0)
        return right.engraved(distance)


def simulated(faults: Faults, marked: WholeLens, hiatus: float = 0.0) -> Misengraved:
    """Build the camera of parts that has these faults, its ring 52 turned by hand."""
    lens = WholeLens(marked.focal_length + faults["focal"], hiatus)
    entered = 500.0 - faults["start"] / LEAD * 360
    return Misengraved(
        lens,
        LEAD,
        STARTS,
        True,
        60.0,
        [faults["seat"]],
        0.0,
        slip=faults["ring"] / LEAD * 360,
        entered=entered,
        marked=marked,
    )


def camera_of(focal_length: float, hiatus: float) -> Camera:
    """Give the like camera as the bench describes it."""
    thread = Helicoid(LEAD, STARTS, Turn.CLOCKWISE)
    return Camera("", Lens(focal_length, 4.0, hiatus), thread, 0.05)


@quick
@given(tenths, st.sampled_from((-3.0, 0.0, 3.0)), tenths, st.floats(-1, 1), st.floats(-2, 3))
def test_lens_readings_show_what_placed_parts_show(
    seat: float, start: float, ring: float, focal: float, hiatus: float
) -> None:
    """Mark, rotation and collimator readings are those of a lens placed by its parts."""
    faults = Faults(seat=seat, start=start, ring=ring, focal=focal)
    camera, parts = camera_of(50.0, hiatus), simulated(faults, WholeLens(50.0, hiatus), hiatus)
    for mark, target in ((math.inf, math.inf), (3000.0, 2500.0)):
        turned = RotationReading(exact(0.0), exact(target), exact(mark))
        angle, sense = parts.turned_until_sharp(mark, target)
        expected = math.radians(angle) * (1 if sense == "clockwise" else -1)
        assert predict(camera, faults, turned) == pytest.approx(expected, abs=1e-7)
    amount, side = parts.reticle_shift(400.0, 60.0)
    looked = CollimatorReading(exact(0.0), exact(400.0), to_lens=exact(60.0))
    shift = predict(camera, faults, looked)
    assert shift == pytest.approx(amount * (1 if side == "its lens" else -1), abs=1e-5)
    sharp = parts.sharp_at(1500.0)
    assume(sharp is not None)
    marked = MarkReading(exact(1500.0), exact(1500.0))
    assert predict(camera, faults, marked) == pytest.approx(sharp, rel=1e-7)
    place = parts.ruler_offset(1500.0, 1500.0, 0.7)
    assert place is not None
    ruler = RulerReading(exact(1500.0), exact(0.0), exact(0.7), exact(1500.0))
    expected = place[0] * (1 if place[1] == "nearer" else -1)
    assert predict(camera, faults, ruler) == pytest.approx(expected, abs=1e-3)


@quick
@given(tenths, tenths, tenths)
def test_the_stop_is_reached_whatever_the_ring_says(seat: float, ring: float, stop: float) -> None:
    """A reading at the stop is that of a lens turned to where the stop holds its barrel."""
    camera = camera_of(50.0, 0.0)
    against = simulated(Faults(seat=seat, ring=stop), WholeLens(50.0, 0.0))
    angle, sense = against.turned_until_sharp(math.inf, math.inf)
    expected = math.radians(angle) * (1 if sense == "clockwise" else -1)
    reading = RotationReading(exact(0.0), exact(math.inf), exact(math.inf), AT_STOP)
    faults = Faults(seat=seat, ring=ring, stop=stop)
    assert predict(camera, faults, reading) == pytest.approx(expected, abs=1e-9)


@quick
@given(st.floats(-0.1, 0.1), st.floats(-0.5, 0.5))
def test_a_front_cell_of_another_power_shows_at_near_marks(ring: float, focal: float) -> None:
    """With a front group of another focal length the sharp distance is that of placed groups."""
    marked = FrontCellLens(front=51.0, rear=60.0, gap=8.0)
    true = FrontCellLens(front=51.0 + focal, rear=60.0, gap=8.0 + focal)
    cell = FrontCell(51.0, 9.0, Turn.CLOCKWISE, marked.home + marked.gap)
    camera = Camera("", Lens(marked.focal_length, 4.0), cell, 0.05)
    factor = (marked.focal_length / 51.0) ** 2
    parts = Misengraved(
        true, 9.0, 1, True, 60.0, [], 0.0, slip=ring / factor / 9.0 * 360, marked=marked
    )
    expected = parts.sharp_at(1500.0)
    assert expected is not None
    found = predict(camera, Faults(ring=ring, focal=focal), NEAR)
    assert found == pytest.approx(expected, rel=2e-4)


def test_the_gauge_reads_the_seat_alone() -> None:
    """A seat 0.1 mm low and tilted 0.002 to the right gauges 59.9 in the middle, 59.932 there."""
    faults = Faults(seat=-0.1, start=3.0, ring=0.2, stop=0.3, focal=0.5, tilt_x=0.002, zero=0.1)
    right = RegisterReading(exact(60.0), exact(60.0), Taken(place=(16.0, 0.0)))
    assert predict(HELICOID, faults, GAUGE) == pytest.approx(59.9)
    assert predict(HELICOID, faults, right) == pytest.approx(59.932)


def test_film_farther_from_the_lens_reads_too_far_out_by_less() -> None:
    """Film 0.05 mm behind the glass makes a lens that is right for the glass too far out."""
    # By hand: a collimator of 400 mm shows 0.05·(400/47)² = 3.62 mm of reticle, 447 mm off.
    assert predict(HELICOID, Faults(gate=0.05), INFINITY) == 0.0
    shift = predict(HELICOID, Faults(gate=0.05), INFINITY_FILM)
    assert shift == pytest.approx(3.62, abs=0.005)


@quick
@given(st.floats(-0.2, 0.2), st.floats(-0.05, 0.05), tenths, st.sampled_from((1200.0, 12000.0)))
def test_the_rangefinder_meets_at_one_place_of_the_lens(
    zero: float, gain: float, ring: float, target: float
) -> None:
    """The ring's setting at coincidence is where it holds the lens at the coupling's place."""
    # Found by halving: the extension that puts the target's image on the film.
    parts = SimulatedCamera(WholeLens(47.0, 0.6), LEAD, STARTS, True, 60.0, [], 0.0)
    called = LEAD / 360 * halved(lambda a: parts.fault(target, a), 0.0, parts.farthest_turn)
    ring_says = called * (1 + gain) + zero - ring
    assume(ring_says > 0.01)
    expected = halved(
        lambda inverse: parts.fault(1 / inverse, ring_says * 360 / LEAD), 1e-9, 1 / 300
    )
    reading = NEAR_PAIR if target < 5000 else FAR_PAIR
    found = predict(HELICOID, Faults(zero=zero, gain=gain, ring=ring), reading)
    assert found == pytest.approx(1 / expected, rel=1e-6)


SMALL = Faults(seat=0.03, ring=0.05, stop=0.02, focal=0.1, tilt_x=1e-3, gate=0.02, zero=0.04)


# A bed has no ring to turn.
ON_CAMERAS = [
    (camera, reading)
    for camera in (HELICOID, CELL, BED)
    for reading in (*FULL_ROUND, TURNED)
    if not (camera is BED and reading is TURNED)
]


@pytest.mark.parametrize(("camera", "reading"), ON_CAMERAS)
def test_a_reading_of_a_predicted_figure_gives_the_faults_back(
    camera: Camera, reading: object
) -> None:
    """A predicted figure, worked out by the reading's own steps, is the sum of its faults."""
    direct = {
        id(GAUGE): 0.03,
        id(STOP): 0.05,
        id(INFINITY): 0.08,
        id(INFINITY_FILM): 0.10,
        id(TURNED): 0.08,
        id(FAR_PAIR): 0.04 - 0.08,
        id(NEAR_PAIR): 0.04 - 0.08,
    }
    error = shown(camera, SMALL, reading).steps(camera)[-1].result.value
    if id(reading) in direct:
        # The collimator's reading alone is shrunk by (f/f')² of a lens a fifth per cent longer.
        assert error == pytest.approx(direct[id(reading)], rel=5e-3)
    elif reading in CORNERS:
        x, _ = reading.taken.place  # type: ignore[attr-defined]
        assert error == pytest.approx(0.03 + 1e-3 * x)
    else:
        base = 0.10 if reading is RULER else 0.08
        near = {id(MIDDLE): 4000.0}.get(id(reading), 1500.0)
        # A longer lens wants 2f·δ/D more, to first order in f/D; a front cell f/f₁ times that.
        behind = 75.0 / 51.0 if camera is CELL else 1.0
        loss = 2 * camera.lens.focal_length * 0.1 / near * behind
        assert error == pytest.approx(base - loss, abs=0.5 * loss)


def test_inside_infinity_nothing_is_sharp() -> None:
    """A lens inside its infinity focus is refused a sharp distance in words."""
    reading = MarkReading(exact(math.inf), exact(math.inf))
    with pytest.raises(ValueError, match=r"^Nothing is sharp with the lens inside its infinity"):
        predict(HELICOID, Faults(seat=-0.1), reading)


def test_a_bed_has_no_ring_to_turn() -> None:
    """A rotation reading on a bed is refused in words."""
    with pytest.raises(ValueError, match=r"^A lens that slides on a bed or struts has no ring"):
        predict(BED, Faults(), TURNED)
