"""The invented cameras on the practice bench."""

import pytest

from optics.records.lantern_street import CAMERAS
from optics.records.practice_shelf import SHELF


def test_every_camera_of_the_workshop_stands_there() -> None:
    """The practice bench has the workshop's cameras, and only those with a finder have screws."""
    assert list(SHELF) == [camera.name for camera in CAMERAS]
    for stand in SHELF.values():
        assert (stand.finder is None) is (stand.at_hand.zero_screw is None)


def test_the_finder_is_the_workshop_s() -> None:
    """The Ostrin's rangefinder, 41 mm at 0.6 times, is to the eye 24.6 mm long."""
    finder = SHELF["Ostrin 35"].finder
    assert finder is not None
    assert finder.effective_base == pytest.approx(24.6)
