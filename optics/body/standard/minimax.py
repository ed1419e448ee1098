"""The plane from which the worst reading deviates least: what a straight-edge would find."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.camera.plane import Plane, design, least_squares
from optics.measure.places import Point
from optics.measure.uncertainty import Estimate, exact, weighted
from optics.relation import Array

# Deviations are scaled to about one before the programme is solved.
_TOUCHES = 1e-6
_FLAT = 1e-9


@dataclass(frozen=True)
class Minimax:
    """The plane, and the largest deviation from it (mm) that no other plane undercuts."""

    plane: Plane
    worst: Estimate


def minimax(places: Sequence[Point], heights: Sequence[Estimate]) -> Minimax:
    """The plane whose largest deviation from the heights is least.

    A linear programme: least t with |zᵢ − (a + b·xᵢ + c·yᵢ)| ≤ t (Chebyshev's criterion).
    Errors: as `least_squares`.
    Limits: the uncertainties hold as long as the same readings touch; where they do not fix
    the plane alone, those of the least-squares plane stand for them.
    """
    fitted = least_squares(places, heights)
    rows = design(places)
    left = np.array([h.value for h in heights]) - rows @ np.array(
        [fitted.middle.value, fitted.slope_across.value, fitted.slope_up.value]
    )
    scale = float(np.abs(left).max())
    if scale < _FLAT:
        return Minimax(fitted, exact(0.0))
    solved = _programme(rows, left / scale)
    gaps = left / scale - rows @ solved[:3]
    touching = np.abs(np.abs(gaps) - solved[3]) < _TOUCHES
    active = np.column_stack([rows, np.sign(gaps)])[touching]
    if np.linalg.matrix_rank(active) < 4:
        return _moved(fitted, solved * scale)
    chosen = [h for h, is_touching in zip(heights, touching, strict=True) if is_touching]
    *plane, worst = (weighted(row, chosen) for row in np.linalg.pinv(active))
    return Minimax(Plane(*plane), worst)


def _programme(rows: Array, left: Array) -> Array:
    """Middle, two slopes and the largest deviation, for deviations of about one."""
    from scipy.optimize import linprog

    reach = np.abs(rows).max(axis=0)
    scaled, ones = rows / reach, np.ones((len(rows), 1))
    found = linprog(
        [0, 0, 0, 1],
        A_ub=np.block([[scaled, -ones], [-scaled, -ones]]),
        b_ub=np.concatenate([left, -left]),
        bounds=[(None, None)] * 3 + [(0, None)],
    )
    solution: Array = np.append(found.x[:3] / reach, found.x[3])
    return solution


def _moved(plane: Plane, by: Array) -> Minimax:
    middle, across, up = (
        estimate.plus(exact(float(step)))
        for estimate, step in zip(
            (plane.middle, plane.slope_across, plane.slope_up), by[:3], strict=True
        )
    )
    return Minimax(Plane(middle, across, up), Estimate(float(by[3]), plane.middle.parts))
