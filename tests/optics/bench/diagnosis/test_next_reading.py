"""What a further reading is expected to bring, against taking it a thousand times."""

import math

import numpy as np
import pytest

from optics.bench.diagnosis import Cause, Faults, diagnose
from optics.bench.diagnosis.next_reading import Candidate, usual_candidates
from optics.bench.uncertainty import Estimate, Source
from tests.optics.bench.bench_day import (
    BED,
    CELL,
    GAUGE,
    HELICOID,
    INFINITY,
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
        Candidate("gauge", GAUGE, LIMIT), Candidate("stop", STOP, LIMIT),
        Candidate("again", INFINITY, LIMIT),
    ]  # fmt: skip
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
    assert Cause.SEAT in diagnose(camera, all_shown(camera, Faults(), (GAUGE,))).possible  # type: ignore[arg-type]
