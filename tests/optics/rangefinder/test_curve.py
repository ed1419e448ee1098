"""The error curve, infinity by distance, and height on leaning edges."""

import math

import numpy as np
import pytest

from optics.camera.camera import Camera, FrontCell, Lens, Turn
from optics.rangefinder.acuity import WORKING
from optics.rangefinder.coupling import Coupling, set_at
from optics.rangefinder.curve import curve, far_target, height_effect
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import where_to_set
from tests.optics.rangefinder.workshop import camera, extension, sight_angle

FINDER, BODY = Rangefinder(40.0, 20.0, 0.8), camera(50, 2)


def test_the_curve_is_ready_to_plot() -> None:
    """All arrays have one length, begin at infinity and end near, and hold no gaps."""
    advice = where_to_set(BODY, FINDER, 1000.0)
    named = {"before": Coupling(8e-4, 0.0143), "best pair": advice.best_pair.coupling}
    found = curve(BODY, FINDER, named, 1000.0, WORKING)
    assert list(found.errors) == list(named)
    assert found.film_distance[0] == math.inf
    assert found.film_distance[-1] == 1000
    assert found.per_metre[0] == 0
    assert found.per_metre[-1] == 1
    for array in (*found.errors.values(), found.band, found.per_metre):
        assert array.shape == found.film_distance.shape
        assert np.isfinite(array).all()
    for i in (0, 40, 120):
        distance = float(found.film_distance[i])
        stands = (sight_angle(40, 20, distance) - 8e-4) / 0.0143
        expected = stands - extension(50, distance)
        assert found.errors["before"][i] == pytest.approx(expected, abs=1e-9)
    # N·c at infinity; nearer it grows by the magnification, here by x/f.
    assert found.band[0] == pytest.approx(0.06)
    assert found.band[-1] == pytest.approx(0.06 * (1 + extension(50, 1000) / 50))


def test_the_band_of_a_front_cell_is_level() -> None:
    """A front cell leaves the depth of focus as it is, so its band is N·c from end to end."""
    cell = FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0)
    folder = Camera("folder", Lens(75.0, 3.5), cell, 0.05)
    band = curve(folder, FINDER, {}, 1000.0, WORKING).band
    assert band == pytest.approx(np.full(band.size, 0.175), rel=1e-12)


# Where halving intervals on the thin-lens equation sets the lens; 2.303 mm is that of 105 mm at 5 m
# from the film, not 105²/(5000 − 105) = 2.252 mm, which would be 5 m from the lens.
@pytest.mark.parametrize(
    ("focal_length", "distance", "left"),
    [(50, 25_100.1, 0.1), (50, 250_100.01, 0.01), (50, math.inf, 0.0), (105, 5000.0, 2.303)],
)
def test_a_far_target_leaves_what_it_leaves(
    focal_length: int, distance: float, left: float
) -> None:
    """A target at a distance from the film leaves the lens as far out as it must stand for it."""
    found = far_target(camera(focal_length, 2), FINDER, WORKING, distance)
    assert found.lens_error == pytest.approx(left, abs=5e-4)
    assert found.lens_error == pytest.approx(extension(focal_length, distance), abs=1e-9)
    assert found.angle == pytest.approx(sight_angle(40, 20, distance), rel=1e-12)
    assert found.of_acuity == pytest.approx(found.angle * 0.8 * 3437.7468, rel=1e-6)


def test_a_far_target_of_a_front_cell_is_told_at_the_film() -> None:
    """A cell that must move 1 mm for a target leaves 2.25 mm at the film of a lens of (75/50)²."""
    cell = FrontCell(50.0, 9.0, Turn.CLOCKWISE, cell_to_film=80.0)
    folder = Camera("folder", Lens(75.0, 3.5), cell, 0.05)
    # u − f₁ = 2500 makes the movement 50²/2500 = 1, and D = K + t + u.
    found = far_target(folder, FINDER, WORKING, 80.0 + 1 + 2550)
    assert found.lens_error == pytest.approx(2.25)


def test_height_counts_on_leaning_edges_only() -> None:
    """One milliradian of height on a 45° edge is one of convergence; on an upright one none."""
    coupling = set_at(BODY, FINDER, math.inf, 1000.0)
    assert height_effect(BODY, coupling, 1e-3, 0.0) == 0
    leaning = height_effect(BODY, coupling, 1e-3, math.radians(45))
    assert leaning == pytest.approx(1e-3 / coupling.gain)
    assert height_effect(BODY, coupling, 1e-3, -math.radians(45)) == pytest.approx(-leaning)
