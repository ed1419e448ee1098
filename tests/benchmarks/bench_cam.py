"""How long a cam's table, its stoning map and its sheets take."""

import math
import time
from collections.abc import Callable
from datetime import date

import numpy as np
import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.rangefinder.cam import Cam, LensLaw
from optics.rangefinder.lath import Lath
from optics.rangefinder.stoning import StoningRules, lift_readings, stone
from optics.sheets.cam_sheet import cam_sheet
from optics.sheets.lath_sheet import lath_sheet

MADE = date(2026, 3, 6)
CAMERA = Camera("Ostrin 35", Lens(90.0, 4.0, -1.0), Helicoid(24.0, 6, Turn.CLOCKWISE), 0.03)
CAM = Cam(CAMERA, LensLaw(50.0, 0.5), math.radians(150))
PLACES = np.radians(np.arange(0, 151, 5.0))
WRONG = 0.05 * np.sin(2 * PLACES) + 0.01 * PLACES
READINGS = lift_readings(
    PLACES.tolist(), [[v, v + 0.002, v - 0.001] for v in CAM.lift(PLACES) + WRONG], 0.005
)
ADJUSTABLE = StoningRules(0.95, 1.05)


def whole_map(rules: StoningRules | None) -> None:
    """Work out a map with both its curves."""
    found = stone(CAM, READINGS, rules)
    assert found.before.verdict != found.after.verdict


# In seconds: a page of table, a map as the page shows it, and a sheet of two true-size pages.
WORK: dict[str, tuple[Callable[[], object], float]] = {
    "lift by the degree": (CAM.table, 0.002),
    "map, datum only": (lambda: whole_map(None), 0.020),
    "map, gain adjustable": (lambda: whole_map(ADJUSTABLE), 0.030),
    "cam sheet": (
        lambda: cam_sheet(CAM, 58.0, stone(CAM, READINGS), title="90 mm", made=MADE).pdf(),
        0.150,
    ),
    "lath sheet": (
        lambda: lath_sheet(Lath(CAMERA, 41.0, 2000.0), title="", made=MADE).pdf(),
        0.100,
    ),
}


@pytest.mark.parametrize("name", WORK)
def test_the_cam_is_quick(name: str) -> None:
    """Table, map and sheets are each made before a hand has left the key."""
    work, most = WORK[name]
    work()
    times = []
    for _ in range(7):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    print(f"\n{name}: {1000 * min(times):.1f} ms")
    assert min(times) <= most
