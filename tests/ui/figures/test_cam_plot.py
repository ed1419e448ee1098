"""The metal to take off, plotted from the map and nothing else."""

import math

import numpy as np

from optics.rangefinder.cam import Cam, LensLaw
from optics.rangefinder.stoning import lift_readings, stone
from optics.records.lantern_street import OSTRIN
from optics.records.to_bench import camera_of
from ui.figures.cam_plot import cam_plot
from ui.theme import DAY


def test_bars_and_line_are_the_map() -> None:
    """The bars are the first pass and the line is the whole cut, at the places read."""
    cam = Cam(camera_of(OSTRIN), LensLaw(50.0), math.radians(52))
    places = [0.0, math.radians(20), math.radians(40)]
    found = stone(cam, lift_readings(places, [[0.0], [1.2], [2.4]], 0.005))
    bars, line = cam_plot(found, DAY).data
    assert np.allclose(bars.x, [0, 20, 40])
    assert np.array_equal(bars.y, found.first_pass)
    assert np.array_equal(line.y, found.cut)
    assert bars.type == "bar"
    assert max(line.y) > max(bars.y) > 0
