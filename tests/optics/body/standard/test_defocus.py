"""The focus over the frame, against rays traced exactly through a tilted thin lens."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.body.standard import (
    DefocusMap,
    Frame,
    Tilted,
    View,
    defocus_map,
    depth_readings,
    measure_standard,
)
from optics.camera.camera import Bed, Camera, FrontCell, Lens, Turn
from optics.camera.plane import Plane
from optics.errors import OutOfRange
from optics.measure.uncertainty import exact, within
from optics.measure.verdict import Verdict
from optics.theory import CATALOGUE

CAMERA = Camera("Tarnbrook", Lens(105.0, 3.5), Bed(), 0.06)
FRAME = Frame(90.0, 60.0)


def traced(
    f: float, tilt: float, lens_at: float, point: tuple[float, float]
) -> tuple[float, float]:
    """The image (y, z) of a point, z towards the subject, the lens's middle on the axis.

    The top of the lens leans towards the subject. One ray goes through the middle unbent; the
    other, parallel to the lens's own axis, is bent through its focal point behind.
    """
    axis = np.array([-math.sin(tilt), math.cos(tilt)])  # towards the subject
    along = np.array([math.cos(tilt), math.sin(tilt)])  # up along the lens
    middle = np.array([0.0, lens_at])
    subject = np.array(point) - middle
    height = subject @ along
    through_focus = -f * axis - height * along
    # height·along + a·through_focus = −b·subject: where both rays meet.
    a, b = np.linalg.solve(np.column_stack([through_focus, subject]), -height * along)
    assert a > 0
    assert b > 0
    y, z = middle + height * along + a * through_focus
    return float(y), float(z)


@settings(max_examples=50, deadline=None)
@given(st.floats(0.001, 0.3), st.floats(3, 50))
def test_lens_tilt_is_exact_along_the_lens_axis(tilt: float, times: float) -> None:
    """The sharp plane's tilt is the traced one, magnification taken along the lens's axis."""
    f, distance = 100.0, 100.0 * times
    places = [traced(f, tilt, 0.0, (y, distance)) for y in (-20.0, 0.0, 20.0)]
    (y1, z1), (y2, z2), (y3, z3) = places
    slope = (z3 - z1) / (y3 - y1)
    assert z2 == pytest.approx(z1 + slope * (y2 - y1), rel=1e-9)  # a plane again
    on_axis = distance / math.cos(tilt)
    magnification = f / (on_axis - f)
    wanted = (
        CATALOGUE["lens_tilt"].solve_for("image_tilt").value(tilt=tilt, magnification=magnification)
    )
    assert math.atan(slope) == pytest.approx(wanted, rel=1e-9)


@settings(max_examples=50, deadline=None)
@given(st.floats(-0.004, 0.004), st.floats(600, 20_000))
def test_the_defocus_is_the_traced_one(slope: float, distance: float) -> None:
    """Where the standard's top is farther out, so is the image at the film's top, 1 + m times."""
    f = CAMERA.lens.focal_length
    lens_at = f + CAMERA.focusing_formula.value(film_distance=distance, **CAMERA.constants)
    found = mapped(0.0, slope, View(distance))
    for height in (-0.2, 0.2):
        y, z = traced(f, math.atan(slope), lens_at, (height * distance, distance))
        wanted = found.factor * slope * y
        # What is left over is of the second order in the tilt.
        assert z == pytest.approx(wanted, abs=1.5 * slope**2 * (f + y * y / f) + 1e-9)


def mapped(across: float, up: float, view: View | None = None, **middle: object) -> DefocusMap:
    """The map for a plane with these slopes."""
    plane = Plane(exact(100.0), exact(across), exact(up))
    return defocus_map(plane, FRAME, CAMERA, view, **middle)  # type: ignore[arg-type]


def test_a_leaning_film_counts_once() -> None:
    """At life size a leaning lens counts twice, a leaning film once."""
    life_size = CAMERA.lens.focal_length * 4
    lens, film = (mapped(0.001, 0.0, View(life_size, tilted=t)) for t in (Tilted.LENS, Tilted.FILM))
    assert (lens.factor, film.factor) == pytest.approx((2, 1))
    assert lens.worst.error.value == pytest.approx(2 * film.worst.error.value)


def test_corners_are_named_and_signed() -> None:
    """A standard whose top right is farther out is too far out there and too far in opposite."""
    found = mapped(0.001, 0.002)
    errors = {c.name: c.error.value for c in found.corners}
    assert errors == pytest.approx(
        {"top left": 0.015, "top right": 0.105, "bottom right": -0.015, "bottom left": -0.105}
    )
    assert [c.picture_name for c in found.corners] == [
        "bottom left",
        "bottom right",
        "top right",
        "top left",
    ]
    assert found.drop == pytest.approx(0.21)


def test_blur_and_depth_follow_the_aperture() -> None:
    """A disc is the error over the f-number, and the depth of focus N·c, for far subjects."""
    wide, stopped = mapped(0.002, 0.0), mapped(0.002, 0.0, View(aperture=16.0))
    assert wide.depth == pytest.approx(0.21)
    assert stopped.depth == pytest.approx(0.96)
    assert wide.worst.blur == pytest.approx(0.09 / 3.5)
    assert stopped.worst.blur == pytest.approx(0.09 / 16)
    assert mapped(0.01, 0.0).worst.verdict is Verdict.OUTSIDE
    assert mapped(0.01, 0.0, View(aperture=16.0)).worst.verdict is Verdict.INSIDE


def test_blur_and_depth_of_a_front_cell_are_the_same_close_up() -> None:
    """At 1 m the depth of focus of a front cell is still 0.175 mm, and a disc the error over N."""
    folder = Camera("folder", Lens(75.0, 3.5), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)
    readings = depth_readings([(-45, -30), (45, -30), (-45, 30)], [[0.0], [0.0], [0.1]], 0.01, 0.0)
    found = defocus_map(measure_standard(readings).plane, FRAME, folder, View(film_distance=1000.0))
    assert found.depth == pytest.approx(0.175, rel=1e-12)
    assert found.worst.blur == pytest.approx(abs(found.worst.error.value) / 3.5, rel=1e-12)
    assert found.blur == pytest.approx(np.abs(found.error) / 3.5, rel=1e-12)


def test_the_map_meets_its_corners() -> None:
    """Rows run from the bottom up and columns from left to right, seen from the front."""
    found = mapped(0.001, 0.002)
    assert found.error.shape == found.blur.shape == (found.up.size, found.across.size)
    at = {
        (x, y): found.error[j, i] for j, y in ((0, -30), (-1, 30)) for i, x in ((0, -45), (-1, 45))
    }
    assert at == pytest.approx({(c.x, c.y): c.error.value for c in found.corners})
    assert found.blur == pytest.approx(np.abs(found.error) / 3.5)
    middle = found.error[found.up.size // 2, found.across.size // 2]
    assert middle == pytest.approx(0, abs=1e-12)


def test_the_middle_may_be_off() -> None:
    """A nominal height, or an error found in the middle, moves the whole map."""
    assert mapped(0.0, 0.0, nominal=exact(99.9)).worst.error.value == pytest.approx(0.1)
    found = mapped(0.0, 0.0, middle=within(-0.05, 0.01, "reading"))
    assert {c.error.value for c in found.corners} == {-0.05}
    assert found.worst.error.standard == pytest.approx(0.01 / math.sqrt(3))


def test_corner_uncertainty_is_that_of_the_height_there() -> None:
    """With the middle focused, a corner is as uncertain as the height from middle to corner."""
    values = [[0.0], [0.03], [0.01], [0.04]]
    places = [(-45, -30), (45, -30), (-45, 30), (45, 30)]
    plane = measure_standard(depth_readings(places, values, 0.005, 0.1)).plane
    found = defocus_map(plane, FRAME, CAMERA)
    top_right = found.corners[1].error
    # Each slope is a mean of two differences: (±1 ± 1)/4 of four readings, squared and summed.
    assert top_right.standard == pytest.approx(0.005 / math.sqrt(3) * math.sqrt(0.5))


@pytest.mark.parametrize("size", [0.0, -1.0, math.inf, math.nan])
def test_a_frame_without_an_area_is_refused(size: float) -> None:
    """Width and height of the frame are more than 0 and finite."""
    for wrong in ((size, 24.0), (36.0, size)):
        with pytest.raises(OutOfRange, match="of the frame must be more than 0 mm and finite"):
            Frame(*wrong)


def test_too_near_a_subject_is_refused() -> None:
    """A distance the lens cannot focus on is refused."""
    with pytest.raises(OutOfRange, match="at least 420 mm"):
        mapped(0.0, 0.0, View(300.0))
