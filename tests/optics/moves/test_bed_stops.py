"""The infinity stops: both moved by the error, the right way."""

import pytest

from optics.camera.camera import Bed, Camera, Lens
from optics.camera.cautions import SPRINGS
from optics.measure.uncertainty import exact
from optics.moves import AtHand, Refused
from optics.moves.bed_stops import BED_STOPS
from optics.readings.remedies import Remedy, offer

CAMERA = Camera("", Lens(105.0, 3.5), Bed(), 0.06)


@pytest.mark.parametrize(
    ("error", "said", "left"),
    [
        (0.347, "Move both infinity stops 0.35 mm towards the film, the same", -0.003),
        (-0.347, "Move both infinity stops 0.35 mm away from the film, the same", 0.003),
    ],
)
def test_the_stops_are_moved_by_the_error(error: float, said: str, left: float) -> None:
    """A lens too far out is brought towards the film, to a hundredth of a millimetre."""
    found = offer(BED_STOPS, CAMERA, exact(error), AtHand())
    assert isinstance(found, Remedy)
    assert found.instruction.startswith(said)
    assert found.residual.value == pytest.approx(left)
    assert found.cautions == (SPRINGS,)


def test_stops_that_stand_right_are_left_alone() -> None:
    """Less than half a hundredth is left alone."""
    found = offer(BED_STOPS, CAMERA, exact(-0.0049), AtHand())
    assert isinstance(found, Refused)
    assert found.reason == "The stops stand right: leave them alone."
