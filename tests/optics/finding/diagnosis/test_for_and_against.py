"""Which readings speak for a cause, and which against it."""

import numpy as np
import pytest

from optics.camera.camera import Camera
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.causes.tilt import TILT
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.finding.diagnosis.for_and_against import for_and_against
from optics.teaching.practice import Habits, PracticeBench, draw_camera
from tests.by_hand.day import round_of_readings, take_all
from tests.optics.teaching.bench_day import (
    AT_HAND,
    BED,
    CELL,
    CORNERS,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    all_shown,
    shown,
)


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_nothing_read_stands_on_both_sides(camera: Camera) -> None:
    """On forty practice cameras nothing that was read speaks both for and against one cause."""
    for seed in range(40):
        chance = np.random.default_rng(seed)
        practice = draw_camera(camera, AT_HAND, usual_priors(camera), chance)
        wanted = round_of_readings(camera)
        found = diagnose(
            camera, take_all(practice, (*wanted, *wanted[:7]), PracticeBench(Habits(), chance))
        )
        for cause in found.possible:
            said = for_and_against(found, cause)
            sides = [{r.thing for r in side} for side in (said.for_it, said.against)]
            assert not sides[0] & sides[1]


def test_a_lean_is_not_disproved_by_the_corners_on_its_axis() -> None:
    """A standard that leans about a diagonal has two corners for it and none against it."""
    leaning = Faults(tilt_x=0.003, tilt_y=0.003 * 16 / 11)
    found = diagnose(HELICOID, all_shown(HELICOID, leaning, (GAUGE, *CORNERS)))
    said = for_and_against(found, TILT)
    assert {r.taken.place for r in said.for_it} == {(16.0, 11.0), (-16.0, -11.0)}
    assert said.against == ()


def test_readings_of_one_thing_that_part_are_named_as_divided() -> None:
    """A stop read as moved once and as right once speaks neither for nor against the stop."""
    away, right = (shown(HELICOID, Faults(stop=s), STOP, 0.03) for s in (0.10, 0.0))
    rest = all_shown(HELICOID, Faults(), (GAUGE, INFINITY, NEAR))
    found = diagnose(
        HELICOID, (*rest, away, right), usual_priors(HELICOID).changed(THE_STOP, chance=0.5)
    )
    assert found.contradictions == ()
    said = for_and_against(found, THE_STOP)
    assert [r.thing for r in said.divided] == [STOP.thing]
    assert said.for_it == said.against == ()


def test_what_the_other_causes_account_for_speaks_against() -> None:
    """A ring 0.3 mm off accounts for the near mark, which speaks against the focal length."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=-0.3), FULL_ROUND))
    said = for_and_against(found, FOCAL)
    assert said.for_it == ()
    assert NEAR.thing in [r.thing for r in said.against]
