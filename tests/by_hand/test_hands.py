"""Hands that set what is asked, against what each adjustment says it does."""

from dataclasses import replace

import numpy as np
import pytest

from optics.camera.camera import Camera
from optics.finding.causes import ALL, AT, Adjustment, Cause
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.causes.stop import STOP
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults
from optics.teaching.practice import PracticeCamera
from tests.by_hand.hands import Hands
from tests.optics.teaching.bench_day import AT_HAND, BED, CELL, HELICOID

WANTED = {
    GATE: 0.06,
    TILT: 0.002,
    START: 6.0,
    SEAT: 0.08,
    STOP: 0.15,
    RING: 0.2,
    FOCAL: 0.35,
    ZERO: 0.15,
    GAIN: 0.03,
}


class Steady:
    """A chance that always falls in the middle."""

    def uniform(self, low: float, high: float) -> float:
        """Give the middle."""
        return (low + high) / 2


# Only a helicoid has other starts.
ON_CAMERAS = [
    (cause, camera)
    for cause in ALL
    for camera in (HELICOID, CELL, BED)
    if cause is not START or camera is HELICOID
]


@pytest.mark.parametrize("way", [1, -1], ids=["out", "in"])
@pytest.mark.parametrize(("cause", "camera"), ON_CAMERAS)
def test_setting_the_amounts_does_what_the_figures_say(
    cause: Cause, way: int, camera: Camera
) -> None:
    """Set by its amounts, every adjustment changes the camera by what it says it changes."""
    wanted = dict.fromkeys(cause.figures, 0.0) | {next(iter(cause.figures)): way * WANTED[cause]}
    done = cause.put_right(camera, AT_HAND, wanted)
    assert isinstance(done, Adjustment)
    before = PracticeCamera(camera, Faults(), AT_HAND)
    after = Hands(Steady()).carry_out(before, done)  # type: ignore[arg-type]
    expected = np.zeros(len(AT))
    for name, change in done.changes.items():
        expected[AT[name]] = change.value
    # Degrees are said to a tenth, which on the coarsest of these threads is 0.003 mm either way.
    assert after.hidden.vector == pytest.approx(expected, abs=0.003)
    # Shims are made up to a quarter of the tolerance with as few leaves as will do.
    room = camera.allowed_error / 4 if cause is SEAT else 0.15 * WANTED[cause]
    assert expected[AT[next(iter(cause.figures))]] == pytest.approx(way * WANTED[cause], abs=room)


def test_hands_miss_by_no_more_than_half_a_step() -> None:
    """Settings miss evenly within the limits that the plan allows for."""
    done = RING.put_right(HELICOID, AT_HAND, {"ring": 0.2})
    assert isinstance(done, Adjustment)
    before = PracticeCamera(HELICOID, Faults(), AT_HAND)
    hands = Hands(np.random.default_rng(4))
    limit = 3**0.5 * done.changes["ring"].standard
    got = [hands.carry_out(before, done).hidden["ring"] for _ in range(400)]
    assert max(got) - min(got) == pytest.approx(2 * limit, rel=0.03)


def test_a_move_that_sets_nothing_is_refused() -> None:
    """An adjustment without an amount is refused in words."""
    done = RING.put_right(HELICOID, AT_HAND, {"ring": 0.2})
    assert isinstance(done, Adjustment)
    before = PracticeCamera(HELICOID, Faults(), AT_HAND)
    vague = replace(done, instruction="Turn it a little.", settings=())
    with pytest.raises(ValueError, match=r"^No hand would know what to do: got 'Turn it a little"):
        Hands(np.random.default_rng(1)).carry_out(before, vague)


def test_a_turn_that_is_to_wait_for_a_look_is_still_made() -> None:
    """Told what to look for first, hands that find it in order turn the screw as is said."""
    before = PracticeCamera(HELICOID, Faults(gain=0.12), AT_HAND)
    done = GAIN.put_right(HELICOID, AT_HAND, {"gain": -0.12})
    assert isinstance(done, Adjustment)
    assert "look for" in done.instruction
    after = Hands(np.random.default_rng(1)).carry_out(before, done).hidden
    assert after["gain"] == pytest.approx(0.0, abs=done.changes["gain"].standard * 2)
