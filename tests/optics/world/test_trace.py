"""Real rays against other tracers and textbooks, and focus shift against the third order."""

import mpmath
import numpy as np
import pytest
from mpmath import mpf
from prysm.experimental.raytracing.spencer_and_murty import raytrace
from prysm.experimental.raytracing.surfaces import Surface

from optics.errors import NoAnswer
from optics.world import prescriptions
from optics.world.glass import Glass, glass_of
from optics.world.prescriptions import Prescription
from optics.world.trace import (
    RHO,
    Fan,
    best_focus,
    fan_through,
    least_spot,
    most_contrast,
    stop_radius,
    traced,
)
from tests.published.test_triplet_trace import Face
from tests.published.test_triplet_trace import traced as many_digits

GREEN = 0.55e-3


def faces_of(glass: Glass) -> tuple[Face, ...]:
    """The same faces for the tracer with forty digits."""
    places = np.cumsum([0.0, *glass.gaps[:-1]])
    return tuple(
        Face(mpf(place), 1 / mpf(curvature or 1e-30), mpf(index))
        for place, curvature, index in zip(places, glass.curvatures, glass.indices, strict=True)
    )


def with_many_digits(glass: Glass, height: float, vergence: float) -> tuple[float, float]:
    """Height at the last vertex and slope of a ray, traced with forty digits."""
    with mpmath.workdps(40):
        faces, slope = faces_of(glass), mpf(height) * mpf(vergence)
        length = mpmath.sqrt(1 + slope**2)
        start = (-mpf(10), height - 10 * slope)
        z, y, out = many_digits(faces, *start, (1 / length, slope / length))
        return float(y + (faces[-1].place - z) * out), float(out)


@pytest.mark.parametrize("vergence", [0.0, 1 / 700, -1 / 5000])
@pytest.mark.parametrize("printed", prescriptions.ALL, ids=lambda one: one.kind)
def test_wide_rays_agree_with_another_tracer(printed: Prescription, vergence: float) -> None:
    """Rays of a wide beam, parallel, spreading or converging, leave as forty digits have it."""
    glass = glass_of(printed).scaled(50.0)
    heights = np.array([0.5, 2.0, 4.0])
    own = traced(glass, vergence, heights)
    others = [with_many_digits(glass, float(height), vergence) for height in heights]
    assert own.heights == pytest.approx([y for y, _ in others], abs=1e-12)
    assert own.slopes == pytest.approx([slope for _, slope in others], abs=1e-13)


@pytest.mark.parametrize("printed", prescriptions.ALL, ids=lambda one: one.kind)
def test_a_ray_tracing_library_agrees_near_the_axis(printed: Prescription) -> None:
    """Followed by prysm and extrapolated to the axis, rays meet at the back focus."""
    # Away from the axis prysm 0.21 does not keep a refracted ray's direction at length one.
    glass = glass_of(printed).scaled(50.0)
    places = np.cumsum([0.0, *glass.gaps[:-1]])
    faces = [
        Surface.sphere(curvature, "refr", place, lambda _, n=index: n)
        for curvature, place, index in zip(glass.curvatures, places, glass.indices, strict=True)
    ]
    heights = np.array([0.2, 0.1, 0.05])
    starts = np.stack([np.zeros(3), heights, np.full(3, -10.0)], axis=1)
    met, out = raytrace(faces, starts, np.tile([0.0, 0.0, 1.0], (3, 1)), 0.5876)
    (_, y, z), (_, m, n) = met[-1].T, out[-1].T
    foci = z - y * n / m - places[-1]
    once = (4 * foci[1:] - foci[:-1]) / 3
    assert (16 * once[1] - once[0]) / 15 == pytest.approx(glass.back_focus, rel=1e-7)


def test_a_sphere_is_free_of_aberration_at_its_aplanatic_points() -> None:
    """Rays aimed n·r behind a sphere's centre all meet r/n behind it, however wide."""
    # Born and Wolf, Principles of Optics, 4.2.3: the aplanatic points of a sphere.
    radius, index = 20.0, 1.5
    glass = Glass((1 / radius,), (0.0,), (index,), 1, 0.0, 1)
    aimed = radius * (1 + index)
    heights = np.array([1.0, 5.0, 9.0])
    fan = traced(glass, -1 / aimed, heights)
    assert -fan.heights / fan.slopes == pytest.approx(radius * (1 + 1 / index), rel=1e-12)


def test_a_beam_is_focused_where_its_rays_are_least_spread() -> None:
    """The triplet at f/4 is sharp where thousands of rays spread least, 0.136 mm inside."""
    glass = glass_of(prescriptions.TRIPLET)
    rim = fan_through(glass, 0.0, stop_radius(glass, 4.0))
    heights = np.linspace(0.001, 50 / 8, 2000)
    fan = traced(glass, 0.0, heights)
    places = np.arange(41.0, 41.3, 0.0005)
    spots = (fan.heights + np.outer(places, fan.slopes)) ** 2
    spread = np.average(spots, axis=1, weights=heights)
    assert least_spot(rim) == pytest.approx(float(places[spread.argmin()]), abs=0.002)
    assert glass.back_focus - least_spot(rim) == pytest.approx(0.136, abs=0.002)


def test_the_rim_of_the_stop_bounds_the_beam() -> None:
    """A far beam has its f-number, and a near subject's beam goes through the same stop."""
    glass = glass_of(prescriptions.DOUBLE_GAUSS)
    radius = stop_radius(glass, 2.8)
    far = fan_through(glass, 0.0, radius)
    assert np.abs(far.slopes).max() / RHO.max() == pytest.approx(1 / (2 * 2.8), rel=0.02)
    near = fan_through(glass, 1 / 500, radius)
    # The nearer subject's image lies farther off, and its beam is so much slimmer.
    assert np.abs(near.slopes).max() < np.abs(far.slopes).max()


def aberrated(f_number: float, waves: float) -> Fan:
    """A beam of so many waves of third-order spherical aberration, at its focus near the axis."""
    return Fan(8 * f_number * waves * GREEN * RHO**3, -RHO / (2 * f_number))


@pytest.mark.parametrize("waves", [1, 2, 4])
def test_least_spot_lies_at_two_thirds(waves: int) -> None:
    """With W waves the spot is least at ⅔ of the rim's focus, 16·N²·W behind the axis's."""
    # Welford, Aberrations of Optical Systems: the rim's focus, and two thirds of it.
    expected = 2 / 3 * 16 * 2.8**2 * waves * GREEN
    assert least_spot(aberrated(2.8, waves)) == pytest.approx(expected, rel=1e-9)


# Recorded from an earlier simulation of bars: 1, 2 and 4 waves at f/2.8, one stop down, in µm.
@pytest.mark.parametrize(("waves", "recorded"), [(1, 23), (2, 44), (4, 86)])
def test_focus_shifts_one_stop_down(waves: int, recorded: float) -> None:
    """One stop down a quarter of the aberration is left and focus moves by what was recorded."""
    wide, narrow = aberrated(2.8, waves), aberrated(2.8 * 2**0.5, waves / 4)
    shift = least_spot(wide) - least_spot(narrow)
    assert 1000 * shift == pytest.approx(recorded, rel=0.08)


def test_bars_move_the_focus_more_the_finer_they_are() -> None:
    """With 4 waves at f/2.8 bars of 5 and of 30 lines part by some tens of µm, with 1 wave not."""
    strong, weak = aberrated(2.8, 4), aberrated(2.8, 1)
    parted = most_contrast(strong, 5.0) - most_contrast(strong, 30.0)
    assert 0.010 < parted < 0.042
    assert abs(most_contrast(weak, 5.0) - most_contrast(weak, 30.0)) < 0.004


def test_a_beam_too_wide_is_refused() -> None:
    """A beam that does not get through the glass is refused in words."""
    with pytest.raises(NoAnswer, match="too wide an aperture"):
        best_focus(glass_of(prescriptions.TRIPLET), 0.0, 14.0)
