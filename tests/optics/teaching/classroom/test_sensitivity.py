"""What a small change of a figure does to an answer."""

import math

import pytest

from optics.teaching.classroom.sensitivity import nudge_line, nudges
from optics.theory.helicoid import start_shift
from optics.theory.lens import unit_focusing

FORMULA = unit_focusing.solve_for("extension")
LENS = {"focal_length": 50.0, "hiatus": 0.0, "film_distance": 1000.0}


def test_change_is_what_the_figure_really_does() -> None:
    """For a hundredth of each input the change foretold is the difference of two answers."""
    for nudge in nudges(FORMULA, LENS):
        moved = LENS | {nudge.quantity.name: LENS[nudge.quantity.name] + nudge.step}
        change = FORMULA.value(**moved) - FORMULA.value(**LENS)
        assert nudge.change == pytest.approx(change, rel=0.03)


def test_steps_are_what_a_shop_would_take() -> None:
    """A step is about a hundredth, one digit long; from nothing a hundredth of a millimetre."""
    steps = {nudge.quantity.name: nudge.step for nudge in nudges(FORMULA, LENS)}
    assert steps == {"focal_length": 0.5, "hiatus": 0.01, "film_distance": 10.0}
    moved = nudges(start_shift.solve_for("travel"), {"starts_moved": 1, "lead": 18, "starts": 6})
    assert {n.quantity.name: n.step for n in moved} == {"starts_moved": 1, "lead": 0.2, "starts": 1}


def test_infinity_is_left_out() -> None:
    """Nobody steps beyond infinity, so it has no line."""
    far = LENS | {"film_distance": math.inf}
    names = {nudge.quantity.name for nudge in nudges(FORMULA, far)}
    assert names == {"focal_length", "hiatus"}


def test_line_says_which_way() -> None:
    """A longer lens needs more extension, a farther subject less, each said in words."""
    lines = {n.quantity.name: nudge_line(n, FORMULA.form.unknown) for n in nudges(FORMULA, LENS)}
    assert lines["focal_length"].startswith(
        "If the focal length grows by 0.5 mm (19.7 thou), the extension of the lens from its "
        "infinity position grows by 0.05"
    )
    assert " falls by " in lines["film_distance"]
    far = nudges(FORMULA, LENS | {"film_distance": math.inf})
    assert nudge_line(far[0], FORMULA.form.unknown).endswith("stays as it is.")
