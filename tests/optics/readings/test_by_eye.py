"""What an eye adds to a reading that it made once."""

import math

import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.errors import OutOfRange
from optics.measure.uncertainty import budget, exact, from_distances, from_repeats, within
from optics.measure.verdict import Verdict
from optics.readings.by_eye import eyes_blur
from optics.readings.correction import correct
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.kinds.ruler import RulerReading
from optics.readings.readings import Reading
from optics.readings.wording import NO_TAPE_TO_INFINITY, headline, tolerance_line

INFINITY = exact(math.inf)
CAMERA = Camera("", Lens(47.0, 2.8), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
ONCE: tuple[Reading, ...] = (
    MarkReading(exact(3000.0), within(3100.0, 10.0, "tape")),
    RotationReading(within(0.02, 0.004, "protractor"), INFINITY, INFINITY),
    CollimatorReading(within(0.5, 0.02, "slide"), exact(300.0)),
    RulerReading(exact(1500.0), within(12.0, 1.0, "ruler"), exact(0.8), exact(1500.0)),
)


@pytest.mark.parametrize("reading", ONCE, ids=lambda one: str(one.kind))
def test_one_try_by_eye_has_the_blur_in_its_budget(reading: Reading) -> None:
    """A reading by eye that was tried once names the eye's blur among its sources, N·c/4 wide."""
    found = correct(CAMERA, reading)
    named = {name: size for name, size, _ in budget(found.error)}
    # By hand: 2.8 × 0.03/4 = 0.021 mm either way, 0.021/√3 = 0.012124 mm.
    assert named["the eye's blur, N·c/4, tried once"] == pytest.approx(0.012124, abs=5e-7)
    line = tolerance_line(found)
    assert "the eye's blur, N·c/4 = 0.021 mm either way, is in the ±" in line


def test_tries_all_alike_are_not_called_one_try() -> None:
    """Three tries that came out alike carry the eye's blur, and nothing says that it was one."""
    found = correct(CAMERA, MarkReading(INFINITY, from_distances([18700.0] * 3, 0.0, "tape")))
    line = tolerance_line(found)
    assert "Tried once, or alike each time: the eye's blur, N·c/4 = 0.021 mm either way" in line


def test_tries_speak_for_themselves() -> None:
    """Several tries that differ have no blur added; tries all alike have shown no scatter."""
    differ = MarkReading(INFINITY, from_distances([18000.0, 18700.0, 19500.0], 0.0, "tape"))
    alike = MarkReading(INFINITY, from_distances([18000.0] * 3, 0.0, "tape"))
    assert not eyes_blur(differ, CAMERA).parts
    assert "eye's blur" not in tolerance_line(correct(CAMERA, differ))
    assert eyes_blur(alike, CAMERA).parts


def test_a_gauge_has_no_eye() -> None:
    """A register gauged once has the gauge's limit and nothing of an eye."""
    gauged = RegisterReading(within(45.5, 0.01, "gauge"), exact(45.46))
    assert not eyes_blur(gauged, CAMERA).parts
    assert "eye" not in tolerance_line(correct(CAMERA, gauged))


def test_the_blur_can_be_stated() -> None:
    """Who sees a finer disc says so, and the ± follows: 2.8 × 0.004 mm either way."""
    fine = Camera("", CAMERA.lens, CAMERA.focusing, 0.03, seen_blur=0.004)
    found = correct(fine, ONCE[1])
    assert found.blur.standard == pytest.approx(2.8 * 0.004 / math.sqrt(3))
    assert "N times the blur stated = 0.011 mm" in tolerance_line(found)
    with pytest.raises(OutOfRange, match=r"blur just seen must be more than 0 mm: got 0 mm"):
        Camera("", CAMERA.lens, CAMERA.focusing, 0.03, seen_blur=0.0)


def test_sharp_at_infinity_can_be_proved() -> None:
    """A bare ∞ with a tape's limit has the eye's ± and none of the tape's, and is inside."""
    found = correct(CAMERA, MarkReading(INFINITY, from_distances([math.inf], 200.0, "sharp at")))
    # By hand: 1.95996 × 0.021/√3 = 0.02376 mm, within 2.8 × 0.03/2 = 0.042 mm.
    assert headline(found).startswith("The lens is right, ± 0.024 mm at 95 %")
    assert found.verdict is Verdict.INSIDE
    assert tolerance_line(found).endswith(NO_TAPE_TO_INFINITY)


def test_nothing_is_said_of_a_tape_that_was_used() -> None:
    """At a distance the tape's limit counts, and no word is lost on infinity."""
    assert NO_TAPE_TO_INFINITY not in tolerance_line(correct(CAMERA, ONCE[0]))
    turned = RotationReading(from_repeats([0.02, 0.021], 0.0, "turn"), INFINITY, INFINITY)
    assert NO_TAPE_TO_INFINITY not in tolerance_line(correct(CAMERA, turned))
