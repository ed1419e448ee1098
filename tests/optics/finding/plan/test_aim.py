"""The choice of amounts together, against trying everything."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.finding.causes import AT
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.causes.zero import ZERO
from optics.finding.plan.aim import Target, choose_controls, on_lattice

SIZES = np.ones(len(AT))
LENS = (SEAT, RING, THE_STOP)


def faults(**figures: float) -> np.ndarray:
    """Give a vector of faults."""
    vector = np.zeros(len(AT))
    for name, figure in figures.items():
        vector[AT[name]] = figure
    return vector


def target(*rows: dict[str, float]) -> Target:
    """Give duties of tolerance 0.04 mm."""
    return Target(np.array([faults(**row) for row in rows]), np.full(len(rows), 0.04))


GAUGE, STOP = {"seat": 1.0}, {"seat": 1.0, "stop": 1.0}
MARK, NEAR = {"seat": 1.0, "ring": 1.0}, {"seat": 1.0, "ring": 1.0, "focal": -0.07}
PAIRS = ({"zero": 1.0, "gain": 0.2}, {"zero": 1.0, "gain": 2.4})
each = st.floats(-0.3, 0.3)


@settings(max_examples=60, deadline=None)
@given(each, st.floats(-0.05, 0.05))
def test_the_screws_together_leave_the_least_worst_error(zero: float, gain: float) -> None:
    """No other eighths of both rangefinder screws leave a smaller worst error."""
    wanted, found = target(*PAIRS), faults(zero=zero, gain=gain)
    steps = (0.025, 0.0025)
    change = on_lattice(wanted, found, (ZERO, GAIN), steps, SIZES)
    left = wanted.worst(found + change)
    for z, g in product(range(-16, 17), range(-26, 27)):
        tried = wanted.worst(found + faults(zero=z * steps[0], gain=g * steps[1]))
        # A little may be given up for the sake of the other errors.
        assert left <= tried + 0.1


@settings(max_examples=40, deadline=None)
@given(each, each, each)
def test_enough_controls_leave_nothing(seat: float, ring: float, stop: float) -> None:
    """With one control for each fault the free amounts bring every error to nothing."""
    wanted, found = target(GAUGE, STOP, MARK), faults(seat=seat, ring=ring, stop=stop)
    change = wanted.wanted(found, LENS, SIZES)
    assert wanted.worst(found + change) < 0.01


def test_a_leading_cause_that_matters_is_put_right_itself() -> None:
    """A faulty gate is put right at the gate, not hidden by the ring."""
    wanted = target({"gate": 1.0, "seat": 1.0, "ring": 1.0}, GAUGE)
    chosen = choose_controls(wanted, faults(gate=0.09), (GATE,), (*LENS, GATE), SIZES)
    assert chosen == (GATE,)


def test_a_leading_cause_that_hardly_matters_is_left_alone() -> None:
    """A cause whose own effect is a tenth of the tolerance is left alone."""
    wanted = target(GAUGE, MARK)
    assert choose_controls(wanted, faults(seat=0.004), (SEAT,), LENS, SIZES) == ()


def test_what_else_is_needed_is_added() -> None:
    """Where the leading causes leave an error, the control that mends it is added."""
    wanted = target(GAUGE, STOP, MARK)
    found = faults(seat=0.1, stop=0.05)
    assert set(choose_controls(wanted, found, (SEAT,), LENS, SIZES)) == {
        SEAT,
        THE_STOP,
    }


def test_least_squares_shares_out_what_cannot_be_mended() -> None:
    """With the ring alone, an error at the near mark only is shared between both marks."""
    wanted = target(MARK, NEAR)
    found = faults(focal=1.0)
    change = wanted.wanted(found, (RING,), SIZES)
    assert change[AT["ring"]] == pytest.approx(0.035, abs=1e-4)
