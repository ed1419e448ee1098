"""A slip in one reading, and sound readings."""

import numpy as np
import pytest

from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.teaching.practice import Habits, PracticeBench, draw_camera
from tests.by_hand.day import round_of_readings, take_all
from tests.optics.teaching.bench_day import (
    AT_HAND,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    TURNED,
    all_shown,
    shown,
)

# The ∞ mark's three readings and the gauge's five check each other.
CHECKED = {"register": 0, "collimator": 6, "near": 9}


@pytest.mark.parametrize("index", CHECKED.values(), ids=CHECKED)
def test_a_slip_is_found(index: int) -> None:
    """A reading that slipped by 0.15 mm is accused, and worst of all, whatever is wrong besides."""
    hidden = Faults(ring=0.12, zero=0.1)
    readings = list(all_shown(HELICOID, hidden, FULL_ROUND))
    slipped = Faults(ring=0.12, zero=0.1, seat=0.15)
    readings[index] = shown(HELICOID, slipped, FULL_ROUND[index])
    found = diagnose(HELICOID, readings)
    assert found.outliers[0].index == index
    assert found.outliers[0].away == pytest.approx(0.15, abs=0.03)
    assert found.claimed == ()


def test_sound_readings_are_rarely_accused() -> None:
    """Of three hundred sound rounds of readings no more than nine accuse any reading."""
    priors, accused = usual_priors(HELICOID), 0
    for seed in range(300):
        chance = np.random.default_rng(seed)
        practice = draw_camera(HELICOID, AT_HAND, priors, chance)
        readings = take_all(practice, round_of_readings(HELICOID), PracticeBench(Habits(), chance))
        accused += bool(diagnose(HELICOID, readings).outliers)
    assert accused <= 9


def test_the_one_reading_at_the_stop_is_not_accused() -> None:
    """A stop far out of place is a likely cause, so its one reading is believed."""
    hidden = Faults(stop=0.3)
    assert diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND)).outliers == ()


def test_a_single_reading_cannot_be_accused() -> None:
    """One reading by itself has nothing to contradict it."""
    assert diagnose(HELICOID, all_shown(HELICOID, Faults(seat=2.0), (INFINITY,))).outliers == ()


APART = [(0.0, 0.10), (0.05, -0.05), (0.2, 0.3)]


@pytest.mark.parametrize("rest", [(), (GAUGE, NEAR), FULL_ROUND], ids=["alone", "few", "round"])
@pytest.mark.parametrize("stops", APART)
def test_two_readings_of_the_stop_that_part_are_accused(
    stops: tuple[float, float], rest: tuple[object, ...]
) -> None:
    """Two readings of the stop 0.1 mm apart contradict each other, whatever else was read."""
    twice = [shown(HELICOID, Faults(stop=s), STOP) for s in stops]
    others = [r for r in rest if r is not STOP]
    found = diagnose(HELICOID, (*twice, *all_shown(HELICOID, Faults(ring=-0.2), others)))
    assert [one.pair for one in found.contradictions][:1] == [(0, 1)]
    assert found.contradictions[0].apart == pytest.approx(0.10, abs=0.002)
    assert found.is_accused
    assert found.claimed == ()


@pytest.mark.parametrize("stops", APART)
def test_no_cause_is_made_up_to_bring_them_together(stops: tuple[float, float]) -> None:
    """With the contradiction the true causes still come first and nobody else is accused."""
    hidden = Faults(seat=0.06, ring=-0.2, stop=stops[0])
    rest = [r for r in FULL_ROUND if r is not STOP]
    twice = [shown(HELICOID, Faults(seat=0.06, stop=s), STOP) for s in stops]
    found = diagnose(HELICOID, (*all_shown(HELICOID, hidden, rest), *twice))
    assert {SEAT, RING} <= found.leading.causes <= {SEAT, RING, THE_STOP}
    assert found.outliers == ()


def test_readings_of_one_thing_within_their_scatter_are_not_accused() -> None:
    """Of three hundred sound rounds with gauge, stop and a mark read twice at most nine accuse."""
    priors, accused = usual_priors(HELICOID), 0
    wanted = round_of_readings(HELICOID)
    for seed in range(300):
        chance = np.random.default_rng(seed)
        practice = draw_camera(HELICOID, AT_HAND, priors, chance)
        readings = take_all(
            practice, (*wanted, wanted[0], *wanted[5:7]), PracticeBench(Habits(), chance)
        )
        accused += bool(diagnose(HELICOID, readings).contradictions)
    assert accused <= 9


def test_two_instruments_at_one_mark_need_only_agree_as_far_as_the_lens_lets_them() -> None:
    """A lens of another focal length parts collimator and target at one mark, and is believed."""
    hidden = Faults(focal=1.2, ring=-0.4)
    found = diagnose(HELICOID, all_shown(HELICOID, hidden, (*FULL_ROUND, TURNED)))
    assert found.contradictions == ()
