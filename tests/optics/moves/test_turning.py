"""Remedies by turning: rounded to what a hand can set, said with the sense in words."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.measure.uncertainty import exact
from optics.moves import AtHand, Move, Refused
from optics.moves.front_cell import FRONT_CELL
from optics.moves.ring import RING
from optics.moves.thread_start import THREAD_START
from optics.readings.remedies import Offer, Remedy, offer

BOTH = (Turn.CLOCKWISE, Turn.COUNTER_CLOCKWISE)


def helicoid_camera(
    lead: float = 18.0,
    starts: int = 6,
    extends: Turn = Turn.COUNTER_CLOCKWISE,
    diameter: float | None = None,
    tolerance: float = 0.2,
) -> Camera:
    """Give a camera on a helicoid."""
    thread = Helicoid(lead, starts, extends, diameter)
    return Camera("", Lens(75.0, 3.5), thread, 0.05, tolerance)


def cell_camera(extends: Turn = Turn.COUNTER_CLOCKWISE) -> Camera:
    """Give a front-cell camera whose cell moves 2.25 at the film for 1."""
    cell = FrontCell(50.0, 9.0, extends, 80.0)
    return Camera("", Lens(75.0, 3.5), cell, 0.05, 0.2)


def turned(move: Move, camera: Camera, error: float) -> Offer:
    """Ask for a turn that answers an error."""
    return offer(move, camera, exact(error), AtHand())


def remedy(found: Offer) -> Remedy:
    """Take an offer for a remedy."""
    assert isinstance(found, Remedy), found
    return found


def reason(found: Offer) -> str:
    """Take an offer for the reason why not."""
    assert isinstance(found, Refused), found
    return found.reason


@pytest.mark.parametrize("extends", BOTH)
def test_too_far_out_is_turned_against_the_extending_sense(extends: Turn) -> None:
    """1.8 mm too far out on a lead of 18 mm is a tenth of a turn, 36.0°, in."""
    camera = helicoid_camera(extends=extends)
    found = remedy(turned(RING, camera, 1.8))
    assert f"turn the lens barrel 36.0° {extends.opposite}, seen from the front" in (
        found.instruction
    )
    assert found.residual.value == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("extends", BOTH)
def test_too_far_in_is_turned_in_the_extending_sense(extends: Turn) -> None:
    """A cell whose film error is −2.25 mm stands 1 mm in, 40.0° on a lead of 9 mm."""
    camera = cell_camera(extends)
    found = remedy(turned(FRONT_CELL, camera, -2.25))
    assert f"turn the front cell 40.0° {extends}, seen from the front" in found.instruction
    assert found.residual.value == pytest.approx(0.0, abs=1e-12)


def test_an_arc_too_short_to_lay_off_is_not_said() -> None:
    """A degree on a ring of 5 mm is 0.044 mm, which nobody can lay off."""
    camera = helicoid_camera(diameter=5.0)
    found = remedy(turned(RING, camera, 0.051))
    assert "1.0°" in found.instruction
    assert "along the edge" not in found.instruction
    assert "arc" not in found.figures


def test_a_whole_turn_is_not_a_correction() -> None:
    """20 mm on a lead of 18 mm would be 400°: something else is wrong first."""
    camera = helicoid_camera()
    assert reason(turned(RING, camera, 20.0)) == (
        "The turn wanted is 400.0°, a whole turn or more: look for a wrong start, a wrong lens or "
        "a slip in the reading first."
    )


def test_the_arc_is_measured_along_the_ring() -> None:
    """36° of a ring of 50 mm are 50·π/10 = 15.7 mm along its edge."""
    camera = helicoid_camera(diameter=50.0)
    found = remedy(turned(RING, camera, 1.8))
    assert "(15.7 mm along the edge of a 50 mm ring)" in found.instruction
    assert ("Arc", "15.7 mm on ⌀ 50 mm") in found.amounts
    assert found.figures["arc"] == pytest.approx(15.708, abs=0.0005)


def test_without_a_ring_there_is_no_arc() -> None:
    """Where the ring's diameter is not stated, no arc is made up."""
    found = remedy(turned(RING, helicoid_camera(), 1.8))
    assert "along the edge" not in found.instruction
    assert [label for label, _ in found.amounts] == ["Turn"]


@pytest.mark.parametrize(
    ("lead", "tolerance", "said"),
    # Half a degree is 18/720 = 0.025 mm of lead 18: fine enough for a tolerance of 0.2 mm, whose
    # quarter is 0.05 mm, but not for 0.04 mm. Wanted: 0.337 mm, 6.74° of lead 18.
    [(18.0, 0.2, "6.5°"), (18.0, 0.04, "6.7°")],
)
def test_a_turn_is_rounded_to_what_a_hand_can_set(lead: float, tolerance: float, said: str) -> None:
    """A turn is rounded to half a degree where that is fine enough, else to a tenth."""
    found = remedy(turned(RING, helicoid_camera(lead, tolerance=tolerance), 0.337))
    assert f"turn the lens barrel {said} " in found.instruction
    degrees = float(said.removesuffix("°"))
    assert found.residual.value == pytest.approx(0.337 - degrees / 20, abs=1e-12)


def test_a_turn_too_small_to_set_is_left_alone() -> None:
    """An error below half the smallest turn is left alone, and the smallest turn is named."""
    # A tenth of a degree of lead 60 is 0.017 mm.
    assert reason(turned(RING, helicoid_camera(60.0, tolerance=0.01), 0.006)) == (
        "The turn wanted is less than 0.1°: leave it alone."
    )


def test_next_to_nothing_is_left_alone() -> None:
    """A quarter of the tolerance calls for no turn, as it calls for no shim."""
    assert reason(turned(RING, helicoid_camera(tolerance=0.04), 0.01)) == (
        "Less than a quarter of the tolerance is left: leave the thread alone."
    )


@settings(max_examples=200, deadline=None)
@given(
    st.floats(-20, 20),
    st.floats(0.5, 60),
    st.integers(1, 12),
    st.sampled_from(BOTH),
    st.floats(0.005, 0.5),
)
def test_no_turn_makes_it_worse(
    error: float, lead: float, starts: int, extends: Turn, tolerance: float
) -> None:
    """A turn or start that is offered leaves no more error than was, and never swings it over."""
    camera = helicoid_camera(lead, starts, extends, tolerance=tolerance)
    for found in (turned(RING, camera, error), turned(THREAD_START, camera, error)):
        if isinstance(found, Remedy):
            assert abs(found.residual.value) <= abs(error) * (1 + 1e-12)
            assert (found.change.value > 0) == (error < 0)
            assert abs(found.figures["rotation"]) > 0  # type: ignore[arg-type]


# Lead 12 mm and six starts: one start is 2 mm and 60°. Entered later, further on in the
# extending sense, the lens ends farther in.
STARTS = [
    (2.1, "1 start (60.0°) further counter-clockwise", -2.0),
    (3.9, "2 starts (120.0°) further counter-clockwise", -4.0),
    (-2.1, "1 start (60.0°) further clockwise", 2.0),
    (-9.8, "5 starts (300.0°) further clockwise", 10.0),
]


@pytest.mark.parametrize(("error", "said", "change"), STARTS)
def test_another_start_is_entered_the_right_way(error: float, said: str, change: float) -> None:
    """A lens too far out is entered further on in the extending sense, one pitch a start."""
    found = remedy(turned(THREAD_START, helicoid_camera(12.0), error))
    assert f"enter it again {said}, seen from the front." in found.instruction
    assert found.change.value == pytest.approx(change)


@pytest.mark.parametrize(
    ("starts", "error", "said"),
    [
        (1, 3.0, "This thread has a single start: there is no other."),
        (
            6,
            0.1,
            "One start moves the lens 2.00 mm, far more than the error: the thread is on "
            "its right start.",
        ),
        (6, 0.9, "One start moves the lens 2.00 mm: no other brings it nearer."),
        (
            6,
            -12.3,
            "The error is 6 starts of 2.00 mm, a whole turn or more: look for a wrong lens "
            "or a slip in the reading first.",
        ),
    ],
)
def test_why_no_other_start_is_called_for(starts: int, error: float, said: str) -> None:
    """Where another start does not serve, the reason is said with its figures."""
    assert reason(turned(THREAD_START, helicoid_camera(12.0, starts), error)) == said


def test_the_setting_is_known_to_half_a_step() -> None:
    """A turn set to half a degree is known to ± a quarter, ± 0.0125 mm of lead 18."""
    found = remedy(turned(RING, helicoid_camera(), 1.8))
    assert found.change.standard == pytest.approx(0.0125 / math.sqrt(3))
