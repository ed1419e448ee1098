"""The cam's account as page and terminal show it."""

import math

from optics.rangefinder.cam import Cam, LensLaw
from optics.rangefinder.cam_account import cam_account
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.stoning import lift_readings, stone
from optics.records.lantern_street import OSTRIN
from optics.records.to_bench import camera_of
from tests.optics.rangefinder.test_cam_part import answered
from ui.answers.account_panel import account_html
from ui.terminal.account_text import account_text


def map_html(*lifts: float) -> str:
    """Show the map of lifts read every twenty degrees."""
    cam = Cam(camera_of(OSTRIN), LensLaw(50.0), math.radians(52))
    places = [math.radians(20 * number) for number in range(len(lifts))]
    found = stone(cam, lift_readings(places, [[lift] for lift in lifts], 0.005))
    return account_html(cam_account(CamAnswer(cam, found)))


def test_every_place_has_its_row() -> None:
    """Each place read has a row with its lift, the lift needed, both cuts and both errors."""
    html = map_html(0.0, 1.2, 2.4)
    assert html.count("<tr>") == 4
    assert "20° from ∞" in html
    assert "<td>1.200</td>" in html
    assert "−" in html


def test_a_right_cam_is_left_alone() -> None:
    """Where nothing is due it is the first thing that is said of what to do."""
    needed = Cam(camera_of(OSTRIN), LensLaw(50.0), math.radians(52))
    lifts = [float(needed.lift(math.radians(place))) for place in (0, 20, 40)]
    assert "Nothing is to be stoned" in map_html(*lifts)


def test_a_new_cam_is_a_table() -> None:
    """Without lifts every row says place, distance and lift."""
    lines = account_text(cam_account(answered())).splitlines()
    assert "- ∞, sharp at ∞: 0.000 mm" in lines
    assert any(line.startswith("- 20° from ∞") and line.endswith("1.000 mm") for line in lines)


def test_metal_is_listed_place_by_place() -> None:
    """What to take off first and in all stands for each place, with a warning of its own."""
    said = account_text(cam_account(answered(lifts="0 = 0; 20 = 1.03; 40 = 2")))
    assert "\n- 20° from ∞: 0.02 mm now, 0.03 mm in all\n" in said
    assert "does not come back" in said
