"""Steps of a plan done on a traced camera, as hands do them."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from optics.errors import Unreadable
from optics.world.build import Faults, Unmodelled
from optics.world.camera import TracedCamera
from optics.world.draw import BUILDS
from optics.world.hands import STEADY, Hands, carry_out
from optics.world.judge import errors_on_film
from optics.world.scale import NewCellScale, NewScale
from optics.world.typed import exactly

OSTRIN, CORVANE, TARNBROOK = BUILDS[0], BUILDS[3], BUILDS[5]


def done(
    camera: TracedCamera, *steps: dict[str, float], hands: Hands = STEADY, **typed: float
) -> TracedCamera:
    """The camera after steps that each change these faults, by figures otherwise typed."""
    plan = [{"changes": {name: {"value": by} for name, by in step.items()}} for step in steps]
    result: dict[str, Any] = {"diagnosis": {"plan": {"steps": plan}}}
    figures = replace(exactly(camera), **typed)  # type: ignore[arg-type]
    return carry_out(camera, result, figures, hands, np.random.default_rng(3))


@pytest.mark.parametrize(
    ("name", "fault", "change"),
    [
        ("seat", {"seat": -0.1}, 0.1),
        ("stop", {"stop": 0.3}, -0.3),
        ("gate", {"gate": 0.08}, -0.08),
        ("ring", {"ring": -0.2}, 0.2),
        ("zero", {"zero": 0.25}, -0.25),
        ("gain", {"gain": 0.04}, -0.04),
        ("start", {"starts": 2}, -6.0),
    ],
)
def test_what_is_wrong_by_so_much_is_put_right_by_as_much(
    name: str, fault: dict[str, float], change: float
) -> None:
    """Steady hands with true figures undo each fault by its own amount at the film."""
    camera = TracedCamera(OSTRIN, Faults(**fault))  # type: ignore[arg-type]
    assert done(camera, {name: change}).faults == Faults()


def test_a_front_cell_is_turned_by_the_figures_that_were_typed() -> None:
    """With its cell guessed a tenth too long, 0.2 mm at the film is turned by a fifth too much."""
    camera = TracedCamera(CORVANE)
    guessed = 1.1 * exactly(camera).cell
    out = done(camera, {"ring": 0.2}, cell=guessed).faults.ring
    right = done(camera, {"ring": 0.2}).faults.ring
    assert out / right == pytest.approx(1.21, abs=1e-9)
    assert right == pytest.approx(0.2 * (34.419 / 50) ** 2, rel=2e-3)


def test_screws_do_what_they_do() -> None:
    """A screw said to do 0.2 mm a turn that does 0.24 goes a fifth too far, and spills."""
    hidden = Unmodelled(screws=(1.2, 1.2), spill=0.1)
    camera = TracedCamera(OSTRIN, unmodelled=hidden)
    assert done(camera, {"zero": 0.1}).faults.zero == pytest.approx(0.12)
    turned = done(camera, {"gain": 0.05}).faults
    near = OSTRIN.works.needs(1000.0)
    assert turned.gain == pytest.approx(0.06)
    assert turned.zero == pytest.approx(0.1 * 0.06 * near)


def test_leaves_under_four_screws() -> None:
    """A lean is taken out by leaves that lift the middle as well."""
    camera = TracedCamera(OSTRIN, Faults(tilt=(0.002, -0.001)))
    changes = {"tilt_x": -0.002, "tilt_y": 0.001, "seat": 0.05}
    squared = done(camera, changes).faults
    assert squared.tilt == pytest.approx((0.0, 0.0), abs=1e-12)
    assert squared.seat == pytest.approx(0.05)


def test_a_new_scale_is_cut_for_what_was_worked_out() -> None:
    """A change of focal length is a scale for so much another one, of lens or of cell."""
    # Through a narrow stop; a wide one's aberration changes close up, and no scale's law has it.
    lens = TracedCamera(replace(OSTRIN, f_number=64.0), Faults(focal=0.01))
    after = done(lens, {"focal": -0.5})
    assert isinstance(after.new_scale, NewScale)
    assert after.new_scale.focal_length == pytest.approx(50.5)
    assert errors_on_film(lens)["1 m mark"] == pytest.approx(-0.058, abs=0.003)
    assert errors_on_film(after)["1 m mark"] == pytest.approx(0.0, abs=1e-3)
    cell = done(TracedCamera(CORVANE), {"focal": -0.5}).new_scale
    assert isinstance(cell, NewCellScale)
    assert cell.focal_length == pytest.approx(exactly(TracedCamera(CORVANE)).cell + 0.5)


@pytest.mark.parametrize("build", [OSTRIN, CORVANE, TARNBROOK], ids=lambda one: one.name)
def test_hands_miss_and_stay_within_their_limits(build) -> None:  # type: ignore[no-untyped-def]
    """Real hands leave a little of each fault, never more than they are said to."""
    camera = TracedCamera(build, Faults(seat=-0.1, stop=0.3 / build.film_effect))
    after = done(camera, {"seat": 0.1}, {"stop": -0.3}, hands=Hands()).faults
    assert 0 < abs(after.seat) <= Hands().leaf
    assert 0 < abs(after.stop) * build.film_effect <= 1.01 * Hands().stop


def test_a_change_that_no_hand_knows_is_refused() -> None:
    """A change of something unheard of is refused by its name."""
    with pytest.raises(Unreadable, match="'bellows'"):
        done(TracedCamera(OSTRIN), {"bellows": 0.1})
