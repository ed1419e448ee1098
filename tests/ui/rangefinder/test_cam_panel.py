"""The cam's map as markup."""

import math

from optics.rangefinder.cam import Cam, LensLaw
from optics.rangefinder.stoning import StoningMap, lift_readings, stone
from optics.records.lantern_street import OSTRIN
from optics.records.to_bench import camera_of
from ui.rangefinder.cam_panel import map_html


def found(*lifts: float) -> StoningMap:
    """Return the map of lifts read every twenty degrees."""
    cam = Cam(camera_of(OSTRIN), LensLaw(50.0), math.radians(52))
    places = [math.radians(20 * number) for number in range(len(lifts))]
    return stone(cam, lift_readings(places, [[lift] for lift in lifts], 0.005))


def test_every_place_has_its_row() -> None:
    """Each place read has a row with its lift, the lift needed, both cuts and both errors."""
    html = map_html(found(0.0, 1.2, 2.4))
    assert html.count("<tr>") == 4
    assert "20° from ∞" in html
    assert "<td>1.200</td>" in html
    assert "−" in html


def test_a_right_cam_is_left_alone() -> None:
    """Where nothing is due the headline says so."""
    needed = Cam(camera_of(OSTRIN), LensLaw(50.0), math.radians(52))
    lifts = [float(needed.lift(math.radians(place))) for place in (0, 20, 40)]
    assert "Nothing is to be stoned" in map_html(found(*lifts))
