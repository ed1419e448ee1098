"""The cam in words: amounts, places, and above all which way round."""

import math

import numpy as np
import pytest

from optics.camera.camera import Turn
from optics.rangefinder import cam_wording
from optics.rangefinder.cam import LensLaw, StraightLaw
from optics.rangefinder.stoning import StoningMap, StoningRules, lift_readings, stone
from tests.optics.rangefinder.test_cam import coupled, lift_by_halving
from tests.optics.rangefinder.test_stoning import read


def mapped(wrong: list[float], limit: float = 0.0, **rules: float | bool) -> StoningMap:
    """A map of the lens on a body whose sights turn by 0.016 rad for each mm."""
    cam = coupled(law=LensLaw(50.0, 0.5, gain=0.016))
    return stone(cam, read(cam, wrong, limit), StoningRules(**rules))  # type: ignore[arg-type]


def test_the_headline_names_the_deepest_and_the_lowest_place() -> None:
    """The headline says how deep at most and where, and where nothing comes off."""
    found = mapped([0.0, 0.05, 0.02, 0.0301])
    assert cam_wording.headline(found) == (
        "Take off at most 0.050 mm, at 46.67° from ∞, and nothing at ∞."
    )
    sure = mapped([0.0, 0.05, 0.02], 0.005, sureness=1.0)
    assert "and at least 0.004 mm, at ∞." in cam_wording.headline(sure)


def test_the_zero_is_set_the_way_the_follower_moved() -> None:
    """Less lift at infinity wants the sights turned towards each other, more lift away."""
    less = cam_wording.zero_line(mapped([0.03, 0.0, 0.05]))
    # 0.03 mm × 0.016 rad/mm = 0.00048 rad = 1.65 minutes of arc.
    assert "0.030 mm less lift than now, so turn its lines of sight 1.7′ towards each" in less
    more = cam_wording.zero_line(mapped([0.03, 0.0, 0.05], cutting_lowers=False))
    assert "0.020 mm more lift than now, so turn its lines of sight 1.1′ away from" in more
    stays = cam_wording.zero_line(mapped([0.0, 0.04, 0.05]))
    assert stays == "The rangefinder's zero stays: the follower rests at ∞ where it does now."
    unknown = stone(coupled(), read(coupled(), [0.03, 0.0, 0.05]))
    assert cam_wording.zero_line(unknown).endswith("0.030 mm less lift than now.")


def test_the_gain_is_said_only_where_it_changes() -> None:
    """A coupling to be set less sensitive is said so, one that stays is not spoken of."""
    cam = coupled()
    steep = (0.04 * cam.lift(np.radians(np.linspace(0, 140, 8)))).tolist()
    # Four per cent too steep wants 1/1.04 = 0.962 of the gain, 3.8 % less.
    less = cam_wording.gain_line(mapped(steep, least_gain=0.9))
    assert less.startswith("Set the coupling 3.8% less sensitive (gain × 0.962)")
    flat = [-one for one in steep]
    assert "4.2% more sensitive" in cam_wording.gain_line(mapped(flat, most_gain=1.1))
    assert cam_wording.gain_line(mapped(steep)) == ""


def test_before_and_after_say_which_way() -> None:
    """Too much lift leads the lens too far in, and after stoning it stands inside tolerance."""
    now, after = cam_wording.before_and_after(mapped([0.0, 0.05, 0.0], 0.001))
    # By halving, a turn of 1° at 70° moves the lens 24/360 mm and the follower so much:
    rise = lift_by_halving(coupled(), 70.5) - lift_by_halving(coupled(), 69.5)
    assert now.startswith(f"Now, at worst: {0.05 / rise * 24 / 360:.3f} mm too far in ± 0.0")
    assert "at 70° from ∞: outside tolerance, outside the depth of focus." in now
    assert "inside tolerance, inside the depth of focus." in after
    right = cam_wording.before_and_after(mapped([0.0, 0.0, 0.0]))[0]
    assert right.startswith("Now, at worst: right everywhere: inside tolerance")


@pytest.mark.parametrize(
    ("wrong", "limit", "words"),
    [
        ([0.0, 0.004, 0.0], 0.001, "leave the cam alone"),
        ([0.0, 0.02, 0.0], 0.01, "cannot tell"),
        ([0.0, 0.09, 0.0], 0.001, "Take off two thirds of it as listed, measure the cam again"),
    ],
)
def test_advice_follows_what_is_known(wrong: list[float], limit: float, words: str) -> None:
    """A good cam is left alone, an unsure one is read again, a bad one stoned short first."""
    assert words in cam_wording.advice(mapped(wrong, limit))


def test_a_cam_right_but_for_its_gain_needs_no_stone() -> None:
    """Where setting the gain does it all, the advice is to leave the stone in its drawer."""
    cam = coupled()
    steep = (0.05 * cam.lift(np.radians(np.linspace(0, 140, 8)))).tolist()
    found = mapped(steep, least_gain=0.9)
    assert "the cam itself needs no stone" in cam_wording.advice(found)
    assert cam_wording.headline(found).startswith("Nothing is to be stoned")
    assert cam_wording.warnings(found) == ()


def test_another_share_is_said() -> None:
    """A first pass of a half is said as such."""
    assert "Take off 50% of it" in cam_wording.advice(mapped([0.0, 0.09, 0.0], share=0.5))


def test_warnings_name_places_and_reasons() -> None:
    """The low place, deep places, gaps and coarse readings are each warned of."""
    deep = " ".join(cam_wording.warnings(mapped([0.0, 0.2, 0.12, 0.1], 0.1, deepest=0.11)))
    assert "The low place, at ∞, rules the whole cut" in deep
    assert "More than 0.11 mm would come off at 46.67°, 93.33°: look for a worn" in deep
    assert "up to 46.67° apart, as from 0° to 46.67°, and the cut between" in deep
    assert "known only to ± 0.113 mm, half of the deepest cut or more" in deep
    # Most at the near end, 140°, by halving.
    rise = lift_by_halving(coupled(), 140.5) - lift_by_halving(coupled(), 139.5)
    most = f"{0.01 / rise * 24 / 360:.3f}"
    assert f"is up to {most} mm at the film here: read lifts to 0.002 mm" in deep
    cam = coupled(50.0, 0.5, 18.0, 30.0)
    close = read(cam, [0.0, 0.05, 0.0, 0.05], 0.0, 30.0)
    assert len(cam_wording.warnings(stone(cam, close))) == 1


def test_places_and_senses() -> None:
    """A place is said from infinity, and the ring's sense is said as seen from the front."""
    assert cam_wording.place(0.0) == "∞"
    assert cam_wording.place(math.radians(12.5)) == "12.5° from ∞"
    assert cam_wording.ring_sense(Turn.CLOCKWISE) == (
        "Ring turned clockwise from ∞, seen from the front"
    )


def test_the_body_is_said() -> None:
    """Both kinds of body are said with their figures."""
    assert cam_wording.said_law(LensLaw(50.0, 0.5)) == (
        "Body cut for a lens of 50 mm, hiatus 0.5 mm"
    )
    # 0.02 rad is 68.8 minutes, 1.15 degrees.
    said = cam_wording.said_law(StraightLaw(41.0, 0.02, 20.0))
    assert said == (
        "Body with a straight follower: base 41 mm, 20 mm before the film, 1.15° of convergence "
        "for each mm"
    )


def test_the_tolerance_is_said_at_both_ends() -> None:
    """The lift's tolerance is given with the film's, and is the tightest along the cam."""
    said = cam_wording.said_tolerance(coupled(50.0, 0.5, 18.0, 90.0))
    # One to one: N·c/2 = 4 × 0.03/2 = 0.06 mm at both ends.
    assert "within ± 0.060 mm where it matters most keeps the lens within ± 0.060 mm" in said


def test_a_cam_read_from_elsewhere_than_infinity_says_so() -> None:
    """Where the first reading is not at infinity, the zero is spoken of at that place."""
    cam = coupled()
    lifts = cam.lift(np.radians([10.0, 15.0])) + np.array([0.04, 0.0])
    readings = lift_readings(np.radians([10.0, 15.0]).tolist(), [[one] for one in lifts], 0.0)
    assert "right at 10° from ∞ again" in cam_wording.zero_line(stone(cam, readings))
