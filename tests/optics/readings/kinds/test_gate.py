"""The film's place in its gate, the right way round."""

import pytest

from optics.measure.uncertainty import exact
from optics.readings.kinds.gate import GateReading
from optics.readings.spots import Spot
from tests.optics.readings.kinds.bench import CAMERA, error


def test_film_behind_the_glass_leaves_a_lens_right_on_the_glass_too_far_out() -> None:
    """Film 0.05 mm farther from the lens than the glass was finds the lens 0.05 mm too far out."""
    behind, before = (GateReading(exact(figure)) for figure in (0.05, -0.05))
    assert error(CAMERA, behind) == pytest.approx(0.05, abs=1e-12)
    assert error(CAMERA, before) == -error(CAMERA, behind)
    assert behind.spot is Spot.GATE
