"""The invented cameras of Lantern Street Camera Works, as the bench takes them, for learning.

No figure is copied from a real camera.
"""

from dataclasses import dataclass

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.rangefinder.model import Rangefinder

LEAD, STARTS, RING = 18.0, 6, 52.0
CELL, CELL_LEAD, CELL_RING = 51.0, 9.0, 36.0

OSTRIN = Camera(
    "Ostrin 35",
    Lens(47.0, 2.8, 0.6),
    Helicoid(LEAD, STARTS, Turn.COUNTER_CLOCKWISE, RING),
    0.03,
)
CORVANE = Camera(
    "Corvane 6×6",
    Lens(75.0, 3.5, -2.0),
    FrontCell(CELL, CELL_LEAD, Turn.COUNTER_CLOCKWISE, 92.0, CELL_RING),
    0.05,
)
TARNBROOK = Camera("Tarnbrook 6×9", Lens(105.0, 3.5, 1.5), Bed(), 0.06)


@dataclass(frozen=True)
class FinderCamera:
    """A camera with its rangefinder and the nearest distance (mm) on its scale."""

    camera: Camera
    rangefinder: Rangefinder
    near_end: float


FINDERS = (
    FinderCamera(OSTRIN, Rangefinder(41.0, 24.0, 0.6), 900.0),
    FinderCamera(TARNBROOK, Rangefinder(50.0, 30.0, 0.5), 1500.0),
)
