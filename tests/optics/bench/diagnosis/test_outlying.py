"""A slip in one reading, and sound readings."""

import numpy as np
import pytest

from optics.bench.diagnosis import Faults, diagnose, usual_priors
from optics.bench.practice import Bench, Habits, draw_camera, round_of_readings, take_all
from tests.optics.bench.bench_day import (
    AT_HAND,
    FULL_ROUND,
    HELICOID,
    INFINITY,
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
        readings = take_all(practice, round_of_readings(HELICOID), Bench(Habits(), chance))
        accused += bool(diagnose(HELICOID, readings).outliers)
    assert accused <= 9


def test_the_one_reading_at_the_stop_is_not_accused() -> None:
    """A stop far out of place is a likely cause, so its one reading is believed."""
    hidden = Faults(stop=0.3)
    assert diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND)).outliers == ()


def test_a_single_reading_cannot_be_accused() -> None:
    """One reading by itself has nothing to contradict it."""
    assert diagnose(HELICOID, all_shown(HELICOID, Faults(seat=2.0), (INFINITY,))).outliers == ()
