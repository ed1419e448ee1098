"""How long a depth table takes, once its formulas are compiled."""

import time

import numpy as np

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.scales.depth_table import depth_table

MOST = 0.005
UNIT = Camera("unit", Lens(47.0, 2.8, 0.6, 0.8), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
CELL = Camera("cell", Lens(75.0, 3.5, -2.0), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)
STOPS = np.geomspace(1, 64, 50)
DISTANCES = np.append(np.geomspace(500, 1e6, 199), np.inf)


def _quickest(camera: Camera) -> float:
    depth_table(camera, STOPS, DISTANCES)
    times = []
    for _ in range(20):
        start = time.perf_counter()
        table = depth_table(camera, STOPS, DISTANCES)
        times.append(time.perf_counter() - start)
    assert table.near.shape == (50, 200)
    return min(times)


def test_depth_table_is_quick() -> None:
    """A table of 50 apertures by 200 distances takes less than 5 ms."""
    for camera in (UNIT, CELL):
        took = _quickest(camera)
        print(f"\ndepth table 50 × 200, {camera.name}: {took * 1000:.2f} ms (at most 5)")
        assert took < MOST
