"""Readings on a traced camera: right where nothing is unknown, off by what is."""

import math
from dataclasses import replace

import numpy as np
import pytest

from optics.world.bench import COLLIMATOR, FAR, SLIDE, STEADY, Bench, Habits
from optics.world.build import Build, Faults, Unmodelled
from optics.world.camera import TracedCamera
from optics.world.coupling import Coupling
from optics.world.draw import BUILDS
from optics.world.prescriptions import TRIPLET
from optics.world.trace import Seen

FINDER = Coupling(41.0, 24.0, 0.6, 1000.0, joined="cam")
BUILD = Build(
    "Ostrin 35", TRIPLET, "helicoid", 50.0, 4.0, 0.03, (36.0, 24.0), (3000.0, 1000.0), 12.0, 6,
    FINDER,
)  # fmt: skip
NARROW = replace(BUILD, f_number=2e5)


def bench(
    faults: Faults = Faults(),  # noqa: B008
    hidden: Unmodelled = Unmodelled(),  # noqa: B008
    habits: Habits = STEADY,
    build: Build = BUILD,
    tape: float = 0.0,
) -> Bench:
    """A bench with one camera on it."""
    return Bench(TracedCamera(build, faults, hidden), habits, np.random.default_rng(5), tape)


def test_the_gauge_tells_seat_and_lean() -> None:
    """A seat 0.1 mm too thick that leans by 0.002 reads 0.14 mm more at 20 mm to the right."""
    (found,) = bench(Faults(seat=0.1, tilt=(0.002, 0.0))).gauged((20.0, 0.0), 41.1)
    assert found == pytest.approx(41.24, abs=1e-9)


def test_the_gauge_is_off_by_what_was_published() -> None:
    """With a register published 0.01 mm too long a right seat reads as much too little."""
    (found,) = bench(hidden=Unmodelled(register=0.01)).gauged((0.0, 0.0), 41.1)
    assert found == pytest.approx(41.09, abs=1e-9)


def test_the_reticle_goes_by_the_square_of_focal_lengths() -> None:
    """With the focal points together a lens 0.1 mm out sends it by 0.1·(f_c/f)² exactly."""
    # Newton: the collimator stands f + f_c from the lens's front principal plane.
    camera = TracedCamera(NARROW)
    front, _ = camera.lens.glass.principal_planes
    hidden = Unmodelled(collimator=COLLIMATOR + 50.0 - front)
    at = bench(Faults(ring=0.1), hidden, build=NARROW)
    found = at.reticle(lambda missed: at.camera.at_mark(math.inf, missed))
    assert found == pytest.approx([0.1 * (COLLIMATOR / 50.0) ** 2], rel=1e-6)


def test_close_up_the_plain_rule_is_some_tenth_off() -> None:
    """60 mm before a lens of 50 mm, 28 mm of reticle are 9 % less than the plain rule asks."""
    # The figure of 9 % is an earlier trace of a collimator of real glass, 310 mm long.
    camera = TracedCamera(NARROW)
    front, _ = camera.lens.glass.principal_planes
    at = bench(Faults(ring=0.8), Unmodelled(collimator=60.0 - front), build=NARROW)
    (found,) = at.reticle(lambda missed: at.camera.at_mark(math.inf, missed)) or [math.nan]
    assert found == pytest.approx(28.0, abs=0.2)
    assert (50.0 / COLLIMATOR) ** 2 * found / 0.8 == pytest.approx(0.91, abs=0.005)


def test_a_reticle_beyond_its_slide_is_no_reading() -> None:
    """A lens on a wrong start is beyond the slide and has to be turned."""
    at = bench(Faults(starts=1))
    assert at.reticle(at.camera.at_stop) is None
    assert SLIDE == 40.0


def test_the_ground_glass_stands_where_nobody_told() -> None:
    """Glass 0.03 mm behind the rails makes a right lens look 0.03 mm too far out."""
    at = bench(hidden=Unmodelled(glass=0.03))
    on_glass = at.reticle(at.camera.at_stop) or [math.nan]
    on_film = at.reticle(at.camera.at_stop, on_film=True) or [math.nan]
    other = bench(Faults(stop=0.03))
    assert on_glass == pytest.approx(other.reticle(other.camera.at_stop) or [math.nan], rel=1e-6)
    assert on_film == pytest.approx([0.0], abs=1e-6)


def test_an_eye_that_stops_down_sees_focus_shift() -> None:
    """Through f/5.6 the triplet's right lens looks 0.041 mm too far in."""
    at = bench(hidden=Unmodelled(eye=Seen(4 * 2**0.5)))
    shift = (at.reticle(at.camera.at_stop) or [math.nan])[0]
    assert shift * (50 / COLLIMATOR) ** 2 == pytest.approx(-0.041, rel=0.2)


def test_turning_tells_the_thread() -> None:
    """A stop 0.1 mm too far in takes 0.1/12 of a turn out, 3.0°; the target's distance less."""
    at = bench(Faults(stop=-0.1))
    (found,) = at.turned(at.camera.at_stop)
    # A far chimney still asks for f²/D.
    assert 12 * found / math.tau == pytest.approx(0.1 + 50**2 / FAR, abs=1e-4)


def test_a_mark_is_sharp_elsewhere_and_taped_from_elsewhere() -> None:
    """A ring 0.05 mm out is sharp at 984 mm for 1 m, and a tape begun 60 mm ahead says 924."""
    for tape, expected in [(0.0, 984.1), (60.0, 924.1)]:
        at = bench(Faults(ring=0.05), tape=tape)
        (found,) = at.sharp(lambda missed: at.camera.at_mark(1000.0, missed)) or [math.nan]  # noqa: B023
        # Newton, the lens 2.7802 + 0.05 mm out: 100 − 2.047 + 2.830 + 2500/2.830.
        assert found == pytest.approx(expected, abs=0.3)


def test_a_slanting_ruler_tells_the_film() -> None:
    """On a ruler at 45° the same lens is sharp √2 times as far along it as before the film."""
    at = bench(Faults(ring=0.05))
    stand = at.camera.at_mark(1000.0)
    (found,) = at.along_ruler(stand, 1000.0) or [math.nan]
    sharp = at.camera.lens.sharp_at(stand)
    assert found == pytest.approx((1000.0 - sharp) * 2**0.5, rel=1e-9)
    moved = bench(Faults(gate=0.05))
    (other,) = moved.along_ruler(moved.camera.at_mark(1000.0), 1000.0) or [math.nan]
    assert other == pytest.approx(found, rel=0.02)


def test_the_finder_is_read_on_the_ring() -> None:
    """A right finder shows each target's distance; one out of range shows nothing."""
    at = bench()
    assert at.met(3000.0) == pytest.approx([3000.0], rel=1e-6)
    assert at.met(1000.0) == pytest.approx([1000.0], rel=1e-6)
    assert bench(Faults(zero=-0.2)).met(math.inf) is None
    assert bench(build=BUILDS[3]).met(3000.0) is None


def test_lost_motion_scatters_what_comes_from_either_side() -> None:
    """From one side lost motion shifts all tries alike, from either it parts them by its whole."""
    tries = replace(STEADY, tries=12)
    for one_side, parted in [(True, 0.0), (False, 0.03)]:
        at = bench(hidden=Unmodelled(lost=0.03, one_side=one_side), habits=tries)
        found = at.turned(at.camera.at_stop)
        assert 12 * np.ptp(found) / math.tau == pytest.approx(parted, abs=1e-6)


def test_tries_scatter_by_the_eyes_blur() -> None:
    """Many tries spread by N·c/4 over √3 at the film, as the usual eye sees."""
    at = bench(habits=replace(STEADY, tries=2000, eye=0.25))
    found = np.array(at.turned(at.camera.at_stop))
    spread = float(found.std()) * 12 / math.tau
    assert spread == pytest.approx(0.25 * 4 * 0.03 / 3**0.5, rel=0.06)
