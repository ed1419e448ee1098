"""What the lens relations do at the edges of their range."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import NoAnswer, OutOfRange
from optics.theory.lens import (
    infinity_target,
    magnification_from_distance,
    mark_error,
    thick_lens,
    thin_lens,
    two_lenses,
    unit_focusing,
)

EXTENSION = unit_focusing.solve_for("extension")
FOCAL_LENGTHS = st.floats(10, 600)
HIATUSES = st.floats(-20, 20)


@given(f=FOCAL_LENGTHS, h=HIATUSES)
@settings(deadline=None)
def test_nearest_distance_is_served(f: float, h: float) -> None:
    """At exactly four focal lengths plus the hiatus the lens stands one focal length out."""
    # Half the digits are lost where the two positions of the lens meet.
    for branch in ("lens nearer the film", "lens nearer the subject"):
        formula = unit_focusing.solve_for("extension", branch)
        x = formula.value(film_distance=4 * f + h, focal_length=f, hiatus=h)
        assert x == pytest.approx(f, rel=1e-6)


@given(f=FOCAL_LENGTHS, h=HIATUSES)
@settings(deadline=None)
def test_nearest_distance_rounded_as_people_write_it_is_served(f: float, h: float) -> None:
    """The nearest distance of a lens measured to a hundredth is served as written."""
    f, h = round(f, 2), round(h, 2)
    nearest = float(f"{4 * f + h:.2f}")
    assert math.isfinite(EXTENSION.value(film_distance=nearest, focal_length=f, hiatus=h))


@given(f=FOCAL_LENGTHS, h=HIATUSES, short=st.floats(1e-6, 0.5))
@settings(deadline=None)
def test_nearer_than_nearest_is_refused(f: float, h: float, short: float) -> None:
    """A subject nearer than four focal lengths plus the hiatus is refused with that distance."""
    nearest = 4 * f + h
    with pytest.raises(OutOfRange, match="four focal lengths plus the hiatus") as refusal:
        EXTENSION.value(film_distance=nearest * (1 - short), focal_length=f, hiatus=h)
    assert f"at least {nearest:.6g} mm" in str(refusal.value)


@given(f=FOCAL_LENGTHS, h=HIATUSES)
@settings(deadline=None)
def test_infinity_is_exact(f: float, h: float) -> None:
    """For a subject at infinity the extension is exactly zero and every partial is finite."""
    value, partials = EXTENSION.value_and_partials(film_distance=math.inf, focal_length=f, hiatus=h)
    assert value == 0
    assert set(partials.values()) == {0.0}
    far = unit_focusing.solve_for("film_distance")
    assert far.value(extension=0.0, focal_length=f, hiatus=h) == math.inf


@given(
    f=FOCAL_LENGTHS,
    h=HIATUSES,
    beyond=st.one_of(st.just(0.0), st.floats(-6, 9).map(lambda p: 10**p)),
)
@settings(deadline=None)
def test_distance_returns_on_either_branch(f: float, h: float, beyond: float) -> None:
    """Both positions of the lens lead back to the film distance they were found for."""
    distance = 4 * f + h + beyond
    back = unit_focusing.solve_for("film_distance")
    for branch in ("lens nearer the film", "lens nearer the subject"):
        formula = unit_focusing.solve_for("extension", branch)
        x = formula.value(film_distance=distance, focal_length=f, hiatus=h)
        assert back.value(extension=x, focal_length=f, hiatus=h) == pytest.approx(
            distance, rel=1e-13
        )


def test_far_distances_lose_no_digits() -> None:
    """At a thousand kilometres the extension still has all its digits."""
    # To first order f²/(D − 2f); the next term is smaller by (f/D)², 2.5e-15.
    x = EXTENSION.value(film_distance=1e9, focal_length=50.0, hiatus=0.0)
    assert x == pytest.approx(2500 / (1e9 - 100), rel=1e-14)


def test_an_image_at_the_focal_length_has_its_subject_at_infinity() -> None:
    """Infinity and the focal length are conjugate, both ways and without a warning."""
    with np.errstate(all="raise"):
        assert (
            thin_lens.solve_for("image_distance").value(focal_length=50.0, object_distance=math.inf)
            == 50
        )
    assert (
        thin_lens.solve_for("object_distance").value(focal_length=50.0, image_distance=50.0)
        == math.inf
    )


def test_a_subject_within_the_focal_length_has_no_real_image() -> None:
    """Nearer than one focal length no magnification is given."""
    with pytest.raises(OutOfRange, match="no real image forms"):
        magnification_from_distance.solve_for("magnification").value(
            focal_length=50.0, object_distance=40.0
        )


def test_an_infinity_target_at_infinity_leaves_no_error() -> None:
    """The farther the target the less is left; at infinity nothing."""
    formula = infinity_target.solve_for("focus_error")
    left = formula.value(
        focal_length=50.0, infinity_target_distance=np.array([5e3, 5e4, 5e5, math.inf])
    )
    assert (np.diff(left) < 0).all()
    assert left[-1] == 0


def test_no_infinity_target_is_nearer_than_two_focal_lengths() -> None:
    """A focal length for which the target would stand too near is refused."""
    with pytest.raises(OutOfRange, match="beyond two focal lengths"):
        infinity_target.solve_for("focal_length").value(
            infinity_target_distance=1000.0, focus_error=2000.0
        )


@pytest.mark.parametrize(("sharp", "mark"), [(1900, 2000), (2000, math.inf), (300, 301)])
def test_a_lens_too_far_out_is_sharp_nearer_than_its_mark(sharp: float, mark: float) -> None:
    """Sharp nearer than the mark is plus, farther is minus, and equal is nothing."""
    formula = mark_error.solve_for("focus_error")
    lens = {"focal_length": 50.0, "hiatus": -2.0}
    assert formula.value(sharp_distance=sharp, mark_distance=mark, **lens) > 0
    assert formula.value(sharp_distance=mark, mark_distance=sharp, **lens) < 0
    assert formula.value(sharp_distance=mark, mark_distance=mark, **lens) == 0


@given(f=FOCAL_LENGTHS, h=HIATUSES, near=st.floats(0.01, 5), ratio=st.floats(1.001, 50))
@settings(deadline=None)
def test_focal_length_is_found_between_any_two_marks(
    f: float, h: float, near: float, ratio: float
) -> None:
    """The numeric root finds the focal length from any two distances that are not alike."""
    sharp = (4 * f + h) * (1 + near)
    distances = {"sharp_distance": sharp, "mark_distance": sharp * ratio, "hiatus": h}
    error = mark_error.solve_for("focus_error").value(focal_length=f, **distances)
    found = mark_error.solve_for("focal_length").value(focus_error=error, **distances)
    assert found == pytest.approx(f, rel=1e-9)


def test_an_error_too_large_for_any_focal_length_has_no_answer() -> None:
    """An error that no lens could show between two distances is refused with the figures."""
    with pytest.raises(NoAnswer, match=r"No focal length .*mark_error.* 2000 mm") as refusal:
        mark_error.solve_for("focal_length").value(
            focus_error=5000.0, sharp_distance=1000.0, mark_distance=2000.0, hiatus=0.0
        )
    assert refusal.value.quantity == "focal_length"


def test_too_far_in_at_infinity_is_sharp_nowhere() -> None:
    """A lens nearer the film than its infinity position is sharp at no distance, and is told so."""
    with pytest.raises(OutOfRange) as refused:
        mark_error.solve_for("sharp_distance").value(
            mark_distance=math.inf, focus_error=-0.2, focal_length=50.0, hiatus=0.0
        )
    # The conjugate of a lens 0.2 mm inside infinity: 100 − 0.2 − 2500/0.2.
    assert str(refused.value) == (
        "These figures give −12400.2 mm for the distance from the film plane that is really sharp, "
        "but it must be more than 0 mm (the lens stands inside its infinity position): got focus "
        "error at the film (plus when the lens is too far from the film) −0.2 mm, distance "
        "engraved at the ring's mark infinity mm, focal length 50 mm, hiatus (rear minus front "
        "principal plane, negative when they cross) 0 mm; check these figures."
    )


def test_a_flat_face_is_flat_whichever_way_it_is_told() -> None:
    """A face of radius ∞ or −∞ is the same glass, n − 1 over the other radius in power."""
    glass = {"glass_index": 1.5, "thickness": 5.0, "front_radius": 50.0}
    for flat in (math.inf, -math.inf):
        found = thick_lens.solve_for("glass_focal_length").value(rear_radius=flat, **glass)
        assert found == pytest.approx(100.0)
    # Parallel faces have no power at all.
    glass["front_radius"] = math.inf
    for flat in (math.inf, -math.inf):
        found = thick_lens.solve_for("glass_focal_length").value(rear_radius=flat, **glass)
        assert found == math.inf


@pytest.mark.parametrize("name", ["first_focal_length", "second_focal_length"])
@pytest.mark.parametrize("none", [0.0, -0.0])
def test_no_lens_has_a_focal_length_of_nothing(name: str, none: float) -> None:
    """Neither of two lenses may have a focal length of 0 mm."""
    pair = {"first_focal_length": 80.0, "second_focal_length": -25.0, "separation": 60.0}
    with pytest.raises(OutOfRange, match=r"must be other than 0 mm: got 0 mm"):
        two_lenses.solve_for("combined_focal_length").value(**{**pair, name: none})
