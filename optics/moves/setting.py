"""How nearly a hand sets, and how near is near enough; what several moves share."""

from typing import Final

from optics.camera.camera import Camera
from optics.moves.at_hand import AtHand

FEELER: Final = 0.01
"""What a feeler, a leaf or a slide can be set to (mm); common practice, no source."""
THICKER: Final = ("thicker", "thinner")
"""The two ways of a pack."""
ALONG: Final = ("away from the film", "towards the film")
"""The two ways along a bed."""
# A quarter of the tolerance: the usual four to one between a part and what it must hold
# (common practice, no source).
_NEAR_ENOUGH = 0.25


def near_enough(camera: Camera) -> float:
    """How far (mm at the film) a rounded amount may leave the lens from where it should be."""
    return camera.allowed_error * _NEAR_ENOUGH


def feeler(camera: Camera, at_hand: AtHand) -> float:
    """The smallest change that is set with a feeler."""
    del camera, at_hand
    return FEELER


def in_feelers(wanted: float) -> float:
    """A length (mm) without its sign, in whole hundredths as a feeler sets it."""
    return round(abs(wanted) / FEELER) * FEELER
