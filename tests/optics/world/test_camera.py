"""Each fault and each thing unknown, by what it does on a traced camera."""

import math
from dataclasses import replace

import pytest

from optics.world.build import Build, Faults, Unmodelled
from optics.world.camera import TracedCamera
from optics.world.coupling import Coupling
from optics.world.draw import BUILDS
from optics.world.judge import errors_on_film, worst
from optics.world.prescriptions import TRIPLET

FINDER = Coupling(41.0, 24.0, 0.6, 1000.0)
BUILD = Build(
    "Ostrin 35", TRIPLET, "helicoid", 50.0, 4.0, 0.03, (36.0, 24.0), (3000.0, 1000.0), 12.0, 6,
    FINDER,
)  # fmt: skip
CELL = replace(BUILD, focusing="front cell", coupling=None)
# So narrow a stop that rays near the axis are left.
PINHOLE = 2e5
SOUND = TracedCamera(BUILD)


def with_faults(**faults: float) -> TracedCamera:
    """The camera with these faults."""
    return TracedCamera(BUILD, Faults(**faults))  # type: ignore[arg-type]


@pytest.mark.parametrize("build", BUILDS, ids=lambda one: f"{one.name}, {one.prescription.kind}")
def test_a_sound_camera_is_right_everywhere(build: Build) -> None:
    """Without faults every place on film is right; only a straight lever bows."""
    if build.coupling is not None:
        build = replace(build, coupling=replace(build.coupling, joined="cam"))
    errors = errors_on_film(TracedCamera(build), (math.inf, *build.marks))
    assert max(map(abs, errors.values())) < 1e-8


def test_a_start_shifts_by_a_pitch() -> None:
    """Of lead 12 with 6 starts each start is 2 mm at the film, at stop and marks alike."""
    for starts, shift in [(1, 2.0), (-1, -2.0), (3, 6.0)]:
        errors = errors_on_film(with_faults(starts=starts))
        assert errors["stop"] == pytest.approx(shift, abs=1e-9)
        assert errors["∞ mark"] == pytest.approx(shift, abs=1e-9)


def test_each_fault_shows_in_its_places() -> None:
    """A seat shows everywhere, a ring at the marks, a stop at the stop, a gate on film."""
    shown = {
        name: {
            place
            for place, off in errors_on_film(with_faults(**{name: 0.1})).items()
            if abs(off) > 1e-6
        }
        for name in ("seat", "ring", "stop", "gate")
    }
    assert shown["seat"] == shown["gate"] == set(errors_on_film(SOUND))
    assert shown["ring"] == shown["seat"] - {"stop"}
    assert shown["stop"] == {"stop"}


def test_a_seat_moves_the_near_image_by_one_minus_m_squared() -> None:
    """A lens 0.1 mm too far out for 1 m is off by 0.1·(1 − m²) at the film."""
    error = with_faults(seat=0.1).on_film(1000.0, with_faults(seat=0.1).at_mark(1000.0))
    m = SOUND.lens.magnification(1000.0)
    assert error == pytest.approx(0.1 * (1 - m**2), abs=2e-5)


def test_a_longer_lens_falls_short_near_by_its_extension() -> None:
    """A lens longer by 1 % is right at ∞ and 0.056 mm too far in at its 1 m mark."""
    errors = errors_on_film(with_faults(focal=0.01))
    assert errors["∞ mark"] == pytest.approx(0, abs=1e-9)
    # Newton: the extension 2.780 for 1 m grows as f², by 2 % of 2.78, and a little close up.
    assert errors["1 m mark"] == pytest.approx(-0.057, abs=0.003)


def test_a_cell_not_home_counts_by_the_square_of_focal_lengths() -> None:
    """A front cell of 34.419 mm left 0.1 mm out draws a 50 mm lens's image in by 0.211 mm."""
    narrow = TracedCamera(replace(BUILD, f_number=PINHOLE), Faults(cell=0.1))
    assert errors_on_film(narrow)["∞ mark"] == pytest.approx(0.211, rel=0.005)


def test_a_ring_on_a_front_cell_counts_so_too() -> None:
    """Turned 0.1 mm on its thread the front cell does as much, and a seat what it does to all."""
    ring = TracedCamera(replace(CELL, f_number=PINHOLE), Faults(ring=0.1))
    assert errors_on_film(ring)["∞ mark"] == pytest.approx(0.211, rel=0.005)
    assert errors_on_film(TracedCamera(CELL, Faults(seat=0.1)))["stop"] == pytest.approx(0.1)


def test_a_wide_beam_asks_more_of_a_front_cell() -> None:
    """At f/4 the cell's movement changes the aberration too, and the focus by 6 % more."""
    # No rule says so; the triplet is followed at full aperture, and the least spot found.
    wide, narrow = (
        errors_on_film(TracedCamera(build, Faults(ring=0.1)))["∞ mark"]
        for build in (CELL, replace(CELL, f_number=PINHOLE))
    )
    assert wide / narrow == pytest.approx(1.06, abs=0.01)


def test_a_leaning_standard_shows_in_the_corners() -> None:
    """A slope of 0.002 out at the right is ±0.036 mm at 18 mm, nothing in the middle."""
    camera = TracedCamera(BUILD, Faults(tilt=(0.002, 0.0)))
    errors = errors_on_film(camera)
    assert errors["top right"] == pytest.approx(0.036, abs=1e-9)
    assert errors["bottom left"] == pytest.approx(-0.036, abs=1e-9)
    assert errors["∞ mark"] == pytest.approx(0, abs=1e-9)
    # The image plane of a near subject tilts 1 + m times as much.
    assert camera.lean(1000.0, (18.0, 0.0)) == pytest.approx(0.036 * 1.0556, abs=1e-5)


def test_the_field_curves_by_petzval() -> None:
    """Of a hollow field of 2.85 focal lengths half the sag is left at 21.6 mm: 0.82 mm in front."""
    camera = TracedCamera(BUILD, unmodelled=Unmodelled(hollow=0.5))
    # h²/2R = 468/(2 · 142.6) = 1.64.
    assert camera.sag((18.0, 12.0)) == pytest.approx(0.82, abs=0.005)


@pytest.mark.parametrize(("follows", "left"), [("lens", 0.0), ("carriage", 0.1)])
def test_a_shim_reaches_the_rangefinder_by_its_follower(follows: str, left: float) -> None:
    """A follower on the lens takes a shim up; one on the carriage leaves it on the film."""
    build = replace(BUILD, coupling=replace(FINDER, joined="cam", follows=follows))
    errors = errors_on_film(TracedCamera(build, Faults(seat=0.1)), (math.inf,))
    assert errors["rangefinder, inf m"] == pytest.approx(left, abs=1e-9)


def test_zero_and_gain_of_the_rangefinder() -> None:
    """A zero shows alike far and near, a gain in proportion to the lens's way."""
    build = replace(BUILD, coupling=replace(FINDER, joined="cam"))
    met = (math.inf, 1000.0)
    far, near = list(errors_on_film(TracedCamera(build, Faults(zero=0.1)), met).values())[-2:]
    assert (far, near) == pytest.approx((0.1, 0.1), abs=5e-4)
    far, near = list(errors_on_film(TracedCamera(build, Faults(gain=0.01)), met).values())[-2:]
    assert far == pytest.approx(0, abs=1e-9)
    assert near == pytest.approx(0.0278, abs=4e-4)


def test_the_ring_shows_what_it_is_engraved_with() -> None:
    """With the images of 3 m met a sound ring shows 3 m, and one slipped out shows farther."""
    build = replace(BUILD, coupling=replace(FINDER, joined="cam"))
    sound, slipped = TracedCamera(build), TracedCamera(build, Faults(ring=0.05))
    stand = sound.meeting(3000.0)
    assert stand is not None
    assert sound.read_on_ring(stand) == pytest.approx(3000.0, rel=1e-8)
    # The ring stands 0.05 mm less far out: 50²/3000 = 0.83 mm less 0.05 is about 3.2 m.
    assert slipped.read_on_ring(stand) == pytest.approx(3180, abs=40)
    infinity = slipped.meeting(math.inf)
    assert infinity is not None
    # Beyond its ∞ mark it does not go.
    assert slipped.read_on_ring(infinity) == math.inf


def test_what_is_off_is_told_by_what_it_does_at_the_film() -> None:
    """Each part's way off its true place is told in mm at the film, and of a right camera is 0."""
    right = SOUND.at_the_film
    assert all(abs(off) < 1e-8 for off in right.values())
    off = TracedCamera(BUILD, Faults(starts=-1, tilt=(0.002, 0.001), gain=0.01)).at_the_film
    assert off["start"] == -2.0
    # The picture's corner is 18 and 12 mm from its middle.
    assert off["tilt"] == pytest.approx(0.048)
    assert off["gain"] == pytest.approx(0.0278, abs=4e-4)
    assert TracedCamera(CELL, Faults(ring=0.1)).at_the_film["ring"] == pytest.approx(
        0.211, rel=0.01
    )


def test_the_worst_place_is_named() -> None:
    """The judge names the place that is most out, whichever way."""
    assert worst({"stop": 0.01, "∞ mark": -0.2}) == ("∞ mark", -0.2)
