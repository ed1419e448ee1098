"""The usual way: what it mends, and what it never looks at."""

import numpy as np
import pytest

from optics.finding.diagnosis import Faults, usual_priors
from optics.teaching.practice import PracticeCamera, draw_camera
from tests.by_hand.trial import MOST_ROUNDS, trial_and_error
from tests.optics.teaching.bench_day import AT_HAND, BED, CELL, HELICOID


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_ring_and_rangefinder_come_right_by_trial(camera: object) -> None:
    """A slipped ring with the rangefinder off nearly always comes inside by eye."""
    kept = []
    for seed in range(40):
        practice = PracticeCamera(camera, Faults(ring=0.3, zero=0.2), AT_HAND)  # type: ignore[arg-type]
        left = trial_and_error(practice, np.random.default_rng(seed))
        kept.append(abs(left.practice.hidden["ring"]) <= practice.camera.allowed_error)
        assert 2 <= left.rounds <= MOST_ROUNDS
    assert np.mean(kept) > 0.85


def test_a_wrong_start_is_entered_again() -> None:
    """A lens two starts out is brought back by whole starts."""
    practice = PracticeCamera(HELICOID, Faults(start=-6.0), AT_HAND)
    left = trial_and_error(practice, np.random.default_rng(1)).practice.hidden
    assert left["start"] == 0.0


def test_what_is_never_looked_at_stays_wrong() -> None:
    """Squareness, film and the seat stay as they were found."""
    chance = np.random.default_rng(3)
    practice = draw_camera(HELICOID, AT_HAND, usual_priors(HELICOID), chance)
    left = trial_and_error(practice, chance).practice.hidden
    before = practice.hidden
    for name in ("tilt_x", "gate", "seat"):
        assert left[name] == before[name]
