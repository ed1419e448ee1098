"""What hands do at the practice bench, against what a plan says in words."""

import math
import re
from fractions import Fraction

import numpy as np
import pytest

from optics.camera.camera import Bed
from optics.finding.causes import AT, Adjustment, Cause
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.causes.stop import STOP
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults
from optics.measure.places import CORNERS
from optics.moves import Control
from optics.moves.height_screw import HEIGHT_PER_TURN
from optics.teaching.practice import PracticeCamera
from optics.teaching.practice.controls import controls, done
from optics.teaching.practice.stand import Stand
from tests.by_hand.hands import Hands
from tests.by_hand.test_hands import Steady
from tests.optics.teaching.practice.stands import CORVANE, OSTRIN, STANDS, TARNBROOK, state_of

WANTED = {
    GATE: 0.06,
    START: 6.0,
    STOP: 0.15,
    RING: 0.2,
    FOCAL: 0.35,
    ZERO: 0.15,
    GAIN: 0.03,
    SEAT: 0.1,
}
# How the amount and the way stand in a plan's instruction.
SAID = {
    GATE: r"([\d.]+) mm (nearer the lens|farther from the lens)",
    START: r"again (\d+) starts? .*further (clockwise|counter-clockwise)",
    STOP: r"([\d.]+)(?:°| mm) (?:further )?(clockwise|counter-clockwise|towards|away from)",
    RING: r"([\d.]+)(?:°| mm) (clockwise|counter-clockwise|towards|away from)",
    SEAT: r"(add|remove) ([\d.]+) mm in all",
    ZERO: r"screw ([\d/ ]+) turns? (clockwise|counter-clockwise)",
    GAIN: r"screw ([\d/ ]+) turns? (clockwise|counter-clockwise)",
}


def told(cause: Cause, control: Control, instruction: str) -> float:
    """Give the signed amount that an instruction tells for a control."""
    found = re.search(SAID[cause], instruction)
    assert found, instruction
    size, way = found.groups()
    if cause is SEAT:
        size, way = way, {"add": "thicker", "remove": "thinner"}[size]
    amount = float(sum(Fraction(part) for part in size.split()))
    return amount if control.ways[0].startswith(way) else -amount


def control_of(stand: Stand, cause: Cause) -> Control:
    """Give the control that acts on one cause alone."""
    alone = (c for c in controls(stand).values() if set(c.effects) == {cause.name})
    return next(alone)


ON_STANDS = [
    (stand, cause)
    for stand in STANDS
    for cause in SAID
    if (cause is not START or stand is OSTRIN)
    and (cause not in (ZERO, GAIN) or stand is not CORVANE)
]


@pytest.mark.parametrize("way", [1, -1], ids=["out", "in"])
@pytest.mark.parametrize(("stand", "cause"), ON_STANDS, ids=lambda v: getattr(v, "camera", v))
def test_a_plan_s_words_tell_the_amount_that_is_set(stand: Stand, cause: Cause, way: int) -> None:
    """The amount and the way that a plan's instruction tells are those that its hands set."""
    made = cause.put_right(stand.camera, stand.at_hand, {cause.name: way * WANTED[cause]})
    assert isinstance(made, Adjustment)
    ((control, amount),) = made.settings
    assert control.name == control_of(stand, cause).name
    assert told(cause, control, made.instruction) == pytest.approx(amount, abs=0.0005)
    before = state_of(stand, Faults())
    after = done(before, control, amount, 0.0).practice
    followed = Hands(Steady()).carry_out(before.practice, made)  # type: ignore[arg-type]
    assert after.hidden == followed.hidden


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_leaves_under_the_standard_lift_the_nearest_plane(stand: Stand) -> None:
    """Leaves at two corners move the standard to the least-squares plane through all four."""
    leaves = dict.fromkeys(CORNERS, 0.0) | {"top right": 0.10, "bottom left": 0.04}
    to_side, to_top = stand.at_hand.standard_screws
    points = [[1.0, side * to_side, up * to_top] for side, up in CORNERS.values()]
    plane, *_ = np.linalg.lstsq(np.array(points), np.array(list(leaves.values())), rcond=None)
    after = state_of(stand, Faults())
    for corner, leaf in leaves.items():
        after = done(after, controls(stand)[f"shim the standard, {corner} screw,"], leaf, 0.0)
    hidden = after.practice.hidden
    got = [hidden[name] for name in ("seat", "tilt_x", "tilt_y")]
    assert got == pytest.approx(plane.tolist(), abs=1e-12)


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_a_new_scale_takes_the_focal_length_s_error_away(stand: Stand) -> None:
    """A scale made for the true focal length leaves no error and the very same lens."""
    scale = controls(stand)["make the scale"]
    after = done(state_of(stand, Faults(focal=0.5)), scale, 0.5, 0.0).practice
    assert after.hidden["focal"] == pytest.approx(0.0)
    before, now = (c.constants for c in (stand.camera, after.camera))
    name = next(n for n in now if "focal" in n)
    assert now[name] - before[name] == pytest.approx(0.5)


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_a_hand_misses_by_its_limit_at_most(stand: Stand) -> None:
    """The worst miss either way moves each fault by the limit, and nothing is missed by a start."""
    for control in controls(stand).values():
        ends = [done(state_of(stand, Faults()), control, 1.0, miss) for miss in (-1.0, 1.0)]
        low, high = (end.practice.hidden.vector for end in ends)
        for name, effect in control.effects.items():
            moved = abs(high[AT[name]] - low[AT[name]])
            assert moved == pytest.approx(2 * control.limit * abs(effect))
        assert (control.limit == 0.0) is (control.unit == "starts")


def test_the_height_screw_moves_the_height_alone() -> None:
    """A whole turn of the height screw is 8 minutes of arc, and no fault changes."""
    screw = controls(OSTRIN)["turn the height screw"]
    after = done(state_of(OSTRIN, Faults()), screw, 1.0, 0.0)
    assert after.height == pytest.approx(math.radians(8 / 60))
    assert pytest.approx(math.radians(8 / 60)) == HEIGHT_PER_TURN
    assert np.all(after.practice.hidden.vector == 0.0)


def test_controls_are_those_of_the_camera() -> None:
    """Only a thread can be entered anew, only a bed has a pointer, only a finder has screws."""
    names = {stand.camera.name: " ".join(controls(stand)) for stand in STANDS}
    assert "enter the thread" in names[OSTRIN.camera.name]
    assert "enter the thread" not in names[CORVANE.camera.name]
    assert "front cell" in names[CORVANE.camera.name]
    assert "screw," in names[CORVANE.camera.name]
    assert "infinity screw" not in names[CORVANE.camera.name]
    assert isinstance(TARNBROOK.camera.focusing, Bed)
    assert "pointer" in names[TARNBROOK.camera.name]


def test_engraved_for_leaves_the_faults_alone() -> None:
    """A scale for another focal length changes the engraving and nothing hidden."""
    before = PracticeCamera(OSTRIN.camera, Faults(focal=0.3), OSTRIN.at_hand)
    after = before.engraved_for(47.3)
    assert after.camera.lens.focal_length == 47.3
    assert after.hidden == before.hidden
