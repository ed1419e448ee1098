"""Lens and rangefinder together, against a lens placed by halving and sights drawn."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera, FrontCell, Lens, Turn
from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate, Source
from optics.rangefinder.coupling import (
    Coupling,
    film_error,
    film_error_estimate,
    film_errors,
    film_factor,
    set_at,
)
from optics.rangefinder.model import Rangefinder
from tests.optics.rangefinder.workshop import camera, extension, halved, sight_angle


def test_exact_at_both_ends_is_wrong_between() -> None:
    """f 50, base 40, 20 before the film, exact at infinity and 1 m: 0.063 mm out at 2 m."""
    finder, body = Rangefinder(40.0, 20.0), camera(50, 2)
    coupling = set_at(body, finder, math.inf, 1000.0)
    # Derived independently: the angle at 2 m over the gain, less the lens placed by halving.
    gain = math.atan2(40, 980) / extension(50, 1000)
    expected = math.atan2(40, 1980) / gain - extension(50, 2000)
    assert film_error(body, finder, coupling, 2000.0) == pytest.approx(expected, abs=1e-12)
    assert expected == pytest.approx(0.063, abs=5e-4)
    assert expected > body.depth_of_focus


@settings(deadline=None)
@given(
    zero=st.floats(-1e-3, 1e-3),
    stretch=st.floats(0.9, 1.1),
    curvature=st.floats(-2e-4, 2e-4),
    subject=st.floats(900, 1e6),
)
def test_the_lens_stands_where_the_linkage_meets_the_angle(
    zero: float, stretch: float, curvature: float, subject: float
) -> None:
    """Halving for the extension at which linkage and sight agree gives the same film error."""
    finder, body = Rangefinder(40.0, 20.0), camera(50, 2)
    coupling = Coupling(zero, 0.0146 * stretch, curvature)
    angle = sight_angle(40, 20, subject)
    stands = halved(
        lambda x: coupling.zero + coupling.gain * x + coupling.curvature * x * x - angle, -1, 6
    )
    expected = stands - extension(50, subject)
    assert film_error(body, finder, coupling, subject) == pytest.approx(expected, abs=1e-9)


@given(near=st.floats(700, 3000), far=st.one_of(st.just(math.inf), st.floats(4000, 1e6)))
@settings(deadline=None)
def test_a_coupling_is_exact_where_it_is_set(near: float, far: float) -> None:
    """Set at two distances, with some curvature or none, both errors vanish."""
    finder, body = Rangefinder(45.0, 10.0), camera(47, 2.8)
    for curvature in (0.0, 1.5e-4, -1.5e-4):
        coupling = set_at(body, finder, far, near, curvature)
        errors = film_errors(body, finder, coupling, np.array([far, near]))
        np.testing.assert_allclose(errors, 0, atol=1e-9)


def test_one_distance_twice_sets_nothing() -> None:
    """Two equal distances are refused with what to do."""
    with pytest.raises(NoAnswer, match="two different distances"):
        set_at(camera(), Rangefinder(40.0), 1000.0, 1000.0)


def test_a_front_cell_counts_by_its_square() -> None:
    """For a front cell of 50 mm in a lens of 75 mm, a mm of the cell is 2.25 mm at the film."""
    cell = FrontCell(50.0, 9.0, Turn.CLOCKWISE, 90.0)
    body = Camera("Sample", Lens(75.0, 3.5), cell, 0.05)
    assert film_factor(body) == pytest.approx(2.25)
    finder = Rangefinder(50.0, 20.0)
    coupling = set_at(body, finder, math.inf, 1500.0)
    shifted = Coupling(coupling.zero - 0.1 * coupling.gain, coupling.gain)
    assert film_error(body, finder, shifted, math.inf) == pytest.approx(0.225)


def test_an_uncertain_zero_and_gain_stay_together() -> None:
    """Where zero and gain share one source, their effects on the film error may cancel."""
    finder, body = Rangefinder(40.0, 20.0), camera(50, 2)
    coupling = set_at(body, finder, math.inf, 1000.0)
    shared = Source("one reading")
    out = extension(50, 1000)
    figures = {
        "zero_error": Estimate(coupling.zero, {shared: 1e-4}),
        "gain": Estimate(coupling.gain, {shared: -1e-4 / out}),
        "coupling_curvature": Estimate(0.0),
    }
    assert film_error_estimate(body, finder, figures, 1000.0).standard == pytest.approx(0, abs=1e-9)
    at_infinity = film_error_estimate(body, finder, figures, math.inf)
    assert at_infinity.standard == pytest.approx(1e-4 / coupling.gain)
