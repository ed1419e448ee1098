"""A straight lever bows between its settings; a cam follows its own lens."""

import math

import pytest

from optics.world.coupling import Coupling
from optics.world.glass import Glass
from optics.world.lens import Lens, Stand

THIN = Lens(Glass((1 / 50, -1 / 50), (1e-9, 0.0), (1.5, 1.0), 1, 0.0, 1), 2e5)
LEVER = Coupling(base=40.0, before_film=20.0, magnification=1.0, near=1000.0)


def test_the_lens_of_the_example_is_thin() -> None:
    """The glass of these tests is a thin lens of 50 mm without hiatus."""
    assert THIN.glass.focal_length == pytest.approx(50, rel=1e-9)
    assert THIN.glass.hiatus == pytest.approx(0, abs=1e-8)


def test_the_bow_of_a_straight_lever() -> None:
    """With f 50, base 40, 20 before the film, right at ∞ and 1 m, it is +0.063 mm out at 2 m."""
    # Recorded from patents on couplings (CH 296355 and DE 643177 say that it must be so).
    out = LEVER.out(THIN, 2000.0)
    assert THIN.defocus(2000.0, Stand(out)) == pytest.approx(0.063, abs=0.0005)
    for distance in (math.inf, 1000.0):
        out = LEVER.out(THIN, distance)
        assert THIN.defocus(distance, Stand(out)) == pytest.approx(0, abs=1e-8)


def test_the_lens_of_a_lever_by_hand() -> None:
    """At 2 m the lever has turned 1980⁻¹ : 980⁻¹ of its way, by the angles' tangents 0.4950."""
    turned = LEVER.out(THIN, 2000.0) / THIN.needs(1000.0)
    assert turned == pytest.approx(math.atan(40 / 1980) / math.atan(40 / 980), rel=1e-12)
    assert turned == pytest.approx(0.4950, abs=0.0005)


def test_a_cam_follows_the_lens_it_was_cut_for() -> None:
    """A cam of its own lens is right everywhere; another's is off in proportion to the way."""
    cam = Coupling(40.0, 20.0, 1.0, 1000.0, joined="cam")
    other = Lens(THIN.glass.scaled(51.5), 2e5)
    assert cam.out(THIN, 2000.0) == THIN.needs(2000.0)
    assert cam.out(THIN, math.inf, other) == 0
    wrong = cam.out(THIN, 1000.0, other) / THIN.needs(1000.0)
    # Extension goes as f²: 1.03² = 1.0609, and a little more close up.
    assert wrong == pytest.approx(1.0609, abs=0.006)
