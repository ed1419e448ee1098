"""The plane through depth readings, by least squares and by least largest deviation.

Both are sums of the readings with weights that the places alone decide (the second as long
as the same readings touch), so uncertainties and their correlations come through exactly.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from optics.measure.places import DepthReading, Point, check_places
from optics.measure.uncertainty import Estimate, combine, weighted
from optics.relation import Array
from optics.theory import standard

_along = standard.angle_of_slope.solve_for(standard.slope_angle)
_total = standard.plane_tilt.solve_for(standard.tilt)
# Slopes less than this over a whole frame are below a nanometre.
_LEVEL = 1e-9


@dataclass(frozen=True)
class Plane:
    """height(x, y) = middle + slope_across·x + slope_up·y, in mm from the film rails."""

    middle: Estimate
    slope_across: Estimate
    slope_up: Estimate

    def height(self, x: float, y: float) -> Estimate:
        """The height at a place, with its uncertainty."""
        return self.middle.plus(self.slope_across, x).plus(self.slope_up, y)

    @property
    def tilt(self) -> Estimate:
        """The lean about the line across (rad), plus when the top stands farther out."""
        return combine(_along, slope=self.slope_up)

    @property
    def swing(self) -> Estimate:
        """The lean about the upright line (rad), plus when the right side is farther out."""
        return combine(_along, slope=self.slope_across)

    @cached_property
    def lean(self) -> Estimate:
        """The whole angle between standard and film (rad), whichever way it goes.

        Where there is none to speak of, its uncertainty is that of the worse known slope.
        """
        if math.hypot(self.slope_across.value, self.slope_up.value) < _LEVEL:
            worse = max(self.slope_across, self.slope_up, key=lambda slope: slope.standard)
            return Estimate(0.0, worse.parts)
        return combine(_total, slope_across=self.slope_across, slope_up=self.slope_up)

    @property
    def is_level(self) -> bool:
        """Whether the lean is too small, for its uncertainty, to say which way it goes."""
        return self.lean.value <= max(self.lean.expanded, math.atan(_LEVEL))


def design(places: Sequence[Point]) -> Array:
    """One row 1, x, y for each place."""
    return np.array([(1.0, x, y) for x, y in places])


def least_squares(places: Sequence[Point], heights: Sequence[Estimate]) -> Plane:
    """The plane whose squared deviations from the heights are least in sum.

    Every reading counts alike. Errors: OutOfRange for places that fix no plane.
    Source: method of least squares.
    """
    check_places(places, "reading")
    return Plane(*(weighted(row, heights) for row in np.linalg.pinv(design(places))))


def residuals(plane: Plane, readings: Sequence[DepthReading]) -> tuple[Estimate, ...]:
    """By how much each reading stands out from the plane (plus: farther from the film)."""
    return tuple(r.depth.plus(plane.height(r.x, r.y), -1.0) for r in readings)
