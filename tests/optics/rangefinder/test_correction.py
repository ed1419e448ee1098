"""From what was found to what is to be changed."""

import math

import pytest

from optics.rangefinder.correction import correct
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
