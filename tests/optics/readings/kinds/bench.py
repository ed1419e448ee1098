"""Cameras and readings whose figures can be worked by hand, for the tests of the kinds."""

import math

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.measure.uncertainty import Estimate, exact, within
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.readings import Reading

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


def collimated(shift: float, apart: float | None, limit: float = 0.0) -> CollimatorReading:
    """Give a collimator of 360 mm before the lens of 90 mm, its reticle shifted so far."""
    to_lens = None if apart is None else exact(apart)
    return CollimatorReading(within(shift, limit, "slide"), exact(360.0), to_lens=to_lens)


def far(limit: float) -> Estimate:
    """18.7 m within so many mm."""
    return within(18_700.0, limit, "tape")
