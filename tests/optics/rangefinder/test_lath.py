"""The infinity lath, against lines of sight crossed and a coupled camera used by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import OutOfRange
from optics.measure.uncertainty import exact, within
from optics.rangefinder import lath as bench
from optics.rangefinder.lath import Lath
from tests.optics.rangefinder.test_cam import halved, sharp_distance

OSTRIN = Camera("Ostrin", Lens(47.0, 2.8, 0.6), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
TARNBROOK = Camera("Tarnbrook", Lens(105.0, 3.5, 1.5), Bed(), 0.06)
CORVANE = Camera("Corvane", Lens(75.0, 3.5), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)


def left_by_hand(camera: Camera, base: float, distance: float, wrong: float) -> float:
    """The focus error at a subject 200 m away once the sights were laid parallel on the lath.

    The sights go through the two windows and the lath's two marks; from then on the rangefinder
    turns them towards each other by just what its lens asks.
    """
    subject = 200_000.0
    too_much = 2 * math.atan(-wrong / 2 / distance)
    taken_for = base / math.tan(math.atan(base / subject) - too_much)
    f, h = camera.lens.focal_length, camera.lens.hiatus
    stands, right = (
        halved(lambda x, d=d: sharp_distance(f, h, f + x) - d, 1e-12, f / 2)
        for d in (taken_for, subject)
    )
    return stands - right


@pytest.mark.parametrize("camera", [OSTRIN, TARNBROOK], ids=["short", "long"])
@given(base=st.floats(25, 120), distance=st.floats(800, 6000), part=st.floats(-0.4, 0.4))
@settings(max_examples=50, deadline=None)
def test_what_an_error_leaves_is_what_a_coupled_camera_shows(
    camera: Camera, base: float, distance: float, part: float
) -> None:
    """Sights laid on a wrong lath put the lens off by as much, and the same way, as is said."""
    # A subject at 200 m allows convergence to be given away only up to its own.
    wrong = part * base * distance / 200_000
    left = Lath(camera, base, distance).leaves(exact(wrong)).value
    seen = left_by_hand(camera, base, distance, wrong)
    assert left == pytest.approx(seen, rel=0.02, abs=1e-7)


def test_false_infinity_is_where_the_sights_cross() -> None:
    """Marks 0.1 mm narrow on a 41 mm base at 2 m make the sights cross 820 m before the base."""
    lath = Lath(OSTRIN, 41.0, 2000.0, base_to_film=20.0)
    # By similar triangles: the sights close in by 0.1 mm in 2 m, so by 41 mm in 820 m.
    assert lath.false_infinity(-0.1) == pytest.approx(820_020.0)
    assert lath.false_infinity(0.1) == pytest.approx(-819_980.0)
    assert lath.false_infinity(0.0) == math.inf


def test_the_films_tolerance_by_hand() -> None:
    """The error that uses up the tolerance is e·b·Λ/f² for a far infinity."""
    # 0.042 mm × 41 × 2000 / 47² = 1.559 mm, from the small-angle rule (within a part in 300).
    lath = Lath(OSTRIN, 41.0, 2000.0, 20.0)
    assert lath.film_tolerance == pytest.approx(1.559, rel=0.003)
    assert abs(lath.leaves(exact(lath.film_tolerance)).value) == pytest.approx(0.042)
    assert lath.tolerance == pytest.approx(lath.film_tolerance / 4)


def test_a_front_cell_camera_has_a_lath_too() -> None:
    """A camera focused by its front cell takes the same lath by its whole focal length."""
    # 0.0875 mm × 41 × 2000 / 75² = 1.2756 mm, small-angle.
    assert Lath(CORVANE, 41.0, 2000.0).film_tolerance == pytest.approx(1.2756, rel=0.01)


def test_the_eyes_tolerance_by_hand() -> None:
    """One minute of arc at 2 m is 0.58 mm, through a finder of 0.7 it is 0.83 mm."""
    # 2000 mm × π/10800.
    assert Lath(OSTRIN, 41.0, 2000.0).eye_tolerance == pytest.approx(0.5818, abs=1e-4)
    assert Lath(OSTRIN, 41.0, 2000.0, magnification=0.7).eye_tolerance == pytest.approx(
        0.8311, abs=1e-4
    )


def test_squareness_is_where_the_lath_looks_narrow_by_the_tolerance() -> None:
    """Turned askew by the angle given, a lath looks narrower by just its tolerance."""
    lath = Lath(OSTRIN, 41.0, 2000.0)
    looks = 41.0 * math.cos(lath.squareness)
    assert 41.0 - looks == pytest.approx(lath.tolerance)
    assert Lath(OSTRIN, 41.0, 1e6).squareness == pytest.approx(math.pi / 2)


def test_the_rules_limit_is_carried_to_the_film() -> None:
    """A spacing known to a tenth is known at the film by the same gear as the error itself."""
    lath = Lath(OSTRIN, 41.0, 2000.0)
    known = lath.leaves(within(0.2, 0.1, "rule"))
    assert known.standard / known.value == pytest.approx(0.1 / math.sqrt(3) / 0.2)


def test_words_say_which_way() -> None:
    """Too wide sets the lens too far out, too narrow too far in, each with its amount."""
    lath = Lath(OSTRIN, 41.0, 2000.0, 20.0, 0.7)
    narrow, wide = bench.said_leaves(lath, -0.4), bench.said_leaves(lath, 0.4)
    # 47² × 0.4 / (41 × 2000) = 0.0108 mm.
    assert narrow == (
        "Too narrow by 0.400 mm: 205 m passes for infinity, and the lens is set 0.011 mm too far "
        "in at every distance."
    )
    assert "a point beyond infinity passes for infinity" in wide
    assert "0.011 mm too far out" in wide
    assert bench.said_tolerance(lath).startswith("Marks 41.000 mm ± 0.389 mm apart")
    assert "square to the line of sight within 7.9°" in bench.said_use(lath)
    assert "finer than the 1.557 mm that the film" in bench.said_eye(lath)
    long = Lath(TARNBROOK, 41.0, 2000.0, 20.0, 0.7)
    assert "0.831 mm of spacing only, coarser than the 0.780 mm" in bench.said_eye(long)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"base": 0.0}, "rangefinder base must be more than 0"),
        ({"distance": -1.0}, "distance of the lath must be more than 0"),
        ({"distance": math.inf}, "must be finite: got infinity"),
        ({"magnification": 0.0}, "magnification of the rangefinder"),
        ({"acuity": 1.0}, "smallest misalignment the eye can see"),
    ],
)
def test_what_makes_no_lath_is_refused(wrong: dict[str, float], words: str) -> None:
    """A base, distance, magnification or eye that cannot be is refused with its figure."""
    with pytest.raises(OutOfRange, match=words):
        Lath(OSTRIN, **{"base": 41.0, "distance": 2000.0, **wrong})
