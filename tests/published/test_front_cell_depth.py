"""Depth of field and of focus of one lens, focused by its front cell and as a whole, by rays.

The triplet of `test_triplet_trace`, half as large again (f 75 mm), is followed face by face with
the same tracer. Its stop stands behind the front cell, where the pupils are 1.025 as printed (at
the front of the middle glass); it is as wide as the f-number asks at infinity. Focused by its cell,
the cell alone moves out; focused as a whole, all faces and the stop do. A point before the lens
sends a ray through the rim of the stop, and where that ray lands on the film is half of its disc:
no formula of depth, no pupil magnification and no depth of focus goes into finding the limits.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import mpmath
import pytest
from mpmath import mpf

from optics.camera.blur import blur_budget
from optics.camera.camera import Bed, Camera, FrontCell, Turn
from optics.camera.camera import Lens as BenchLens
from optics.measure.uncertainty import exact
from optics.readings.correction import sight
from optics.scales.depth_table import depth_table
from tests.published.test_triplet_trace import (
    DIGITS,
    FRONT_CELL_FACES,
    INDICES,
    NEAR_AXIS,
    RADII,
    THICKNESSES,
    Lens,
    focal_length_of,
    image_of,
    lens,
    moved,
    principal_planes,
    solved,
    traced,
)

SCALE = mpf("1.5")
CONFUSION = mpf("0.05")
ALL_FACES = len(RADII)
PUPILS = 1.025


@pytest.fixture(autouse=True)
def _many_digits() -> Any:
    with mpmath.workdps(DIGITS):
        yield


@dataclass(frozen=True)
class Traced:
    """The triplet focused on a subject (mm from the film) by moving its first faces."""

    faces: int
    distance: int
    f_number: Any
    stop_behind_glass: str = "0"

    @cached_property
    def home(self) -> Lens:
        """The glass at infinity."""
        enlarged = ([str(SCALE * mpf(length)) for length in part] for part in (RADII, THICKNESSES))
        radii, thicknesses = map(tuple, enlarged)
        return lens(radii, thicknesses, INDICES)

    @cached_property
    def film(self) -> Any:
        """Where the film stands, and stays."""
        return image_of(self.home, None)

    @cached_property
    def movement(self) -> Any:
        """How far the faces must move for the subject to be sharp on the film."""
        return solved(lambda x: image_of(self._out(x), self.film - self.distance) - self.film, "3")

    def _out(self, movement: Any) -> Lens:
        return moved(self.home, self.faces, movement)

    @cached_property
    def glass(self) -> Lens:
        """The glass focused on the subject."""
        return self._out(self.movement)

    @cached_property
    def stop(self) -> tuple[Any, Any]:
        """Where the stop stands now, and half its width."""
        at_home = self.home[FRONT_CELL_FACES].place + mpf(self.stop_behind_glass)
        level = (mpf(1), mpf(0))
        z, y, slope = traced(self.home[:FRONT_CELL_FACES], mpf(-1), NEAR_AXIS, level)
        height = (y + slope * (at_home - z)) / NEAR_AXIS
        half = height * focal_length_of(self.home) / self.f_number / 2
        goes_along = self.faces > FRONT_CELL_FACES
        return at_home - (self.movement if goes_along else 0), half

    def disc(self, subject: Any, film: Any = None) -> Any:
        """The disc on the film of a point so far from where the film belongs; + when nearer."""
        place, half = self.stop
        start = self.film - subject
        length = mpmath.sqrt(1 + NEAR_AXIS**2)
        way = (1 / length, NEAR_AXIS / length)
        z, y, slope = traced(self.glass[:FRONT_CELL_FACES], start, mpf(0), way)
        at_stop = y + slope * (place - z)
        z, y, slope = traced(self.glass, start, mpf(0), way)
        landed = y + slope * ((self.film if film is None else film) - z)
        return 2 * half * landed / at_stop

    @cached_property
    def limits(self) -> tuple[float, float]:
        """Between which distances the discs are no larger than allowed."""
        near, far = (
            solved(lambda d, side=side: self.disc(d) - side * CONFUSION, str(guess * self.distance))
            for side, guess in ((1, 0.95), (-1, 1.05))
        )
        return float(near), float(far)


def cell(distance: int, f_number: str, stop_behind_glass: str = "0") -> Traced:
    """Focused by the front cell, the stop so far behind the front of the middle glass."""
    return Traced(FRONT_CELL_FACES, distance, mpf(f_number), stop_behind_glass)


def whole(distance: int, f_number: str) -> Traced:
    """Focused by moving the whole lens."""
    return Traced(ALL_FACES, distance, mpf(f_number))


def camera_of(rays: Traced) -> Camera:
    """What the bench is told of the same lens, all of it from the trace."""
    home = rays.home
    front, rear = principal_planes(home)
    glass = BenchLens(
        float(focal_length_of(home)), float(rays.f_number), float(rear - front), PUPILS
    )
    if rays.faces == ALL_FACES:
        return Camera("whole", glass, Bed(), float(CONFUSION))
    group = home[:FRONT_CELL_FACES]
    group_front, _ = principal_planes(group)
    focusing = FrontCell(
        float(focal_length_of(group)), 9.0, Turn.CLOCKWISE, float(rays.film - group_front)
    )
    return Camera("cell", glass, focusing, float(CONFUSION))


def shown(rays: Traced) -> tuple[float, float]:
    """The limits that the bench shows for the same lens."""
    table = depth_table(camera_of(rays), float(rays.f_number), float(rays.distance))
    return float(table.near[0, 0]), float(table.far[0, 0])


def room(limits: tuple[float, float]) -> float:
    """From near to far."""
    return limits[1] - limits[0]


# Recorded from two earlier traces of this triplet, not published; distance, stop, how it is
# focused, near and far in mm from the film, and how near the bench must come to the rays.
ROWS = [
    (cell(1000, "3.5"), (977.9, 1023.3), 0.3),
    (whole(1000, "3.5"), (976.4, 1024.9), 0.01),
    (cell(1500, "8"), (1380.4, 1643.7), 1.0),
    (whole(1500, "8"), (1375.5, 1650.9), 0.01),
]
each_row = pytest.mark.parametrize(
    ("rays", "recorded", "near_enough"),
    ROWS,
    ids=["cell-1000", "whole-1000", "cell-1500", "whole-1500"],
)


@each_row
def test_rays_find_the_recorded_limits(
    rays: Traced, recorded: tuple[float, float], near_enough: float
) -> None:
    """Rays through cell or whole lens begin and end to be sharp where two traces recorded it."""
    assert rays.limits == pytest.approx(recorded, abs=0.1)


@each_row
def test_the_bench_shows_the_limits_of_the_rays(
    rays: Traced, recorded: tuple[float, float], near_enough: float
) -> None:
    """The depth table shows within 0.3 mm at 1 m and 1 mm at 1.5 m what rays through a lens
    focused by its front cell find, and what they find where the whole lens moves.
    """
    assert shown(rays) == pytest.approx(rays.limits, abs=near_enough)
    assert shown(rays) == pytest.approx(recorded, abs=1.0)


@pytest.mark.parametrize(
    ("distance", "f_number", "narrower"), [(1000, "3.5", 0.06), (1500, "8", 0.04)]
)
def test_a_front_cell_leaves_less_depth_than_the_whole_lens(
    distance: int, f_number: str, narrower: float
) -> None:
    """Focused by its cell the same lens has 6 % less depth of field at 1 m, and 4 % at 1.5 m."""
    by_cell, as_whole = cell(distance, f_number), whole(distance, f_number)
    assert 1 - room(by_cell.limits) / room(as_whole.limits) == pytest.approx(narrower, abs=0.005)
    assert 1 - room(shown(by_cell)) / room(shown(as_whole)) == pytest.approx(narrower, abs=0.005)


@pytest.mark.parametrize("distance", [700, 1000, 1500, 5000])
def test_the_depth_of_focus_of_a_front_cell_is_the_same_at_every_distance(distance: int) -> None:
    """With the film out by 0.1750 mm at f/3.5, either way and at any distance, the disc is c."""
    rays = cell(distance, "3.5")
    for side in (1, -1):
        disc = abs(rays.disc(distance, rays.film + side * mpf("0.175")))
        assert float(disc) == pytest.approx(float(CONFUSION), rel=1e-12)
    assert camera_of(rays).depth_at(distance) == pytest.approx(0.1750, rel=1e-12)
    table = depth_table(camera_of(rays), 3.5, distance)
    assert table.depth_each_way[0, 0] == pytest.approx(0.1750, rel=1e-12)


def test_the_depth_of_focus_of_the_whole_lens_grows_close_up() -> None:
    """Moved as a whole to 1 m the same lens has more depth of focus, as much as rays find."""
    rays = whole(1000, "3.5")
    each_way = camera_of(rays).depth_at(1000.0)
    assert each_way > 0.18
    disc = abs(rays.disc(1000, rays.film + mpf(each_way)))
    # The printed pupil magnification has four digits.
    assert float(disc) == pytest.approx(float(CONFUSION), rel=2e-4)


def test_the_blur_of_an_error_of_a_front_cell_is_that_of_the_rays() -> None:
    """With the film out by 0.2 mm at 1 m and f/3.5 the disc shown is that on which rays land."""
    rays = cell(1000, "3.5")
    landed = float(abs(rays.disc(1000, rays.film + mpf("0.2"))))
    camera = camera_of(rays)
    assert landed == pytest.approx(0.0571, abs=5e-5)
    assert sight(camera, 1000.0, exact(0.2)).blur == pytest.approx(landed, rel=1e-12)
    budget = blur_budget(camera, 0.2, 3.5, film_distance=1000.0)
    assert budget.defocus[0] == pytest.approx(landed, rel=1e-12)


@pytest.mark.parametrize("behind", ["-4.4", "0", "1.5", "5"])
def test_where_behind_the_cell_the_stop_stands_hardly_matters(behind: str) -> None:
    """With the stop before, at or behind the middle glass the bench is within 1 mm of the rays."""
    rays = cell(1500, "8", behind)
    assert shown(rays) == pytest.approx(rays.limits, abs=1.0)


def test_beyond_its_hyperfocal_distance_a_front_cell_is_sharp_to_infinity() -> None:
    """Where rays from infinity make a disc of c, the table's hyperfocal distance is; farther,
    its far limit is infinity, and nearer it is not.
    """
    rays = cell(14_000, "8")
    table = depth_table(camera_of(rays), 8.0, [14_000.0, 14_500.0])
    # Rays from a thousand kilometres: what is larger than c nearer is smaller than c farther on.
    far = mpf(10) ** 9
    assert abs(cell(14_000, "8").disc(far)) > CONFUSION > abs(cell(14_500, "8").disc(far))
    assert float(table.hyperfocal[0]) == pytest.approx(14_207, abs=1)
    assert abs(cell(14_207, "8").disc(far)) == pytest.approx(float(CONFUSION), rel=0.01)
    assert table.far[0, 0] < float("inf")
    assert table.far[0, 1] == float("inf")
