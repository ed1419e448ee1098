"""Each way of putting a cause right: its words, its rounding and its effect, by hand."""

import math

import pytest

from optics.finding.causes import Adjustment, Blocked, Cause
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.stop import STOP
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.moves import AdjustingScrew, AtHand
from tests.optics.teaching.bench_day import AT_HAND, BED, CELL, HELICOID


def made(cause: Cause, camera: object, **wanted: float) -> Adjustment:
    """Give the adjustment that is made for the wanted changes."""
    done = cause.put_right(camera, AT_HAND, wanted)  # type: ignore[arg-type]
    assert isinstance(done, Adjustment)
    return done


def test_a_screw_is_turned_to_the_nearest_eighth() -> None:
    """A screw of 0.2 mm a turn is turned 5/8 clockwise for 0.13 mm, and adds 0.125 mm."""
    done = made(ZERO, HELICOID, zero=0.13)
    assert done.instruction == "Turn the rangefinder's infinity screw 5/8 turn clockwise."
    assert done.changes["zero"].value == pytest.approx(0.125)
    assert "3/8 turn counter-clockwise" in made(ZERO, HELICOID, zero=-0.07).instruction


def test_a_screw_of_unknown_effect_wants_a_trial_turn() -> None:
    """Without the screw's effect a quarter turn and another reading are asked for."""
    done = GAIN.put_right(HELICOID, AtHand(), {"gain": 0.02})
    assert isinstance(done, Blocked)
    assert "quarter turn" in done.reason


@pytest.mark.parametrize("per_turn", [0.0, math.inf, math.nan])
def test_a_screw_without_effect_is_refused(per_turn: float) -> None:
    """A screw that does nothing, or no number, is refused in words."""
    with pytest.raises(ValueError, match=r"^A screw's effect must be a number other than 0"):
        AdjustingScrew(per_turn)


def test_the_stop_is_turned_in_the_sense_that_extends() -> None:
    """A stop 0.1 mm too far in lets the barrel 2.0° further out on a lead of 18 mm."""
    # By hand: 0.1/18·360 = 2.0°; this barrel extends counter-clockwise.
    done = made(STOP, HELICOID, stop=0.1)
    assert "comes to rest 2.0° further counter-clockwise, seen from the front" in done.instruction
    assert "2.0° further clockwise" in made(STOP, HELICOID, stop=-0.1).instruction


def test_the_film_is_brought_nearer_or_farther() -> None:
    """Film 0.047 mm too far from the lens is brought 0.05 mm nearer, to the nearest 0.01 mm."""
    assert "Bring the film 0.05 mm nearer the lens" in made(GATE, BED, gate=-0.047).instruction
    assert "farther from the lens" in made(GATE, BED, gate=0.05).instruction


def test_the_standard_is_shimmed_at_its_low_screws() -> None:
    """A standard leaning back 0.001 to the right wants 0.05 mm under both right-hand screws."""
    # By hand: screws 25 mm either side, 0.001·50 mm; the middle rises by half of that.
    done = made(TILT, HELICOID, tilt_x=0.001, tilt_y=0.0)
    assert "0.05 mm at the top right, 0.05 mm at the bottom right" in done.instruction
    assert done.changes["tilt_x"].value == pytest.approx(0.001)
    assert done.changes["seat"].value == pytest.approx(0.025)


def test_a_new_scale_is_made_for_the_true_focal_length() -> None:
    """A lens 0.4 mm longer than engraved gets a scale for 47.40 mm, its 1 m mark at 49.8°."""
    # By hand: D = 2f + h + x + f²/x with h 0.6 gives x = 2.490 mm, 49.8° of a lead of 18 mm.
    done = made(FOCAL, HELICOID, focal=-0.4)
    assert "a lens of 47.40 mm" in done.instruction
    assert "1 m at 49.8°" in done.instruction
    assert done.changes["focal"].value == pytest.approx(-0.4)


def test_no_scale_is_made_for_a_lens_that_cannot_be() -> None:
    """Readings that would ask for half the focal length contradict each other, and are refused."""
    refused = FOCAL.put_right(HELICOID, AT_HAND, {"focal": 23.5})
    assert isinstance(refused, Blocked)
    assert "contradict each other" in refused.reason


def test_a_bed_scale_moves_its_pointer_the_other_way() -> None:
    """To set a bed's lens farther out its pointer is moved towards the film."""
    assert "0.10 mm towards the film" in made(RING, BED, ring=0.1).instruction
    assert "0.10 mm away from the film" in made(RING, BED, ring=-0.1).instruction


@pytest.mark.parametrize("cause", [STOP, RING, GATE, ZERO, GAIN])
@pytest.mark.parametrize("camera", [HELICOID, CELL], ids=lambda c: c.name)
def test_nothing_is_moved_for_less_than_half_a_step(cause: Cause, camera: object) -> None:
    """A change of a third of the smallest step is left alone, with the reason."""
    step = cause.smallest(camera, AT_HAND)  # type: ignore[arg-type]
    done = cause.put_right(camera, AT_HAND, {cause.name: step / 3})  # type: ignore[arg-type]
    assert isinstance(done, Blocked)


@pytest.mark.parametrize("cause", [STOP, RING, GATE, ZERO, GAIN])
@pytest.mark.parametrize("camera", [HELICOID, CELL], ids=lambda c: c.name)
def test_whole_steps_are_set_as_wanted(cause: Cause, camera: object) -> None:
    """Seven whole steps either way are set as they are wanted, without further rounding."""
    for count in (7, -7):
        wanted = count * cause.smallest(camera, AT_HAND)  # type: ignore[arg-type]
        change = made(cause, camera, **{cause.name: wanted}).changes[cause.name]
        assert change.value == pytest.approx(wanted, rel=1e-6)
