"""Shims under the standard's screws, from the leaves there are."""

import re
from collections import Counter

import pytest

from optics.finding.causes.seat import SEAT
from optics.finding.causes.tilt import TILT
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.plan import make_plan
from optics.moves import AtHand, Made, Outcome, Refused, Workshop
from optics.moves.standard import STANDARD
from optics.units import Leaves
from tests.optics.teaching.bench_day import AT_HAND, FULL_ROUND, HELICOID, all_shown

COARSE: Leaves = ((0.05, 4), (0.1, 4))


def squared(tilt_x: float, tilt_y: float, drawer: Leaves) -> Outcome:
    """Ask for these slopes to be added, from a drawer."""
    wanted = {"tilt_x": tilt_x, "tilt_y": tilt_y}
    return STANDARD.made(HELICOID, AtHand(Workshop(drawer)), wanted)


@pytest.mark.parametrize("slopes", [(0.001, 0.0), (-0.0008, 0.001), (0.002, 0.0013), (0.0, -0.002)])
def test_only_leaves_of_the_drawer_are_asked_for(slopes: tuple[float, float]) -> None:
    """With leaves of 0.05 and 0.1 mm every thickness asked for can be made of them."""
    done = squared(*slopes, COARSE)
    assert isinstance(done, Made)
    said = [float(t) for t in re.findall(r"([\d.]+) mm at the", done.instruction)]
    assert said
    for thickness in said:
        assert thickness / 0.05 == pytest.approx(round(thickness / 0.05))
    used = Counter(dict(done.leaves))
    assert sum(t * n for t, n in used.items()) == pytest.approx(sum(said))
    assert all(count <= dict(COARSE)[thickness] for thickness, count in used.items())


def test_a_pack_of_several_leaves_names_them() -> None:
    """A lean of 0.003 to the right, 0.15 mm at 50 mm, takes 0.1 and 0.05 mm on the right."""
    done = squared(0.003, 0.0, COARSE)
    assert isinstance(done, Made)
    assert "0.15 mm at the top right (0.1 + 0.05), 0.15 mm at the bottom right" in done.instruction
    assert done.changes["tilt_x"].value == pytest.approx(0.003)


def test_where_no_leaf_helps_none_is_asked_for() -> None:
    """A lean of 0.04 mm over the screws is not put right with leaves of 0.2 mm."""
    refused = squared(0.0008, 0.0, ((0.2, 4),))
    assert isinstance(refused, Refused)
    assert refused.reason.startswith("No leaves in the drawer make the standard squarer")


def test_a_square_standard_is_left_alone() -> None:
    """A lean of less than 0.01 mm over the screws is none."""
    refused = squared(0.0001, 0.0, COARSE)
    assert isinstance(refused, Refused)
    assert "leave it alone" in refused.reason


def test_without_a_drawer_the_leaves_are_said_in_hundredths() -> None:
    """Where nobody said what leaves there are, the thickness itself is asked for."""
    done = squared(0.0008, 0.0, ())
    assert isinstance(done, Made)
    assert "0.04 mm at the top right, 0.04 mm at the bottom right" in done.instruction


def test_a_leaf_is_not_used_twice() -> None:
    """What goes under the standard is no longer there for the seat."""
    hidden = Faults(tilt_x=-0.002, seat=-0.05)
    drawer = ((0.1, 2), (0.05, 1), (0.02, 3), (0.03, 2))
    bench = AtHand(Workshop(drawer, ((0.1, 1),)), AT_HAND.zero_screw, AT_HAND.gain_screw)
    plan = make_plan(diagnose(HELICOID, all_shown(HELICOID, hidden, FULL_ROUND)), bench)
    causes = [step.adjustment.cause for step in plan.steps]
    assert causes[0] is TILT
    rest = bench.less(plan.steps[0].adjustment.leaves).workshop.drawer
    assert dict(rest) == {
        t: n - dict(plan.steps[0].adjustment.leaves).get(t, 0)
        for t, n in drawer
        if n > dict(plan.steps[0].adjustment.leaves).get(t, 0)
    }
    for step in plan.steps:
        if step.adjustment.cause is SEAT:
            assert "2 × 0.1" not in step.adjustment.instruction.partition(" in place")[0]
