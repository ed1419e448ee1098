"""The lift a cam needs, against the imaging equation of both lenses solved by halving."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Bed, Camera, Helicoid, Lens, Turn
from optics.errors import NoAnswer, OutOfRange
from optics.rangefinder.cam import Cam, LensLaw, StraightLaw, steps_to
from optics.theory import cam as theory

quick = settings(max_examples=60, deadline=None)


def coupled(
    focal_length: float = 90.0,
    hiatus: float = -1.0,
    lead: float = 24.0,
    turn: float = 150.0,
    law: LensLaw | StraightLaw | None = None,
) -> Cam:
    """A coupled lens of the invented workshop."""
    camera = Camera(
        "Ostrin 35",
        Lens(focal_length, 4.0, hiatus),
        Helicoid(lead, 6, Turn.COUNTER_CLOCKWISE),
        0.03,
    )
    return Cam(camera, law or LensLaw(50.0, 0.5), math.radians(turn))


def halved(wrong: Callable[[float], float], low: float, high: float) -> float:
    """Find where a steady function changes its sign."""
    rising = wrong(high) > wrong(low)
    for _ in range(200):
        middle = (low + high) / 2
        if (wrong(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def sharp_distance(focal_length: float, hiatus: float, image: float) -> float:
    """Film to subject, from the thin-lens equation with the image so far behind the lens."""
    subject = 1 / (1 / focal_length - 1 / image)
    return subject + hiatus + image


def lift_by_halving(cam: Cam, degrees: float) -> float:
    """The body's own lens moved until it is sharp where the coupled lens is."""
    lens, law = cam.camera.lens, cam.law
    assert isinstance(law, LensLaw)
    image = lens.focal_length + cam.thread.lead * degrees / 360
    wanted = sharp_distance(lens.focal_length, lens.hiatus, image)
    f0, h0 = law.focal_length, law.hiatus
    return halved(lambda y: sharp_distance(f0, h0, f0 + y) - wanted, 1e-9, f0)


def straight_lift_by_halving(cam: Cam, degrees: float) -> float:
    """The sights turned until they cross where the coupled lens is sharp."""
    lens, law = cam.camera.lens, cam.law
    assert isinstance(law, StraightLaw)
    image = lens.focal_length + cam.thread.lead * degrees / 360
    wanted = sharp_distance(lens.focal_length, lens.hiatus, image) - law.base_to_film
    return halved(lambda y: law.base - wanted * math.tan(law.gain * y), 0.0, 1.0 / law.gain)


@given(
    focal_length=st.floats(25, 150),
    hiatus=st.floats(-5, 5),
    body=st.floats(35, 60),
    body_hiatus=st.floats(-3, 3),
    degrees=st.floats(1, 120),
)
@quick
def test_lift_is_that_of_the_bodys_own_lens(
    focal_length: float, hiatus: float, body: float, body_hiatus: float, degrees: float
) -> None:
    """The lift is where the body's lens, moved by halving, is sharp at the same distance."""
    lead = focal_length**2 / 400
    cam = coupled(focal_length, hiatus, lead, 130, LensLaw(body, body_hiatus))
    got = float(cam.lift(np.array([math.radians(degrees)]))[0])
    assert got == pytest.approx(lift_by_halving(cam, degrees), abs=1e-7)


@given(
    focal_length=st.floats(25, 150),
    base=st.floats(15, 90),
    base_to_film=st.floats(0, 40),
    gain=st.floats(0.005, 0.04),
    degrees=st.floats(1, 120),
)
@quick
def test_a_straight_follower_makes_the_sights_cross_on_the_subject(
    focal_length: float, base: float, base_to_film: float, gain: float, degrees: float
) -> None:
    """The lift for straight sights is where they cross at the distance the lens is sharp."""
    law = StraightLaw(base, gain, base_to_film)
    cam = coupled(focal_length, 1.0, focal_length**2 / 400, 130, law)
    got = float(cam.lift(np.array([math.radians(degrees)]))[0])
    assert got == pytest.approx(straight_lift_by_halving(cam, degrees), abs=1e-7)


def test_the_bodys_own_lens_needs_its_own_travel() -> None:
    """A lens like the body's own needs a lift that is its own extension, straight to the end."""
    cam = coupled(50.0, 0.5, 18.0, 90.0)
    table = cam.table()
    assert table.lift == pytest.approx(18.0 * np.arange(91) / 360, abs=1e-12)
    assert table.slope == pytest.approx(np.ones(91), abs=1e-12)


def test_a_longer_lens_by_hand() -> None:
    """A 90 mm lens 10 mm out is sharp at 1 m, where a 50 mm lens stands 2.7864 mm out."""
    # Worked by hand: 90 + 90 + 10 + 90²/10 = 1000; 50 mm at 1000 mm is a published check value.
    cam = coupled(90.0, 0.0, 24.0, 150.0, LensLaw(50.0))
    assert cam.film_distance(np.array([math.radians(150)])) == pytest.approx(1000.0)
    assert cam.lift(np.array([math.radians(150)])) == pytest.approx(2.7864, abs=5e-5)


@pytest.mark.parametrize("law", [LensLaw(50.0, 0.5), StraightLaw(41.0, 0.016, 20.0)])
def test_infinity_is_exact_and_the_slope_is_that_of_the_curve(law: LensLaw | StraightLaw) -> None:
    """At infinity there is no lift, and everywhere the slope is the lift's own difference."""
    cam = coupled(law=law)
    table = cam.table(math.radians(10))
    assert (table.lift[0], table.film_distance[0]) == (0.0, math.inf)
    inner, step = table.rotation[1:-1], 1e-5
    rise = (cam.lift(inner + step) - cam.lift(inner - step)) / (2 * step * 24.0 / (2 * math.pi))
    assert table.slope[1:-1] == pytest.approx(rise, rel=1e-7)


def test_the_table_goes_by_degrees_to_the_end() -> None:
    """The table has a row for every degree and one at the end of the turn."""
    table = coupled(turn=12.5).table()
    assert np.degrees(table.rotation) == pytest.approx([*range(13), 12.5])
    fives = steps_to(math.radians(30), math.radians(5), math.radians(3))
    assert np.degrees(fives) == pytest.approx([3, 5, 10, 15, 20, 25, 30])


def test_the_lift_tolerance_is_the_films_scaled() -> None:
    """Half of N·c at the film becomes a lift tolerance by the slope: by hand at infinity."""
    # N·c/2 = 4 × 0.03 / 2 = 0.06 mm; the slope at infinity is (50/90)².
    table = coupled(90.0, 0.0, law=LensLaw(50.0)).table()
    assert table.tolerance[0] == pytest.approx(0.06 * (50 / 90) ** 2)


def test_the_inverse_form_takes_the_lift_back_to_the_lens() -> None:
    """Both relations solved for the extension give back the extension that made the lift."""
    out = np.array([0.0, 0.5, 3.0, 9.0])
    bodies = {
        theory.cam_lift: {"body_focal_length": 50.0, "body_hiatus": 0.5},
        theory.straight_follower: {"base": 41.0, "base_to_film": 20.0, "follower_gain": 0.016},
    }
    for relation, body in bodies.items():
        known = {"focal_length": 90.0, "hiatus": -1.0, **body}
        lift = relation.solve_for("lift").value(extension=out, **known)
        back = relation.solve_for("extension").value(lift=lift, **known)
        assert back == pytest.approx(out, abs=1e-11)


def test_what_has_no_cam_is_refused() -> None:
    """A lens on a bed, no turn, a turn past life size, and a step of nothing are refused."""
    bed = Camera("Tarnbrook", Lens(105.0, 3.5), Bed(), 0.06)
    with pytest.raises(OutOfRange, match="needs a lens that moves whole on a helicoid"):
        Cam(bed, LensLaw(50.0), 1.0)
    with pytest.raises(OutOfRange, match=r"more than 0° and at most 1350.0°.*got 0.0°"):
        coupled(turn=0.0)
    with pytest.raises(OutOfRange, match="life size: got 1400"):
        coupled(turn=1400.0)
    with pytest.raises(OutOfRange, match="step of the table must be more than 0°"):
        coupled().table(0.0)


def test_a_body_that_cannot_focus_so_near_has_no_lift() -> None:
    """Where the body's own lens could not focus as near, there is no lift and it is said."""
    cam = coupled(50.0, 0.0, 18.0, 360.0, LensLaw(135.0))
    with pytest.raises(NoAnswer, match="No lift"):
        cam.table()
