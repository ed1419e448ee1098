"""A standard gauged at several places: its plane, its lean, and whether it is bent."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.body.standard.flatness import Flatness, flatness
from optics.body.standard.minimax import Minimax, minimax
from optics.camera.plane import Plane, least_squares, residuals
from optics.measure.places import DepthReading, check_places
from optics.measure.uncertainty import Estimate, weighted


@dataclass(frozen=True)
class Standard:
    """What 3 to 12 depth readings say of a standard; heights in mm from the film rails.

    `mean` is the mean of the readings, the height of the plane amid the places; `plane.middle`
    that on the lens axis. `residuals` are the readings' deviations from the plane.
    """

    readings: tuple[DepthReading, ...]
    plane: Plane
    mean: Estimate
    residuals: tuple[Estimate, ...]
    minimax: Minimax
    flatness: Flatness

    @property
    def worst_residual(self) -> Estimate:
        """The deviation that stands out most from the least-squares plane."""
        return self.flatness.deviation


def measure_standard(readings: Sequence[DepthReading]) -> Standard:
    """Fit planes to depth readings and judge the standard.

    Errors: OutOfRange for fewer than 3 or more than 12 readings, or readings on one line.
    """
    places = [(r.x, r.y) for r in readings]
    check_places(places, "reading")
    depths = [r.depth for r in readings]
    plane = least_squares(places, depths)
    left = residuals(plane, readings)
    return Standard(
        readings=tuple(readings),
        plane=plane,
        mean=weighted(np.full(len(depths), 1 / len(depths)), depths),
        residuals=left,
        minimax=minimax(places, depths),
        flatness=flatness(readings, left),
    )
