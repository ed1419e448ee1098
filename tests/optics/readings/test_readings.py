"""Every kind of reading against numbers worked by hand, and the right way round."""

import math

import pytest

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, exact, within
from optics.measure.verdict import Verdict
from optics.readings.correction import correct
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading, turned
from optics.readings.kinds.ruler import RulerReading
from optics.readings.readings import Reading, Sense

# Unit-focusing extensions, checked by D = 2f + h + x + f²/x by hand:
# f 90, D 1000: 180 + 10 + 8100/10 = 1000, so x = 10.
# f 135, D 1500: 270 + 15 + 18225/15 = 1500, so x = 15.
NINETY = Lens(90.0, 4.5)
HELICOID = Helicoid(lead=18.0, starts=6, extends=Turn.COUNTER_CLOCKWISE)
CAMERA = Camera("ninety", NINETY, HELICOID, 0.05)
BED = Camera("plates", Lens(135.0, 4.5), Bed(), 0.1)
# Front cell: u − f₁ = 2500 and f₁ = 50 make t = 2500/2500 = 1, with D = K + t + u = 80 + 1 + 2550.
CELL = Camera(
    "folder", Lens(75.0, 3.5), FrontCell(50.0, 9.0, Turn.CLOCKWISE, cell_to_film=80.0), 0.05
)
NEAR_CELL = 80.0 + 1.0 + 50.0 + 2500.0
FILM_PER_CELL = 2.25  # (75/50)²


def error(camera: Camera, reading: Reading) -> float:
    """Return the focus error that the last step gives."""
    return reading.steps(camera)[-1].result.value


def mark(ring: float, sharp: float) -> MarkReading:
    """With the ring at a mark, a distance is sharp."""
    return MarkReading(exact(ring), exact(sharp))


def turn(degrees: float, target: float = math.inf, ring: float = math.inf) -> RotationReading:
    """Turned so many degrees outward until a target was sharp."""
    return RotationReading(exact(math.radians(degrees)), exact(target), exact(ring))


def test_a_lens_sharp_nearer_than_its_mark_is_too_far_out() -> None:
    """Sharp at 1 m with the ring at infinity, a lens of 90 mm is 10 mm too far out."""
    assert error(CAMERA, mark(math.inf, 1000.0)) == pytest.approx(10.0, abs=1e-9)
    assert error(BED, mark(math.inf, 1500.0)) == pytest.approx(15.0, abs=1e-9)


def test_a_lens_sharp_beyond_its_mark_is_too_far_in() -> None:
    """Sharp at infinity with the ring at 1 m, a lens of 90 mm is 10 mm too far in."""
    assert error(CAMERA, mark(1000.0, math.inf)) == pytest.approx(-10.0, abs=1e-9)


def test_a_lens_sharp_at_its_mark_is_right() -> None:
    """Sharp where the ring says, a lens is right, at infinity as near by."""
    for distance in (math.inf, 1000.0, 1500.0):
        assert error(CAMERA, mark(distance, distance)) == 0.0


def test_a_front_cell_sharp_nearer_than_its_mark_is_too_far_out() -> None:
    """A cell of 50 mm that stands 1 mm too far out is 2.25 mm out at the film of a 75 mm lens."""
    assert error(CELL, mark(math.inf, NEAR_CELL)) == pytest.approx(FILM_PER_CELL, abs=1e-9)
    assert error(CELL, mark(NEAR_CELL, math.inf)) == pytest.approx(-FILM_PER_CELL, abs=1e-9)


def test_turned_inward_until_infinity_was_sharp_was_too_far_out() -> None:
    """Turned 36° inward on a lead of 18 mm, a tenth of a turn, the lens was 1.8 mm too far out."""
    assert error(CAMERA, turn(-36)) == pytest.approx(1.8, abs=1e-9)


def test_turned_outward_until_infinity_was_sharp_was_too_far_in() -> None:
    """Turned 36° outward on a lead of 18 mm, a tenth of a turn, the lens was 1.8 mm too far in."""
    assert error(CAMERA, turn(36)) == pytest.approx(-1.8, abs=1e-9)


def test_turned_as_far_as_the_target_calls_for_is_right() -> None:
    """From infinity to 1 m calls for 10 mm, 200° on a lead of 18 mm; turned so, all is right."""
    assert error(CAMERA, turn(200, target=1000.0)) == pytest.approx(0.0, abs=1e-9)
    assert error(CAMERA, turn(-200, ring=1000.0)) == pytest.approx(0.0, abs=1e-9)


def test_turned_less_than_the_target_calls_for_was_too_far_out() -> None:
    """Sharp at 1 m after 180° of the 200° that it calls for, the lens was 1 mm too far out."""
    assert error(CAMERA, turn(180, target=1000.0)) == pytest.approx(1.0, abs=1e-9)


def test_a_front_cell_turned_inward_until_sharp_was_too_far_out() -> None:
    """A cell turned 40° inward on a lead of 9 mm moved 1 mm, which is 2.25 mm at the film."""
    assert error(CELL, turn(-40)) == pytest.approx(FILM_PER_CELL, abs=1e-9)
    assert error(CELL, turn(40)) == pytest.approx(-FILM_PER_CELL, abs=1e-9)
    assert error(CELL, turn(40, target=NEAR_CELL)) == pytest.approx(0.0, abs=1e-9)


def test_a_register_gauged_too_long_is_too_far_out() -> None:
    """A seat 0.034 mm too far from the film carries the lens 0.034 mm too far out."""
    long, short = (RegisterReading(exact(measured), exact(17.526)) for measured in (17.560, 17.500))
    assert error(CAMERA, long) == pytest.approx(0.034, abs=1e-9)
    assert error(CAMERA, short) == pytest.approx(-0.026, abs=1e-9)


def collimated(shift: float, apart: float | None, limit: float = 0.0) -> CollimatorReading:
    """Give a collimator of 360 mm before the lens of 90 mm, its reticle shifted so far."""
    to_lens = None if apart is None else exact(apart)
    return CollimatorReading(within(shift, limit, "slide"), exact(360.0), to_lens=to_lens)


def test_a_reticle_moved_towards_the_collimators_lens_means_too_far_out() -> None:
    """With the focal points together, a reticle 4 mm inside the focus is 4/16 = 0.25 mm."""
    assert error(CAMERA, collimated(4.0, 450.0)) == pytest.approx(0.25, abs=1e-9)
    assert error(CAMERA, collimated(-4.0, 450.0)) == pytest.approx(-0.25, abs=1e-9)


def test_a_collimators_distance_that_nobody_told_is_in_the_uncertainty() -> None:
    """From touching to f + f_c every place is equally likely, and what that makes is in the ±."""
    # By hand, with a shift of 36 mm: touching 8100/(3600 − 450) = 2.5714, with the focal points
    # together 8100/3600 = 2.25; half of the way between them over √3 is 0.0928 mm.
    told, untold = (
        collimated(36.0, apart, 0.01).steps(CAMERA)[-1].result for apart in (225.0, None)
    )
    assert untold.value == pytest.approx(told.value, abs=1e-12)
    more = math.sqrt(untold.standard**2 - told.standard**2)
    assert more == pytest.approx(0.0928, abs=0.0005)
    names = {source.name for source in untold.parts} - {source.name for source in told.parts}
    assert names == {"collimator lens to camera lens, not told"}
    assert collimated(36.0, None).span(CAMERA) == pytest.approx((2.5714, 2.25), abs=5e-5)


def test_the_same_reading_worked_twice_shares_its_untold_distance() -> None:
    """Two answers from one reading share its unknown distance, and differ by nothing."""
    reading = collimated(36.0, None, 0.01)
    first, second = (reading.steps(CAMERA)[-1].result for _ in range(2))
    assert first.plus(second, -1.0).standard == pytest.approx(0.0, abs=1e-12)


def test_a_shift_that_no_image_goes_with_is_refused_in_one_sentence() -> None:
    """A shift that puts the object at or inside the front focal point says so, told or not."""
    # By hand: 360²/(360 + 90) = 288 mm with the lenses touching.
    for reading in (collimated(288.0, 0.0), collimated(300.0, None), collimated(360.0, 450.0)):
        with pytest.raises(OutOfRange, match=r"^The shift of the reticle [^.]*\.?[^.]*\.$"):
            reading.steps(CAMERA)


def test_an_untold_distance_is_not_taken_for_the_whole_uncertainty() -> None:
    """A single shift of no stated limit carries the eye's blur beside the untold distance."""
    found = correct(CAMERA, collimated(0.01, None))
    distance_alone = collimated(0.01, None).steps(CAMERA)[-1].result.standard
    assert found.error.standard > 5 * distance_alone
    assert correct(CAMERA, collimated(0.01, None, 0.01)).verdict is Verdict.INSIDE


def test_a_ruler_sharp_on_the_near_side_of_its_zero_is_too_far_out() -> None:
    """Sharp 100 mm along a 60° ruler towards the camera, 50 mm nearer, the lens is too far out."""
    slope = exact(math.radians(60))
    reading = RulerReading(exact(1050.0), exact(100.0), slope, exact(math.inf))
    sharp, last = reading.steps(CAMERA)
    assert sharp.result.value == pytest.approx(1000.0, abs=1e-9)
    assert last.result.value == pytest.approx(10.0, abs=1e-9)
    at_aim = RulerReading(exact(1000.0), exact(100.0), slope, exact(1000.0))
    beyond = RulerReading(exact(1000.0), exact(-100.0), slope, exact(1000.0))
    assert error(CAMERA, at_aim) > 0 > error(CAMERA, beyond)


def test_an_image_that_moves_with_the_eye_is_too_far_out() -> None:
    """Of two things in line the farther moves with the eye, and here it is nearer the lens."""
    assert ParallaxReading(True).sense is Sense.TOO_FAR_OUT
    assert ParallaxReading(False).sense is Sense.TOO_FAR_IN
    assert ParallaxReading(None).sense is Sense.RIGHT


def test_a_limit_is_carried_to_the_film() -> None:
    """A register known to ± 0.015 mm gives the error to ± 0.015/√3 standard, and k 1.96."""
    reading = RegisterReading(within(17.56, 0.015, "gauge"), exact(17.526))
    found = reading.steps(CAMERA)[-1].result
    assert found.standard == pytest.approx(0.0086603, abs=1e-7)
    assert found.expanded == pytest.approx(0.016974, abs=1e-6)


def test_a_distance_limit_shrinks_by_the_magnification_squared() -> None:
    """At 1 m a lens of 90 mm carries ± 5 mm to the film by about m², m = 10/90 (Newton)."""
    reading = MarkReading(exact(math.inf), within(1000.0, 5.0, "tape"))
    found = reading.steps(CAMERA)[-1].result
    # The subject is measured from the film, which adds dx itself: dx/dD = −m²/(1 − m²) = −1/80.
    assert found.standard == pytest.approx(5 / 80 / math.sqrt(3), rel=1e-6)


def test_the_sense_of_turning_is_the_cameras() -> None:
    """A turn counts as outward where its sense, seen from the front, is the one that extends."""
    assert turned(CAMERA, 0.5, "counter-clockwise") == 0.5
    assert turned(CAMERA, 0.5, "clockwise") == -0.5
    assert turned(CELL, 0.5, Turn.CLOCKWISE) == 0.5
    assert turned(CELL, 0.5, Turn.COUNTER_CLOCKWISE) == -0.5


def test_a_bed_has_nothing_to_turn() -> None:
    """A rotation on a bed camera is refused, at the reading and before it."""
    with pytest.raises(NoAnswer, match="no focusing thread to turn"):
        turned(BED, 0.5, "clockwise")
    with pytest.raises(NoAnswer, match="slides on a bed or struts"):
        turn(10).steps(BED)


def test_the_sense_has_words_and_a_least_size() -> None:
    """From half a micrometre on an error has a sense, and the words say which."""
    assert [Sense.of(e).words for e in (0.0005, -0.0005)] == ["too far out", "too far in"]
    assert [Sense.of(e).words for e in (0.00049, -0.00049, -0.0)] == ["right"] * 3


def test_a_distance_nearer_than_the_lens_can_focus_is_refused() -> None:
    """A sharp distance below four focal lengths is refused with the limit and the figure."""
    with pytest.raises(OutOfRange, match=r"must be at least 360 mm .*: got 350 mm"):
        error(CAMERA, mark(math.inf, 350.0))


def test_the_steps_show_their_working() -> None:
    """Each step shows its numbers, in plain text and in LaTeX, up to the same answer."""
    step = RegisterReading(exact(17.56), exact(17.526)).steps(CAMERA)[0]
    assert step.working_text() == ("e = R − R₀ = 17.56 − 17.526 = 0.034 mm",)
    assert step.working()[0].startswith("e = R - R_0 = 17.56 - 17.526 = 0.034")


def test_an_estimate_without_parts_is_exact() -> None:
    """A figure as given has no uncertainty at all."""
    assert (Estimate(1.0).standard, Estimate(1.0).expanded, Estimate(1.0).dof) == (0, 0, math.inf)


def test_an_uncertain_distance_at_the_near_limit_is_named_as_such() -> None:
    """At the nearest distance a lens of 47 mm can serve, an uncertainty is refused in its words."""
    camera = Camera("forty-seven", Lens(47.0, 2.8), HELICOID, 0.03)
    known = MarkReading(exact(math.inf), exact(188.0))
    assert error(camera, known) == pytest.approx(47.0)
    reading = MarkReading(exact(math.inf), within(188.0, 1.0, "tape"))
    with pytest.raises(OutOfRange) as refused:
        reading.steps(camera)
    assert refused.value.quantity == "sharp_distance"
    assert "really sharp may not stand right at its limit of 188 mm" in str(refused.value)
    assert "four focal lengths" in str(refused.value)


def far(limit: float) -> Estimate:
    """18.7 m within so many mm."""
    return within(18_700.0, limit, "tape")


@pytest.mark.parametrize("limit", [30_000.0, 18_700.0])
def test_a_distance_that_is_not_known_at_all_is_refused(limit: float) -> None:
    """A distance good to no less than itself is no reading."""
    gauge, exactly = within(44.0, 50.0, "gauge"), exact(1000.0)
    for reading in (
        MarkReading(exact(math.inf), far(limit)),
        MarkReading(far(limit), exact(1000.0)),
        RotationReading(exact(0.1), far(limit), exact(math.inf)),
        RulerReading(far(limit), exact(0.0), exact(0.5), exactly),
        RegisterReading(gauge, exact(44.0)),
    ):
        with pytest.raises(OutOfRange, match="must be smaller than the figure itself: got"):
            reading.steps(CAMERA)


def test_too_near_is_said_before_too_vague() -> None:
    """A distance that no lens can serve is refused for that, however little it is known."""
    with pytest.raises(OutOfRange, match="must be at least 360 mm"):
        MarkReading(exact(math.inf), within(9.0, 10.0, "tape")).steps(CAMERA)


def test_a_poorly_known_distance_is_still_a_reading() -> None:
    """Limits that leave something of the distance, or go with infinity, are taken."""
    reading = MarkReading(exact(math.inf), far(18_000.0))
    assert reading.steps(CAMERA)[-1].result.standard > 0
    endless = MarkReading(exact(math.inf), within(math.inf, 30_000.0, "tape"))
    assert endless.steps(CAMERA)[-1].result.value == 0
