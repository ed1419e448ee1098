"""The whole blur of a focus error, by hand and against printed discs."""

import math

import pytest

from optics.camera.blur import blur_budget
from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import OutOfRange

CAMERA = Camera("ninety", Lens(90.0, 4.5), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.05)


def test_an_error_of_a_tenth_makes_the_disc_of_similar_triangles() -> None:
    """A tenth of a millimetre out at f/4 makes a disc of 0.025 mm, whichever way it is out."""
    for error in (0.1, -0.1):
        assert blur_budget(CAMERA, error, 4).defocus[0] == pytest.approx(0.025)


def test_a_near_subject_makes_the_cone_longer() -> None:
    """At 1 m a lens of 90 mm makes the size a ninth, and the disc shrinks by ten ninths."""
    near = blur_budget(CAMERA, 0.1, 4, film_distance=1000)
    assert near.defocus[0] == pytest.approx(0.025 / (10 / 9))


def test_a_near_subject_leaves_the_cone_of_a_front_cell_as_it_is() -> None:
    """A tenth out at f/4 is 0.025 mm at 1 m too where only the front cell moves."""
    folder = Camera("", Lens(75.0, 3.5), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)
    near = blur_budget(folder, 0.1, 4, film_distance=1000)
    assert near.defocus[0] == pytest.approx(0.025)


def test_diffraction_is_the_printed_disc() -> None:
    """At 520 nm the Airy disc of f/8 is 10.15 µm, as an optics supplier prints it."""
    blur = blur_budget(CAMERA, 0.0, 8, wavelength=0.52e-3)
    assert blur.airy[0] == pytest.approx(0.01015, abs=5e-6)
    assert blur.total[0] == blur.airy[0]


def test_blurs_add_as_squares() -> None:
    """Defocus 0.03, diffraction 0.04 and film 0.12 mm make 0.13 mm."""
    stop = 0.04 / (2.44 * 0.5e-3)
    blur = blur_budget(CAMERA, 0.03 * stop, stop, receiver=0.12, wavelength=0.5e-3)
    assert blur.total[0] == pytest.approx(0.13)
    assert not blur.looks_sharp[0]


def test_the_sharpest_stop_lies_between_defocus_and_diffraction() -> None:
    """Where defocus and diffraction are equal the blur is least: e/N = 2.44·λ·N."""
    stops = [2, 2.8, 4, 5.6, 8, 11, 16]
    best = math.sqrt(0.1 / (2.44 * 0.55e-3))  # 8.63
    sharpest = stops[int(blur_budget(CAMERA, 0.1, stops).total.argmin())]
    assert sharpest == min(stops, key=lambda n: abs(n - best)) == 8


def test_what_has_no_meaning_is_refused() -> None:
    """A stop of zero and a subject that is too near are refused."""
    with pytest.raises(OutOfRange):
        blur_budget(CAMERA, 0.1, 0)
    with pytest.raises(OutOfRange):
        blur_budget(Camera("bed", Lens(105.0, 3.5), Bed(), 0.1), 0.1, 8, film_distance=100)
