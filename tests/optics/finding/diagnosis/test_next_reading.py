"""What a further reading is expected to bring, against taking it a thousand times."""

import math

import numpy as np
import pytest

from optics.finding.causes.seat import SEAT
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.diagnosis.next_reading import Gain
from optics.measure.uncertainty import Estimate, Source
from optics.readings.candidates import Candidate
from optics.readings.kinds.registry import usual_candidates
from tests.optics.teaching.bench_day import (
    BED,
    CELL,
    FAR_PAIR,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    INFINITY_FILM,
    NEAR,
    STOP,
    all_shown,
    showing,
)

LIMIT = 0.006


def test_gauge_or_stop_is_named_where_seat_and_ring_look_alike() -> None:
    """Where seat and ring cannot be told apart, gauge and stop would tell most, marks nothing."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1), (INFINITY, NEAR)))
    offered = [
        Candidate("gauge", GAUGE, LIMIT),
        Candidate("stop", STOP, LIMIT),
        Candidate("again", INFINITY, LIMIT),
    ]
    gains = {g.candidate.words: g for g in found.next_readings(offered)}
    assert list(gains)[-1] == "again"
    now, after = gains["gauge"].wrong_cause
    assert now > 0.3
    assert after < now / 3
    assert gains["again"].wrong_cause[1] == pytest.approx(now, abs=0.02)


def test_the_expected_gain_is_the_mean_of_what_happens() -> None:
    """Taking the reading on cameras drawn from what remains gives the risk that was foretold."""
    readings = all_shown(HELICOID, Faults(ring=0.1), (INFINITY, NEAR))
    found = diagnose(HELICOID, readings)
    (gain,) = found.next_readings([Candidate("gauge", GAUGE, LIMIT)])
    chance = np.random.default_rng(1)
    seat = found.left.draws(np.eye(10)[:1], 400, seed=2)[0]
    risks = []
    for value in seat + chance.normal(0, LIMIT, len(seat)):
        figure = Estimate(60.0 + float(value), {Source("gauge"): LIMIT})
        again = diagnose(HELICOID, (*readings, showing(GAUGE, figure)))
        risks.append(1 - again.probability)
    assert np.mean(risks) == pytest.approx(gain.wrong_cause[1], abs=0.03)


def test_a_second_like_reading_brings_what_two_bring() -> None:
    """For a figure known by one reading alone, a second like it divides its variance by two."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(seat=0.3), (GAUGE,), limit=0.01))
    (gain,) = found.next_readings([Candidate("again", GAUGE, 0.01)])
    before, after = gain.standard
    assert before == pytest.approx(0.01, rel=0.03)
    assert after == pytest.approx(0.01 / math.sqrt(2), rel=0.03)


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_the_usual_readings_are_offered_for_every_camera(camera: object) -> None:
    """Gauge, stop, marks, film and rangefinder are offered, each good for a stated amount."""
    offered = usual_candidates(camera)  # type: ignore[arg-type]
    assert len(offered) >= 7
    assert all(0 < c.standard < 0.1 for c in offered)
    assert SEAT in diagnose(camera, all_shown(camera, Faults(), (GAUGE,))).possible  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("standard", "wrong", "is_worth_it"),
    [
        ((0.007, 0.006), (0.02, 0.02), False),
        ((0.010, 0.0081), (0.04, 0.0), False),
        ((0.010, 0.0079), (0.02, 0.02), True),
        ((0.007, 0.007), (0.44, 0.07), True),
    ],
)
def test_a_further_reading_must_be_worth_its_while(
    standard: tuple[float, float], wrong: tuple[float, float], is_worth_it: bool
) -> None:
    """A fifth of the uncertainty, or a twentieth of the risk, is what a reading must take away."""
    gain = Gain(Candidate("gauge", GAUGE, LIMIT), standard, wrong)
    assert gain.is_worth_it is is_worth_it


def test_where_all_is_told_no_reading_is_worth_it() -> None:
    """A plain fault read all round to a few micrometres leaves no reading to be offered."""
    readings = all_shown(HELICOID, Faults(ring=-0.2), FULL_ROUND, limit=0.003)
    assert diagnose(HELICOID, readings).worth_reading is None


def test_a_repeat_is_worded_as_one() -> None:
    """What was read already is offered again, by its place, surface and target; the rest is new."""
    seen = all_shown(HELICOID, Faults(ring=-0.1), (GAUGE, NEAR, INFINITY_FILM, FAR_PAIR))
    offered = {g.candidate.words for g in diagnose(HELICOID, seen).next_readings()}
    assert offered == {
        "the register gauged again from the lens seat",
        "a reading at the infinity stop",
        "a reading at the ∞ mark",
        "a reading at a near mark again",
        "a film test at the ∞ mark again",
        "the film gate gauged",
        "a reading in a corner of the frame",
        "the rangefinder on a far target again",
        "the rangefinder on a near target",
    }
