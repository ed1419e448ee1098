"""The straightened model against the exact one, and its slopes against differences."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera
from optics.finding.causes import NAMES
from optics.finding.diagnosis import Faults
from optics.finding.diagnosis.sensitivity import Straight
from tests.optics.teaching.bench_day import BED, CELL, FULL_ROUND, HELICOID, TURNED, all_shown

quick = settings(max_examples=40, deadline=None)
small = st.floats(-0.04, 0.08)
each_camera = pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
faults = st.builds(
    Faults,
    seat=small,
    start=st.just(0.0),
    ring=st.floats(0.05, 0.3),
    stop=small,
    focal=st.floats(-0.4, 0.4),
    tilt_x=st.floats(-2e-3, 2e-3),
    tilt_y=st.floats(-2e-3, 2e-3),
    gate=small,
    zero=st.floats(0.3, 0.6),
    gain=st.floats(-0.05, 0.05),
)


@each_camera
@quick
@given(faults)
def test_the_readings_own_errors_agree_with_the_one_model(camera: Camera, hidden: Faults) -> None:
    """What each reading's steps make of its predicted figure is what the straight model says."""
    readings = all_shown(camera, hidden, FULL_ROUND)
    own = [reading.steps(camera)[-1].result.value for reading in readings]
    ours = Straight.of(camera, readings).errors(hidden.vector)
    # The front cell's factor (f/f₁)² is right for small movements.
    assert ours == pytest.approx(np.array(own), abs=3e-4 if camera is CELL else 1e-9)


@each_camera
@quick
@given(faults)
def test_slopes_are_differences(camera: Camera, hidden: Faults) -> None:
    """Each slope is the central difference of the errors."""
    turned = () if camera is BED else (TURNED,)
    straight = Straight.of(camera, all_shown(camera, hidden, (*FULL_ROUND, *turned)))
    step = 1e-5
    for place, name in enumerate(NAMES):
        away = np.zeros(len(NAMES))
        away[place] = step
        up, down = (straight.errors(hidden.vector + s * away) for s in (1, -1))
        slopes = straight.slopes(hidden.vector)[:, place]
        assert slopes == pytest.approx((up - down) / (2 * step), abs=2e-6), name
