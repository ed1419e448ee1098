"""From what was found to what is to be changed."""

import math

import numpy as np
import pytest

from optics.measure.uncertainty import exact
from optics.rangefinder.adjusters import History, State, learn
from optics.rangefinder.correction import correct, turns
from optics.rangefinder.coupling import Coupling, set_at
from optics.rangefinder.fit import fit
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import Coincidence
from tests.optics.rangefinder.test_fit import meeting
from tests.optics.rangefinder.workshop import camera, extension

FINDER, BODY = Rangefinder(40.0, 20.0), camera(50, 2)
WANTED = set_at(BODY, FINDER, math.inf, 1000.0)
HIDDEN = Coupling(5e-4, WANTED.gain * 1.04)


def found() -> tuple[Coincidence, ...]:
    """Return readings of the hidden coupling."""
    return tuple(meeting(x, HIDDEN) for x in (0.0, 1.2, 2.8))


def test_the_changes_turn_the_coupling_into_the_wanted_one() -> None:
    """Zero and gain found, plus the changes told, are the wanted ones."""
    correction = correct(fit(BODY, FINDER, found(), WANTED), WANTED, math.inf, 1000.0)
    assert correction.zero.value == pytest.approx(-5e-4, rel=1e-6)
    assert correction.gain_ratio.value == pytest.approx(-0.04, rel=1e-6)
    out = extension(50, 1000)
    assert correction.near_angle.value == pytest.approx(-0.04 * WANTED.gain * out, rel=1e-6)
    # The lens comes to rest where the hidden linkage meets the angle.
    assert correction.far.value == pytest.approx(-5e-4 / HIDDEN.gain, rel=1e-6)
    near = (math.atan2(40, 980) - 5e-4) / HIDDEN.gain - out
    assert correction.near.value == pytest.approx(near, rel=1e-6)
    assert correction.near.standard > 0


def test_turns_undo_the_errors_by_the_learned_table() -> None:
    """By hand: errors of 0.2 and 0.3 mm, 0.4 and 0.5 mm per turn alone, need −1/2 and −3/5."""
    history = History(State(0.2, 0.3)).then(0.25, 0, 0.3, 0.3).then(0, 0.25, 0.3, 0.425)
    learned = learn(history, FINDER)
    np.testing.assert_allclose(learned.table, [[0.4, 0.0], [0.0, 0.5]], atol=1e-4)
    correction = correct(fit(BODY, FINDER, found(), WANTED), WANTED, math.inf, 1000.0)
    zero, gain = turns(
        type(correction)(
            correction.zero, correction.gain_ratio, correction.near_angle, exact(0.2), exact(0.3)
        ),
        learned,
    )
    assert (zero, gain) == pytest.approx((-0.5, -0.6), abs=1e-3)
