"""Depth tables against a camera built of thin lenses, and in every corner case."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import OutOfRange, ShimwrightError
from optics.scales.depth_table import DepthTable, depth_table

HELICOID = Helicoid(lead=18.0, starts=6, extends=Turn.COUNTER_CLOCKWISE)
THIN = Camera("thin", Lens(50.0, 2.0), HELICOID, 0.03)
THICK = Camera("thick", Lens(47.0, 2.8, hiatus=0.6, pupil_magnification=0.8), HELICOID, 0.03)
BED = Camera("bed", Lens(105.0, 3.5, hiatus=1.5), Bed(), 0.06)
# A front cell of 50 mm, 60 mm from the film, before groups that make the lens 100 mm.
CELL = Camera(
    "cell", Lens(100.0, 3.5), FrontCell(50.0, 9.0, Turn.CLOCKWISE, cell_to_film=60.0), 0.1
)
CAMERAS = (THIN, THICK, BED, CELL)
each_camera = pytest.mark.parametrize("camera", CAMERAS, ids=lambda c: c.name)


def blur_of_thin_lens(f: float, stop: float, extension: float, film_to_point: float) -> float:
    """The disc a point makes on film f + extension behind a thin lens, by similar triangles."""
    film = f + extension
    image = 1 / (1 / f - 1 / (film_to_point - film))
    return abs(film - image) / image * f / stop


@pytest.mark.parametrize("stop", [2.0, 5.6, 16.0])
@pytest.mark.parametrize("distance", [700.0, 3000.0])
def test_limits_from_the_film_make_discs_of_the_size_allowed(stop: float, distance: float) -> None:
    """With a thin lens left at its extension, points at the limits make discs of c on the film."""
    # D = 2f + x + f²/x, solved by halving intervals.
    extension = brentq(lambda x: 100 + x + 2500 / x - distance, 1e-9, 50)
    table = depth_table(THIN, stop, distance)
    for limit in (table.near[0, 0], table.far[0, 0]):
        if math.isfinite(limit):
            assert blur_of_thin_lens(50, stop, extension, limit) == pytest.approx(0.03, rel=1e-8)
        else:
            assert blur_of_thin_lens(50, stop, extension, 1e12) <= 0.03


def test_hyperfocal_distance_from_the_film_just_reaches_infinity() -> None:
    """Focused at its hyperfocal distance a lens makes discs of c at infinity and half as near."""
    table = depth_table(THIN, 8.0, math.inf)
    far_focus, near = table.hyperfocal[0], table.near_at_hyperfocal[0]
    extension = brentq(lambda x: 100 + x + 2500 / x - far_focus, 1e-9, 50)
    assert blur_of_thin_lens(50, 8, extension, 1e15) == pytest.approx(0.03, rel=1e-8)
    assert blur_of_thin_lens(50, 8, extension, near) == pytest.approx(0.03, rel=1e-8)


@each_camera
def test_infinity_is_honest(camera: Camera) -> None:
    """Focused on infinity the far limit is infinity and the near limit is a finite distance."""
    table = depth_table(camera, [4, 16], math.inf)
    assert np.all(np.isinf(table.far))
    assert np.all(np.isfinite(table.near))
    assert np.all(np.isinf(table.total))
    assert np.all(table.magnification == 0)
    # At 1e12 mm it is the same to nine digits.
    nearly = depth_table(camera, [4, 16], 1e12)
    assert table.near == pytest.approx(nearly.near, rel=1e-6)


@each_camera
def test_the_two_ends_of_measuring_agree(camera: Camera) -> None:
    """A distance from the film and the same one from the lens give the same two limits."""
    stops, distances = [4, 11], np.array([800.0, 2500.0, 9000.0])
    from_film = depth_table(camera, stops, distances)
    from_lens = depth_table(camera, stops, from_film.object_distances, from_="lens")
    offset = distances - from_film.object_distances
    np.testing.assert_allclose(from_lens.near + offset, from_film.near, rtol=1e-10)
    np.testing.assert_allclose(from_lens.far + offset, from_film.far, rtol=1e-10)
    np.testing.assert_allclose(from_lens.depth_each_way, from_film.depth_each_way, rtol=1e-10)


def test_a_front_cell_keeps_its_distances_from_the_film() -> None:
    """A cell of 50 mm, 5 mm out, makes the size 0.2 at 615 mm: 600 mm from a lens of 100 mm."""
    table = depth_table(CELL, 8, 615.0)
    assert table.magnification[0] == pytest.approx(0.2, rel=1e-12)
    assert table.object_distances[0] == pytest.approx(600, rel=1e-12)


def test_a_front_cells_limits_are_counted_from_lens_or_film() -> None:
    """Where 4 mm at the film are 1 mm of the cell: 5 mm out it is sharp from 531.67 to 740 mm."""
    # K + t + f₁ + f₁²/(t ± 1) = 60 + 5 + 50 + 2500/6 and 2500/4; the lens counts f₁'s f less f.
    from_film = depth_table(CELL, 8, 615.0, circle_of_confusion=0.5)
    assert from_film.near[0, 0] == pytest.approx(115 + 2500 / 6, rel=1e-12)
    assert from_film.far[0, 0] == pytest.approx(740, rel=1e-12)
    from_lens = depth_table(CELL, 8, 600.0, from_="lens", circle_of_confusion=0.5)
    assert from_lens.near[0, 0] == pytest.approx(100 + 2500 / 6, rel=1e-12)
    assert from_lens.far[0, 0] == pytest.approx(725, rel=1e-12)
    # 1 mm out is hyperfocal: 2500 mm from the group's focus, and 1250 mm where it begins.
    assert from_film.hyperfocal[0] == pytest.approx(60 + 1 + 50 + 2500, rel=1e-12)
    assert from_film.near_at_hyperfocal[0] == pytest.approx(60 + 1 + 50 + 1250, rel=1e-12)


@each_camera
def test_no_blur_allowed_leaves_the_distance_focused_on(camera: Camera) -> None:
    """With a circle of confusion of nothing, both limits are the distance focused on."""
    table = depth_table(camera, [2, 8], [1000.0, 4000.0], circle_of_confusion=0.0)
    np.testing.assert_allclose(table.near, [[1000, 4000]] * 2, rtol=1e-12)
    np.testing.assert_allclose(table.far, [[1000, 4000]] * 2, rtol=1e-12)
    assert np.all(np.isinf(table.hyperfocal))


@settings(max_examples=60, deadline=None)
@given(
    camera=st.sampled_from(CAMERAS),
    stop=st.floats(1, 64),
    distance=st.one_of(st.just(math.inf), st.floats(700, 1e7)),
)
def test_focus_lies_between_its_limits(camera: Camera, stop: float, distance: float) -> None:
    """The near limit is never beyond the focus nor the far limit before it, and smaller stops
    give more of both.
    """
    table = depth_table(camera, [stop, 1.5 * stop], distance)
    near, far = table.near[:, 0], table.far[:, 0]
    assert np.all(near <= distance * (1 + 1e-12))
    assert np.all(far >= distance * (1 - 1e-12))
    assert near[1] <= near[0]
    assert far[1] >= far[0]


def test_one_table_is_all_its_cells() -> None:
    """Every cell of a table is what it is alone."""
    stops, distances = [2.8, 8, 22], [900.0, 3000.0, math.inf]
    whole = depth_table(THICK, stops, distances)
    assert isinstance(whole, DepthTable)
    assert whole.near.shape == whole.far.shape == whole.depth_each_way.shape == (3, 3)
    for i, stop in enumerate(stops):
        for j, distance in enumerate(distances):
            alone = depth_table(THICK, stop, distance)
            assert alone.near[0, 0] == pytest.approx(whole.near[i, j], rel=1e-12)
            assert alone.far[0, 0] == pytest.approx(whole.far[i, j], rel=1e-12)


def test_what_cannot_be_focused_is_refused() -> None:
    """A distance nearer than four focal lengths is refused with the nearest one there is."""
    with pytest.raises(OutOfRange, match=r"at least 200 mm .*: got 150 mm; .*\.$"):
        depth_table(THIN, 8, [1000.0, 150.0])
    with pytest.raises(OutOfRange, match="f-number must be more than 0"):
        depth_table(THIN, [8, 0], 1000.0)
    with pytest.raises(ShimwrightError, match=r"'film' or from 'lens': got 'seat'; .*\.$"):
        depth_table(THIN, 8, 1000.0, from_="seat")
