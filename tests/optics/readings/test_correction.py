"""What would be seen, against a lens placed by numbers and two rays traced to the film."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.camera.cautions import SOLVENTS, SPRINGS, SUN
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, exact, within
from optics.measure.verdict import Verdict
from optics.readings.correction import Sight, correct, sight
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.readings import Sense
from tests.optics.readings.simulated_camera import FrontCellLens, SimulatedCamera, WholeLens

quick = settings(max_examples=100, deadline=None)
errors = st.floats(-0.4, 0.4)
mark_choices = st.sampled_from((math.inf, 40.0, 12.0))
THREAD = Helicoid(lead=18.0, starts=6, extends=Turn.COUNTER_CLOCKWISE)


def camera_of(focal_length: float, hiatus: float = 0.0, pupil: float = 1.0) -> Camera:
    """Give a camera whose lens moves whole."""
    return Camera("", Lens(focal_length, 4.0, hiatus, pupil), THREAD, 0.05)


def simulated(lens: WholeLens | FrontCellLens, error: float) -> SimulatedCamera:
    """Give the like camera as a model of its parts, its shims wrong by the error."""
    return SimulatedCamera(lens, 18.0, 6, False, 40.0, [error], 0.0)


def seen(camera: Camera, mark: float, error: float, limit: float = 0.0) -> Sight:
    """Describe what is seen at a mark, the error known within a limit."""
    return sight(camera, mark, within(error, limit, "all"))


@quick
@given(st.floats(20, 300), st.floats(-0.1, 0.15), mark_choices, errors)
def test_the_sharp_distance_is_where_a_placed_lens_is_sharp(
    focal_length: float, part: float, times: float, error: float
) -> None:
    """The distance that is sharp is where halving intervals on the thin-lens equation finds it."""
    hiatus, mark = part * focal_length, times * focal_length
    model = simulated(WholeLens(focal_length, hiatus), error)
    model.set_to(mark)
    assume(abs(model.fault(math.inf)) > 1e-6)
    found = seen(camera_of(focal_length, hiatus), mark, error).sharp_at
    expected = model.sharp_at(mark)
    if expected is None:
        assert found is None
    else:
        assert found == pytest.approx(expected, rel=1e-6)


@quick
@given(st.floats(40, 150), st.floats(0.6, 1.5), mark_choices, errors)
def test_the_sharp_distance_of_a_front_cell(
    focal_length: float, ratio: float, times: float, error: float
) -> None:
    """With a front cell out by some travel, what is sharp is where two thin groups are sharp."""
    assume(abs(ratio - 1) > 0.02)
    front, gap = ratio * focal_length, 0.2 * ratio * focal_length
    lens = FrontCellLens(front, (front - gap) / (ratio - 1), gap)
    model = simulated(lens, 0.0)
    model.slip = -error / ratio**-2 / 18.0 * 360  # counter-clockwise moves out
    camera = Camera(
        "",
        Lens(focal_length, 4.0),
        FrontCell(front, 18.0, Turn.COUNTER_CLOCKWISE, model.cell_to_film),
        0.05,
    )
    mark = times * front
    model.set_to(mark)
    assume(abs(model.fault(math.inf)) > 1e-6)
    found, expected = seen(camera, mark, error).sharp_at, model.sharp_at(mark)
    if expected is None:
        assert found is None
    else:
        assert found == pytest.approx(expected, rel=1e-6)


@quick
@given(st.floats(20, 300), mark_choices, st.floats(-0.4, 0.4), st.floats(0.01, 0.3))
def test_the_interval_is_where_the_lens_may_stand(
    focal_length: float, times: float, error: float, limit: float
) -> None:
    """Nearest and farthest are what is sharp with the lens U farther out and U farther in."""
    mark = times * focal_length
    found = seen(camera_of(focal_length), mark, error, limit)
    reach = 1.959963984540054 * limit / math.sqrt(3)  # k for 95 %, GUM table G.2
    for end, shifted in ((found.nearest, error + reach), (found.farthest, error - reach)):
        expected = simulated(WholeLens(focal_length, 0.0), shifted).sharp_at(mark)
        assert end is None if expected is None else end == pytest.approx(expected, rel=1e-5)


def disc_of_two_rays(
    focal_length: float, stop_behind: float, f_number: float, subject: float, film: float
) -> float:
    """Trace the two rays that graze a stop from a point on the axis, and measure them at the film.

    A thin lens with a stop some way behind it (minus: before it); distances from the lens.
    """
    edge = focal_length / f_number / 2  # where a parallel ray that grazes the stop meets the lens
    if stop_behind >= 0:
        stop = edge * (1 - stop_behind / focal_length)
        height = stop / (1 + stop_behind * (1 / subject - 1 / focal_length))
    else:
        stop = edge
        height = stop / (1 + stop_behind / subject)
    slope = height * (1 / subject - 1 / focal_length)
    return 2 * abs(height + film * slope)


@quick
@given(st.floats(20, 300), st.floats(-0.4, 0.4), mark_choices, st.floats(0.01, 0.3))
def test_the_disc_is_what_two_marginal_rays_draw(
    focal_length: float, stop: float, times: float, error: float
) -> None:
    """The blur disc at the mark is as wide as two rays past the stop's edge are at the film."""
    pupil = 1 - stop if stop >= 0 else 1 / (1 + stop)
    mark = times * focal_length
    found = seen(camera_of(focal_length, pupil=pupil), mark, error).blur
    right = simulated(WholeLens(focal_length, 0.0), 0.0)
    right.set_to(mark)
    carried = focal_length + abs(right.angle) / 360 * 18.0 + error
    drawn = disc_of_two_rays(focal_length, stop * focal_length, 4.0, mark - carried, carried)
    # The lens's own shift changes the subject's distance too: m² of the disc, and e of f.
    magnification = abs(right.angle) / 360 * 18.0 / focal_length
    assert found == pytest.approx(drawn, rel=1.1 * magnification**2 + 3 * abs(error) / focal_length)


def test_a_disc_worked_by_hand() -> None:
    """A lens at f/4 that is 0.2 mm out draws infinity as a disc of 0.2/4 = 0.05 mm."""
    found = seen(camera_of(75.0), math.inf, 0.2)
    assert found.blur == pytest.approx(0.05)
    assert not seen(camera_of(75.0), math.inf, 0.2001).looks_sharp
    assert seen(camera_of(75.0), math.inf, -0.1999).looks_sharp


@pytest.mark.parametrize("error", [0.0, 1e-15, -1e-15])
def test_rounding_is_not_seen_as_an_error(error: float) -> None:
    """An error that only arithmetic makes leaves infinity sharp at infinity."""
    assert seen(camera_of(75.0), math.inf, error).sharp_at == math.inf


def test_too_far_in_at_infinity_nothing_is_sharp() -> None:
    """Too far in with the ring at infinity, no distance is sharp, unless within U."""
    found = seen(camera_of(75.0), math.inf, -0.1, 0.2)
    assert (found.sharp_at, found.farthest) == (None, None)
    assert found.nearest is not None


RIGHT_REGISTER = RegisterReading(within(40.0, 0.01, "gauge"), exact(40.0))


def test_the_whole_answer_hangs_together() -> None:
    """Error, sense, verdict, sights and offers of one reading agree with each other."""
    reading = RegisterReading(within(40.3, 0.01, "gauge"), exact(40.0))
    answer = correct(camera_of(75.0), reading)
    assert answer.error.value == pytest.approx(0.3)
    assert (answer.sense, answer.verdict) == (Sense.TOO_FAR_OUT, Verdict.OUTSIDE)
    assert [s.mark for s in answer.sights] == [math.inf, 3000.0, 1500.0]
    assert [o.kind for o in answer.offers] == ["shim", "ring", "start"]
    assert [r.kind for r in answer.remedies] == ["shim", "ring"]


def test_the_usual_marks_are_shown_as_far_as_the_lens_reaches() -> None:
    """A lens of 450 mm, which cannot focus nearer than 1.8 m, is described at infinity and 3 m."""
    answer = correct(camera_of(450.0), RIGHT_REGISTER)
    assert [s.mark for s in answer.sights] == [math.inf, 3000.0]


def test_a_mark_asked_for_must_be_within_reach() -> None:
    """A mark that was asked for and that the lens cannot reach is refused."""
    with pytest.raises(OutOfRange, match=r"must be at least 1800 mm .*: got 1500 mm"):
        correct(camera_of(450.0), RIGHT_REGISTER, marks=(1500.0,))


def test_the_sun_is_warned_of_wherever_one_looks_through() -> None:
    """Every reading that looks through the lens warns of the Sun, and the gauge does not."""
    looking = MarkReading(exact(math.inf), exact(20000.0))
    assert SUN in correct(camera_of(75.0), looking).cautions
    assert SUN not in correct(camera_of(75.0), RIGHT_REGISTER).cautions


def test_each_caution_stands_once_and_with_its_step() -> None:
    """Taking threads apart warns of solvents and springs once, moving stops of springs."""
    apart = correct(camera_of(75.0), RotationReading(exact(1.0), exact(math.inf), exact(math.inf)))
    assert sorted(c.key for c in apart.cautions) == ["solvents", "springs", "sun"]
    bed = Camera("", Lens(105.0, 3.5), Bed(), 0.06)
    moved = correct(bed, RegisterReading(exact(40.5), exact(40.0)))
    assert SPRINGS in moved.cautions
    assert SOLVENTS not in moved.cautions


def test_parallax_asks_for_a_measured_reading() -> None:
    """Parallax says the direction in words and asks for the amount, unless there is none."""
    said = ParallaxReading(True).advice
    assert said.startswith("The lens is too far out for this target.")
    assert "Take a measured reading" in said
    assert ParallaxReading(None).advice.startswith("No parallax")


def test_an_exact_reading_gives_no_interval() -> None:
    """Without any uncertainty the nearest and farthest are the sharp distance itself."""
    found = sight(camera_of(75.0), math.inf, Estimate(0.2))
    assert found.nearest == found.sharp_at == found.farthest
