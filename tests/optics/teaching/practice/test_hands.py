"""Hands that follow words, against what each adjustment says it does."""

from dataclasses import replace

import numpy as np
import pytest

from optics.camera.camera import Camera
from optics.finding.diagnosis import Cause, Faults
from optics.finding.diagnosis.faults import AT
from optics.finding.plan import Adjustment
from optics.finding.plan.controls import adjust
from optics.teaching.practice import Hands, PracticeCamera
from tests.optics.teaching.bench_day import AT_HAND, BED, CELL, HELICOID

WANTED = {
    Cause.GATE: 0.06, Cause.TILT: 0.002, Cause.START: 6.0, Cause.SEAT: 0.08, Cause.STOP: 0.15,
    Cause.RING: 0.2, Cause.FOCAL: 0.35, Cause.ZERO: 0.15, Cause.GAIN: 0.03,
}  # fmt: skip


class Steady:
    """A chance that always falls in the middle."""

    def uniform(self, low: float, high: float) -> float:
        """Give the middle."""
        return (low + high) / 2


# Only a helicoid has other starts.
ON_CAMERAS = [
    (cause, camera)
    for cause in Cause
    for camera in (HELICOID, CELL, BED)
    if cause is not Cause.START or camera is HELICOID
]


@pytest.mark.parametrize("way", [1, -1], ids=["out", "in"])
@pytest.mark.parametrize(("cause", "camera"), ON_CAMERAS)
def test_doing_what_the_words_say_does_what_the_figures_say(
    cause: Cause, way: int, camera: Camera
) -> None:
    """Followed by its words alone, every instruction changes the camera by its stated amount."""
    wanted = dict.fromkeys(cause.faults, 0.0) | {cause.faults[0]: way * WANTED[cause]}
    done = adjust(cause, camera, AT_HAND, wanted)
    assert isinstance(done, Adjustment)
    before = PracticeCamera(camera, Faults(), AT_HAND)
    after = Hands(Steady()).carry_out(before, done)  # type: ignore[arg-type]
    expected = np.zeros(len(AT))
    for name, change in done.changes.items():
        expected[AT[name]] = change.value
    # Degrees are said to a tenth, which on the coarsest of these threads is 0.003 mm either way.
    assert after.hidden.vector == pytest.approx(expected, abs=0.003)
    # Shims are made up to a quarter of the tolerance with as few leaves as will do.
    room = camera.allowed_error / 4 if cause is Cause.SEAT else 0.15 * WANTED[cause]
    assert expected[AT[cause.faults[0]]] == pytest.approx(way * WANTED[cause], abs=room)


def test_hands_miss_by_no_more_than_half_a_step() -> None:
    """Settings miss evenly within the limits that the plan allows for."""
    done = adjust(Cause.RING, HELICOID, AT_HAND, {"ring": 0.2})
    assert isinstance(done, Adjustment)
    before = PracticeCamera(HELICOID, Faults(), AT_HAND)
    hands = Hands(np.random.default_rng(4))
    limit = 3**0.5 * done.changes["ring"].standard
    got = [hands.carry_out(before, done).hidden.ring for _ in range(400)]
    assert max(got) - min(got) == pytest.approx(2 * limit, rel=0.03)


def test_words_that_no_hand_understands_are_refused() -> None:
    """An instruction without an amount is refused in words."""
    done = adjust(Cause.RING, HELICOID, AT_HAND, {"ring": 0.2})
    assert isinstance(done, Adjustment)
    before = PracticeCamera(HELICOID, Faults(), AT_HAND)
    vague = replace(done, instruction="Turn it a little.")
    with pytest.raises(ValueError, match=r"^No hand would know what to do: got 'Turn it a little"):
        Hands(np.random.default_rng(1)).carry_out(before, vague)
