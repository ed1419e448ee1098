"""Practice cameras are drawn as the diagnosis supposes cameras to be."""

import numpy as np
import pytest

from optics.finding.causes import AT
from optics.finding.causes.ring import RING
from optics.finding.causes.start import START
from optics.finding.diagnosis import usual_priors
from optics.teaching.practice import draw_camera
from tests.optics.teaching.bench_day import AT_HAND, BED, HELICOID


def test_one_to_three_causes_are_drawn_with_their_sizes() -> None:
    """Two thousand cameras have one to three causes each, rings off by 0.4 mm when they slipped."""
    chance, priors = np.random.default_rng(1), usual_priors(HELICOID)
    drawn = [draw_camera(HELICOID, AT_HAND, priors, chance) for _ in range(2000)]
    counts = np.bincount([len(camera.causes) for camera in drawn], minlength=4)
    assert counts[0] == 0
    assert counts[1:] == pytest.approx(np.full(3, 2000 / 3), rel=0.1)
    slipped = [c.hidden["ring"] for c in drawn if RING in c.causes]
    sound = [c.hidden["ring"] for c in drawn if RING not in c.causes]
    assert np.std(slipped) == pytest.approx(0.40, rel=0.1)
    assert np.std(sound) == pytest.approx(0.010, rel=0.1)


def test_a_wrong_start_is_whole_pitches() -> None:
    """A wrong start is one to five whole pitches of 3 mm either way, and a bed has none."""
    chance = np.random.default_rng(2)
    drawn = [draw_camera(HELICOID, AT_HAND, usual_priors(HELICOID), chance) for _ in range(600)]
    pitches = {c.hidden.vector[AT["start"]] / 3.0 for c in drawn if START in c.causes}
    assert pitches <= {float(k) for k in range(-5, 6) if k}
    assert len(pitches) > 5
    assert START not in usual_priors(BED).by_cause
