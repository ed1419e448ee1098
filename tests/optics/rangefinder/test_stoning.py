"""The stoning map: never metal to add, the least deepest cut, and what is left afterwards."""

import itertools
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.errors import OutOfRange
from optics.measure.uncertainty import exact
from optics.measure.verdict import Verdict
from optics.rangefinder.cam import Cam, LensLaw, StraightLaw
from optics.rangefinder.stoning import StoningMap, StoningRules, lift_readings, stone
from tests.optics.rangefinder.test_cam import coupled, halved, sharp_distance

quick = settings(max_examples=80, deadline=None)
errors = st.lists(st.floats(-0.3, 0.3), min_size=3, max_size=7)


def read(cam: Cam, wrong: Any, limit: float = 0.0, ends: float = 140.0) -> Any:
    """Lifts read at even places of a cam that is wrong by so much at each."""
    degrees = np.linspace(0, ends, len(wrong))
    lifts = cam.lift(np.radians(degrees)) + np.asarray(wrong)
    return lift_readings(np.radians(degrees).tolist(), [[one] for one in lifts], limit)


def deepest(found: StoningMap) -> float:
    """The deepest cut of a map."""
    return float(found.removal.max())


@given(wrong=errors, lowers=st.booleans(), sureness=st.sampled_from([0.0, 1.0, 2.0]))
@quick
def test_no_metal_is_ever_to_be_added(wrong: list[float], lowers: bool, sureness: float) -> None:
    """Every place asks for metal to come off, by as much as its uncertainty asks, or for none."""
    rules = StoningRules(0.9, 1.1, sureness, cutting_lowers=lowers)
    found = stone(coupled(), read(coupled(), wrong, 0.01), rules)
    # A rectangular ± 0.01 mm has U = 1.96 × 0.01/√3 at 95 % (GUM 4.3.7, G.2).
    held = sureness * 1.96 * 0.01 / math.sqrt(3)
    assert found.removal.min() == pytest.approx(held, abs=1e-6)
    assert found.cut.min() >= 0
    assert np.all(found.cut <= found.removal + 1e-9)
    assert np.all(found.first_pass <= found.cut)


def vertices(rules: StoningRules, measured: Any, needed: Any) -> float:
    """The least deepest cut by trying every corner of the programme, three constraints at a time.

    Unknowns (u, a, t): stretch of the needed lift, datum, deepest cut.
    """
    way = 1.0 if rules.cutting_lowers else -1.0
    one = np.ones_like(needed)
    rows = [*np.column_stack([-way * needed, way * one, 0 * one])]
    limits = [*(-way * measured)]
    rows += [*np.column_stack([way * needed, -way * one, one])]
    limits += [*(way * measured)]
    rows += [np.array([1.0, 0, 0]), np.array([-1.0, 0, 0])]
    limits += [1 / rules.most_gain, -1 / rules.least_gain]
    matrix, least = np.array(rows), np.array(limits)
    best = math.inf
    for three in itertools.combinations(range(len(rows)), 3):
        corner = matrix[list(three)]
        if abs(np.linalg.det(corner)) < 1e-12:
            continue
        point = np.linalg.solve(corner, least[list(three)])
        if np.all(matrix @ point >= least - 1e-9):
            best = min(best, float(point[2]))
    return best


@given(wrong=errors, lowers=st.booleans(), spread=st.sampled_from([0.0, 0.03, 0.2]))
@settings(max_examples=30, deadline=None)
def test_the_deepest_cut_is_the_least_there_can_be(
    wrong: list[float], lowers: bool, spread: float
) -> None:
    """The deepest cut equals the best of all corners of the linear programme."""
    rules = StoningRules(1 - spread, 1 + spread, cutting_lowers=lowers)
    cam = coupled()
    found = stone(cam, read(cam, wrong), rules)
    needed = cam.lift(found.rotation)
    best = vertices(rules, found.measured, needed) if spread else None
    if best is None:
        # With the gain fixed nothing but the datum is free: the spread of the errors.
        best = max(wrong) - min(wrong)
    assert deepest(found) == pytest.approx(best, abs=2e-6)
    assert 1 - spread - 1e-6 <= found.gain <= 1 + spread + 1e-6


def test_a_cam_wrong_by_gain_alone_needs_no_stone() -> None:
    """A cam five per cent too steep is put right by the gain alone, within its limits."""
    cam = coupled()
    steep = 0.05 * cam.lift(np.radians(np.linspace(0, 140, 8)))
    found = stone(cam, read(cam, steep), StoningRules(0.9, 1.1))
    assert found.gain == pytest.approx(1 / 1.05, abs=1e-6)
    assert deepest(found) < 1e-6
    assert deepest(stone(cam, read(cam, steep))) > 0.1
    held = stone(cam, read(cam, steep), StoningRules(0.98, 1.1))
    assert held.gain == pytest.approx(0.98, abs=1e-6)


def test_a_gain_that_gains_nothing_stays() -> None:
    """A cam whose deepest cut no gain can lessen is stoned at its present gain."""
    cam = coupled()
    found = stone(cam, read(cam, [0.0] * 5), StoningRules(0.9, 1.1))
    assert found.gain == 1.0
    assert deepest(found) == pytest.approx(0.0, abs=1e-12)


def test_datum_and_zero_by_hand() -> None:
    """Errors of 3, 0, 5 hundredths give cuts of 3, 0, 5, a datum of nothing and less lift at ∞."""
    cam = coupled(law=LensLaw(50.0, 0.5, gain=0.016))
    found = stone(cam, read(cam, [0.03, 0.0, 0.05]))
    assert found.removal == pytest.approx([0.03, 0.0, 0.05], abs=1e-9)
    assert found.datum_shift == pytest.approx(0.0, abs=1e-9)
    assert found.follower_move == pytest.approx(-0.03, abs=1e-9)
    # 0.016 rad for each mm: 0.03 mm less lift is made up by 0.00048 rad towards each other.
    assert found.convergence_change == pytest.approx(0.00048, abs=1e-9)
    assert found.low_place == 1
    raised = stone(cam, read(cam, [0.03, 0.0, 0.05]), StoningRules(cutting_lowers=False))
    assert raised.removal == pytest.approx([0.02, 0.05, 0.0], abs=1e-9)
    assert raised.follower_move == pytest.approx(0.02, abs=1e-9)
    assert raised.convergence_change == pytest.approx(-0.00032, abs=1e-9)


@given(zero=st.floats(-3, 3))
@quick
def test_the_gauges_zero_does_not_matter(zero: float) -> None:
    """A gauge with another zero gives the same cuts, and its zero comes back as the datum."""
    cam = coupled()
    wrong = [0.0, 0.02, -0.04, 0.03]
    found = stone(cam, read(cam, [zero + one for one in wrong]))
    assert found.removal == pytest.approx([0.04, 0.06, 0.0, 0.07], abs=1e-9)
    assert found.datum_shift == pytest.approx(0.04 - zero, abs=1e-9)


class Body:
    """A simulated body and lens that are used by hand: the ring is turned until sights agree."""

    def __init__(self, cam: Cam, degrees: Any, lifts: Any, gain: float = 1.0) -> None:
        self.cam, self.degrees, self.lifts, self.gain = cam, degrees, lifts, gain

    def counted(self, degrees: float) -> float:
        """What the rangefinder makes of the cam, set right at infinity."""
        lift = np.interp(degrees, self.degrees, self.lifts) - self.lifts[0]
        return self.gain * float(lift)

    def error_at(self, degrees: float) -> float:
        """Focus error when the sights are brought together on what the body takes for a lift."""
        law, lens = self.cam.law, self.cam.camera.lens
        assert isinstance(law, LensLaw)
        own = law.focal_length + self.counted(degrees)
        subject = sharp_distance(law.focal_length, law.hiatus, own)
        f, h = lens.focal_length, lens.hiatus
        right = halved(lambda x: sharp_distance(f, h, f + x) - subject, 1e-9, f)
        return self.cam.thread.lead * degrees / 360 - right


@pytest.mark.parametrize("lowers", [True, False])
@pytest.mark.parametrize("gains", [(1.0, 1.0), (0.95, 1.05)])
def test_a_stoned_cam_is_found_as_predicted(lowers: bool, gains: tuple[float, float]) -> None:
    """Cut as the map says and used on a simulated body, the lens stands where it was predicted."""
    cam = coupled()
    degrees = np.linspace(0, 140, 15)
    bent = 0.03 * np.sin(degrees / 30) + 0.0003 * degrees
    readings = read(cam, bent)
    found = stone(cam, readings, StoningRules(*gains, cutting_lowers=lowers))
    way = 1.0 if lowers else -1.0
    for cut, gain, curve in (
        (0 * bent, 1.0, found.before),
        (found.cut, found.gain, found.after),
        (found.first_pass, found.gain, found.predicted(found.first_pass, found.gain)),
    ):
        body = Body(cam, degrees, found.measured - way * cut, gain)
        for at, predicted in zip(degrees[1:], curve.focus_error[1:], strict=True):
            seen = body.error_at(at)
            assert predicted.value == pytest.approx(seen, abs=0.02 * abs(seen) + 1e-6)
    assert max(abs(e.value) for e in found.after.focus_error) < 0.25 * cam.camera.allowed_error + (
        1e-6
    )
    assert found.after.verdict is Verdict.INSIDE
    assert found.before.verdict is Verdict.OUTSIDE
    assert found.after.within_depth
    assert not found.before.within_depth


def test_the_second_pass_finds_what_the_first_left() -> None:
    """Two thirds off and measured again, the map asks for the third that is left."""
    cam = coupled()
    found = stone(cam, read(cam, [0.0, 0.09, 0.18, 0.06]))
    again = [one - cut for one, cut in zip([0.0, 0.09, 0.18, 0.06], found.first_pass, strict=True)]
    rest = stone(cam, read(cam, again))
    assert rest.removal == pytest.approx([0.0, 0.03, 0.06, 0.02], abs=found.gauge_step + 1e-9)


def test_too_much_lift_sets_the_lens_too_far_in() -> None:
    """Where the cam pushes too far the user backs off, and the lens ends too far in."""
    cam = coupled()
    found = stone(cam, read(cam, [0.0, 0.05, 0.0]))
    assert found.before.focus_error[1].value < -0.1
    assert found.before.worst == 1


def test_uncertainty_of_the_focus_error_is_both_readings() -> None:
    """Two readings, each known to u, make a difference known to u·√2, geared up at the film."""
    cam = coupled(50.0, 0.5, 18.0, 90.0)
    found = stone(cam, read(cam, [0.0, 0.02, 0.0], 0.005, 80.0))
    # One to one, for the lens is the body's own.
    at_film = found.before.focus_error[1].standard
    assert at_film == pytest.approx(0.005 / math.sqrt(3) * math.sqrt(2), rel=1e-9)
    assert found.before.focus_error[0].standard == 0


def test_the_step_follows_the_tolerance() -> None:
    """Cuts go by 0.01 mm where the tolerance is coarse, and finer where it is not."""
    # Tolerance N·c/2: 0.06 mm one to one, a quarter 0.015; geared by (50/90)² 0.0185, 0.0046.
    own = stone(
        coupled(50.0, 0.5, 18.0, 30.0), read(coupled(50.0, 0.5, 18.0), [0, 0.047, 0], 0, 20)
    )
    assert own.gauge_step == 0.01
    assert own.cut == pytest.approx([0, 0.04, 0])
    assert stone(coupled(), read(coupled(), [0, 0.047, 0], 0, 20)).gauge_step == 0.002


def test_between_readings_the_cut_is_a_straight_line() -> None:
    """Every 5° between the readings the metal lies on a line, and beyond them nothing is said."""
    cam = coupled()
    lifts = [[one] for one in cam.lift(np.radians([7.0, 17.0])) + np.array([0.0, 0.1])]
    found = stone(cam, lift_readings(np.radians([7.0, 17.0]).tolist(), lifts, 0.0))
    rotations, metal = found.between(math.radians(5))
    assert np.degrees(rotations) == pytest.approx([7, 10, 15, 17])
    assert metal == pytest.approx([0.0, 0.03, 0.08, 0.1], abs=1e-9)


def test_deep_places_are_those_beyond_the_stated_depth() -> None:
    """Places where more than the stated depth would come off are named, none where none is."""
    cam = coupled()
    readings = read(cam, [0.0, 0.11, 0.09, 0.13])
    assert stone(cam, readings, StoningRules(deepest=0.1)).deep_places == (1, 3)
    assert stone(cam, readings).deep_places == ()


def test_repeats_are_averaged_and_put_in_order() -> None:
    """Repeats become their mean, and places read out of order are put in order."""
    readings = lift_readings([0.2, 0.0], [[1.0, 1.2, 1.1], [0.3]], 0.0)
    assert [one.rotation for one in readings] == [0.0, 0.2]
    assert readings[1].lift.value == pytest.approx(1.1)
    assert readings[1].lift.dof == pytest.approx(2.0)
    assert readings[0].lift.standard == exact(0.3).standard


@pytest.mark.parametrize(
    ("rules", "words"),
    [
        ({"least_gain": 1.1}, "gain at its least must be above 0, at most 1: got 1.1"),
        ({"most_gain": 0.9}, "gain at its most must be 1 or more: got 0.9"),
        ({"sureness": -1}, "sureness must be 0 or more: got -1"),
        ({"share": 0}, "share of the first pass must be above 0, at most 1: got 0"),
    ],
)
def test_rules_that_make_no_sense_are_refused(rules: dict[str, float], words: str) -> None:
    """Limits that leave out the present gain, and shares of nothing, are refused."""
    with pytest.raises(OutOfRange, match=words):
        StoningRules(**rules)


def test_readings_that_make_no_map_are_refused() -> None:
    """One place alone, or a place outside the ring's turn, is refused."""
    cam = coupled()
    with pytest.raises(OutOfRange, match="two places at least: got 1"):
        stone(cam, lift_readings([0.1, 0.1], [[0.0], [0.1]], 0.0))
    with pytest.raises(OutOfRange, match=r"between 0° and 150.0° from infinity: got 0.0° to 160"):
        stone(cam, lift_readings([0.0, math.radians(160)], [[0.0], [0.1]], 0.0))


def test_a_straight_follower_is_stoned_the_same_way() -> None:
    """On a body with straight sights the same errors ask for the same cuts."""
    camera = Camera("Ostrin", Lens(47.0, 2.8, 0.6), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
    cam = Cam(camera, StraightLaw(41.0, 0.018, 20.0), math.radians(80))
    found = stone(cam, read(cam, [0.0, 0.04, 0.02], 0.0, 80.0))
    assert found.removal == pytest.approx([0.0, 0.04, 0.02], abs=1e-9)
    assert found.convergence_change == pytest.approx(0.0, abs=1e-12)
