"""Readings of practice cameras scatter as their stated uncertainties say."""

import numpy as np
import pytest

from optics.camera.camera import Camera
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.finding.diagnosis.sensitivity import Straight
from optics.finding.plan import make_plan
from optics.teaching.practice import Habits, PracticeBench, PracticeCamera, draw_camera
from tests.by_hand.day import round_of_readings, take_all
from tests.by_hand.hands import Hands
from tests.optics.teaching.bench_day import AT_HAND, BED, CELL, HELICOID


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_readings_scatter_as_they_say(camera: Camera) -> None:
    """Over two hundred days each reading holds the truth within its U in about 95 in a hundred."""
    practice = PracticeCamera(camera, Faults(ring=-0.1, zero=0.05), AT_HAND)
    away = []
    for seed in range(200):
        bench = PracticeBench(Habits(), np.random.default_rng(seed))
        readings = take_all(practice, round_of_readings(camera), bench)
        right = Straight.of(camera, readings).errors(practice.hidden.vector)
        errors = [reading.steps(camera)[-1].result for reading in readings]
        away.append([(e.value - r) / e.expanded for e, r in zip(errors, right, strict=True)])
    held = (np.abs(away) <= 1).mean(axis=0)
    # Of two hundred, five per cent is ten, give or take nine; even limits never miss.
    assert held.min() > 0.905
    assert held.mean() < 0.99
    assert np.abs(np.median(away, axis=0)).max() < 0.2


def test_what_cannot_be_read_is_left_out() -> None:
    """With the lens far too far in, the near marks and the rangefinder's far pair are left out."""
    practice = PracticeCamera(HELICOID, Faults(start=-6.0), AT_HAND)
    bench = PracticeBench(Habits(), np.random.default_rng(1))
    kinds = [r.kind for r in take_all(practice, round_of_readings(HELICOID), bench)]
    assert "mark" not in kinds
    assert kinds.count("rotation") == 3


def test_the_same_seed_is_the_same_day() -> None:
    """A seed draws the same camera and the same readings again."""
    days = []
    for _ in range(2):
        chance = np.random.default_rng(7)
        practice = draw_camera(HELICOID, AT_HAND, usual_priors(HELICOID), chance)
        readings = take_all(practice, round_of_readings(HELICOID), PracticeBench(Habits(), chance))
        days.append((practice.hidden, [r.steps(HELICOID)[-1].result.value for r in readings]))
    assert days[0] == days[1]


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_promises_are_kept_on_practice_cameras(camera: Camera) -> None:
    """Of forty practice cameras nearly all are promised to conform, and those all do."""
    promised = kept = 0
    for seed in range(40):
        chance = np.random.default_rng(1000 + seed)
        practice = draw_camera(camera, AT_HAND, usual_priors(camera), chance)
        readings = take_all(practice, round_of_readings(camera), PracticeBench(Habits(), chance))
        plan = make_plan(diagnose(camera, readings), AT_HAND, draws=4000)
        if not plan.will_conform:
            continue
        promised += 1
        for step in plan.steps:
            practice = Hands(chance).carry_out(practice, step.adjustment)
        errors = [d.row @ practice.hidden.vector / d.tolerance for d in plan.diagnosis.duties]
        kept += bool(np.abs(errors).max() <= 1.0)
    assert promised >= 34
    assert kept == promised
