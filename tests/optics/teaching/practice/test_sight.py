"""What the eye sees, against what the readings would be and against a camera made of parts."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Helicoid, Turn
from optics.errors import NoAnswer
from optics.finding.diagnosis import Faults, predict
from optics.readings.kinds.register import RegisterReading
from optics.readings.practised import film_per_degree, scale_place
from optics.readings.readings import Moved
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sight import EYE, focus_error, glass_at, patch_at, reading_at, rest_of
from optics.teaching.practice.stand import Stand
from tests.optics.readings.simulated_camera import SimulatedCamera, WholeLens
from tests.optics.teaching.practice.stands import OSTRIN, STANDS, TARNBROOK, state_of

SMALL = st.floats(-0.3, 0.3)
LOOKS = [
    (stand, name)
    for stand in STANDS
    for name, offered in stand.offered.items()
    if offered.moved is not None
]


def in_moved_unit(stand: Stand, name: str, figure: float) -> float:
    """Give a measured figure in the unit of what is moved."""
    offered = stand.offered[name]
    if "rangefinder" in name:
        assert offered.moved is not None
        return scale_place(stand.camera, offered.moved, figure)
    return {Moved.RING: math.degrees(figure), Moved.TARGET: figure / 1000}.get(
        offered.moved or Moved.RETICLE, figure
    )


@pytest.mark.parametrize(("stand", "name"), LOOKS, ids=lambda v: getattr(v, "camera", v))
@settings(max_examples=15, deadline=None)
@given(seat=SMALL, ring=SMALL, stop=SMALL, focal=SMALL, zero=st.floats(0, 0.1))
def test_it_is_sharpest_where_the_reading_would_be_taken(
    stand: Stand, name: str, seat: float, ring: float, stop: float, focal: float, zero: float
) -> None:
    """Wherever the model says a reading is, the image is sharp there, and softer either way."""
    faults = Faults(seat=seat, ring=ring, stop=stop, focal=focal, zero=zero)
    offered = stand.offered[name]
    try:
        figure = predict(stand.camera, faults, offered.reading)
        amount = in_moved_unit(stand, name, figure)
        reading = reading_at(stand.camera, offered, amount)
    except NoAnswer:
        return
    assert focus_error(stand.camera, faults, reading) == pytest.approx(0.0, abs=1e-9)
    if "rangefinder" in name:
        patch = patch_at(stand, state_of(stand, faults), offered, amount)
        assert patch.across == pytest.approx(0.0, abs=1e-9)
        return
    state = state_of(stand, faults)
    sharp = glass_at(state, Level.ONE, offered, amount)
    for way in (-1, 1):
        beside = amount + way * 0.05 * max(abs(amount), 2.0)
        assert glass_at(state, Level.ONE, offered, beside).blur > sharp.blur


@pytest.mark.parametrize("ring", [-0.35, 0.0, 0.2])
@pytest.mark.parametrize("name", ["∞ mark", "3 m mark", "1.2 m mark"])
def test_a_camera_of_parts_is_sharp_at_the_same_turn(name: str, ring: float) -> None:
    """A camera put together from parts, its ring slipped, is sharp where the loupe is sharpest."""
    camera = OSTRIN.camera
    assert isinstance(camera.focusing, Helicoid)
    outward = camera.focusing.extends is Turn.CLOCKWISE
    parts = SimulatedCamera(
        WholeLens(camera.lens.focal_length, camera.lens.hiatus),
        camera.focusing.lead,
        camera.focusing.starts,
        outward,
        30.0,
        [],
        0.0,
    )
    # The scale ring slipped on the barrel, so that every mark stands farther out.
    parts.slip = parts.outward(ring / film_per_degree(camera))
    target = {"∞ mark": math.inf, "3 m mark": 3000.0, "1.2 m mark": 1200.0}[name]
    degrees, sense = parts.turned_until_sharp(target, target)
    amount = degrees if sense == camera.focusing.extends else -degrees
    state, offered = state_of(OSTRIN, Faults(ring=ring)), OSTRIN.offered[name]
    tries = [amount + 0.1 * step for step in range(-10, 11)]
    blurs = [glass_at(state, Level.ONE, offered, at).blur for at in tries]
    assert min(zip(blurs, tries, strict=True))[1] == pytest.approx(amount, abs=0.01)


def test_blur_is_defocus_over_the_f_number() -> None:
    """At f/2.8 an error of 0.28 mm makes a disc of 0.1 mm, to which the eye adds little."""
    offered = OSTRIN.offered["∞ mark"]
    glass = glass_at(state_of(OSTRIN, Faults(ring=0.28)), Level.ONE, offered, 0.0)
    assert glass.blur == pytest.approx(0.1, abs=0.001)
    assert glass.finest == 8


def test_finest_bars_run_together_before_the_coarse() -> None:
    """As the lens goes out of focus ever fewer bars are told apart, down to none."""
    offered = OSTRIN.offered["∞ mark"]
    state = state_of(OSTRIN, Faults())
    finest = [glass_at(state, Level.ONE, offered, at).finest for at in (0, 0.8, 2, 4, 8, 60)]
    assert finest == sorted(finest, reverse=True)
    assert finest[0] == 60
    assert finest[-1] == 0


def test_a_coarse_glass_is_softer() -> None:
    """The worn ground glass of the third level blurs even what is in focus."""
    offered, state = OSTRIN.offered["∞ mark"], state_of(OSTRIN, Faults())
    good, coarse = (glass_at(state, level, offered, 0.0) for level in (Level.ONE, Level.THREE))
    assert coarse.blur > good.blur


def test_the_finder_shows_what_the_eye_can_see_of_an_error() -> None:
    """The film error of f²ε/(bM) splits the images by just ε; height shows by itself."""
    # At 47 mm and bM 24.6 mm one minute stands for 47² · 2.9089e-4 / 24.6 = 0.02612 mm.
    offered = OSTRIN.offered["rangefinder at 1.2 m"]
    rest = rest_of(OSTRIN.camera, offered)
    out = state_of(OSTRIN, Faults(ring=0.02612), height=0.001)
    sound = patch_at(OSTRIN, state_of(OSTRIN, Faults()), offered, rest)
    patch = patch_at(OSTRIN, out, offered, rest)
    assert patch.across - sound.across == pytest.approx(EYE, rel=0.001)
    assert patch.up == 0.001
    inward = patch_at(OSTRIN, state_of(OSTRIN, Faults(ring=-0.1)), offered, rest)
    assert inward.across < 0


def test_nothing_is_looked_at_in_a_gauge_reading() -> None:
    """A register is gauged; asking what the eye sees of it is a mistake of the caller."""
    reading = OSTRIN.offered["register"].reading
    assert isinstance(reading, RegisterReading)
    with pytest.raises(TypeError, match="register"):
        focus_error(OSTRIN.camera, Faults(), reading)


def test_images_that_meet_at_infinity_are_no_reading() -> None:
    """At the ∞ mark the scale has no figure that could carry an uncertainty."""
    with pytest.raises(NoAnswer, match="set the ring farther out, and where"):
        reading_at(OSTRIN.camera, OSTRIN.offered["rangefinder at 10 m"], 0.0)


def test_a_look_begins_where_the_scale_says() -> None:
    """A target on a bed stands at the distance of its mark, a reticle at 0."""
    assert rest_of(TARNBROOK.camera, TARNBROOK.offered["2.5 m mark"]) == 2.5
    assert rest_of(TARNBROOK.camera, TARNBROOK.offered["infinity stop"]) == 0.0
