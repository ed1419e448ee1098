"""What is typed of a camera, told and not told."""

from dataclasses import replace

import numpy as np
import pytest

from optics.world.build import Unmodelled
from optics.world.camera import TracedCamera
from optics.world.draw import BUILDS, draw
from optics.world.scale import NewCellScale, NewScale
from optics.world.typed import exactly, typed


def test_not_told_it_is_engraved_and_guessed() -> None:
    """Figures are off by what the camera says, and the hiatus is left at nothing."""
    hidden = Unmodelled(engraved=0.02, guessed=-0.1, lead=0.01, tape=60.0)
    camera = TracedCamera(BUILDS[3], unmodelled=hidden)
    said = typed(camera, False, np.random.default_rng(1))
    assert said.focal_length == pytest.approx(75 * 1.02)
    assert said.cell == pytest.approx(0.9 * exactly(camera).cell)
    assert said.lead == pytest.approx(9 * 1.01)
    assert (said.hiatus, said.collimator, said.tape) == (0.0, None, 60.0)


def test_told_it_is_nearly_so() -> None:
    """What was measured is within four of its standard deviations, and the tape is at the film."""
    for seed in range(20):
        camera = draw(seed)
        true = exactly(camera)
        said = typed(camera, True, np.random.default_rng(seed))
        assert said.focal_length == pytest.approx(true.focal_length, rel=0.004)
        assert said.hiatus == pytest.approx(true.hiatus, abs=1.2)
        assert said.collimator == pytest.approx(camera.unmodelled.collimator, abs=20)
        assert said.tape == 0


@pytest.mark.parametrize("told", [True, False])
def test_a_new_scale_says_for_which_lens_it_is(told: bool) -> None:
    """After a new scale its own focal length is typed, of the lens or of the front cell."""
    chance = np.random.default_rng(1)
    unit = replace(draw(0), new_scale=NewScale(49.5, 0.0))
    assert typed(unit, told, chance).focal_length == 49.5
    cell = replace(draw(3), new_scale=NewCellScale(50.5, 90.0))
    assert typed(cell, told, chance).cell == 50.5
