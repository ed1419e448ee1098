"""Where to set a coupled rangefinder so that its worst error over the range is least.

A straight coupling that is exact at infinity and at the near mark is wrong between. Set a
little elsewhere, its error is spread evenly: as large, with opposite signs, at the near end
as in between (and, with the zero free, at infinity). That is Chebyshev's best fit.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.rangefinder.coupling import (
    Coupling,
    film_error,
    film_errors,
    film_factor,
    set_at,
    stands_at,
)
from optics.rangefinder.model import Rangefinder
from optics.relation import Array

# Points along the range, evenly spaced in 1/D. The worst error found between them is short
# by its curvature over a quarter of a step squared: less than one part in 10⁶ of itself.
_POINTS = 2401
# The linear programme sees one in so many of them, and all peaks of the error.
_THINNED = 40
# Newton's method doubles its digits each time; so small a change (mm) is the solver's own.
_MOST_ROUNDS = 30
_SETTLED = 1e-8


@dataclass(frozen=True)
class Setting:
    """A coupling, its worst film error (mm) over the range, and where that occurs.

    `exact_at` are the film distances, far to near, at which its error is nothing: set the
    rangefinder there.
    """

    coupling: Coupling
    worst: float
    worst_at: float
    exact_at: tuple[float, ...]


@dataclass(frozen=True)
class NearAdvice:
    """The usual setting beside the two better ones, over the range from `near` to `far`.

    `usual` is exact at infinity and at the near end; `best_near` is exact at infinity and
    wherever is best; `best_pair` leaves infinity free too.
    """

    far: float
    near: float
    usual: Setting
    best_near: Setting
    best_pair: Setting

    @property
    def gained(self) -> float:
        """By how much (mm at the film) the best near setting lessens the worst error."""
        return self.usual.worst - self.best_near.worst


def along(near: float, far: float = math.inf, points: int = _POINTS) -> Array:
    """Film distances (mm) from far to near, evenly spaced in 1/D; infinity included exactly."""
    if not 0 < near < far:
        raise OutOfRange(
            f"The near end of the range must be nearer than its far end: got {near:g} mm and "
            f"{far:g} mm; give the near distance first.",
            quantity="film_distance",
            value=near,
            limit=far,
        )
    inverse = np.linspace(1 / far, 1 / near, points)
    distances = np.full(points, far)
    distances[1:-1] = 1 / inverse[1:-1]
    distances[-1] = near
    return distances


def where_to_set(
    camera: Camera,
    rangefinder: Rangefinder,
    near: float,
    far: float = math.inf,
    curvature: float = 0.0,
) -> NearAdvice:
    """The near setting distance, and the free pair, that make the worst film error least.

    Equation: minimise max |e(D)| over near ≤ D ≤ far, e from curved_coupling; solved as a
    linear programme, repeated from the slopes at its answer until it stands still.
    Limits: the film error of each mm counts alike at every distance; the curvature (rad/mm²)
    is the linkage's and cannot be adjusted.
    """
    distances = along(near, far)
    usual = set_at(camera, rangefinder, far, near, curvature)
    return NearAdvice(
        far,
        near,
        *(
            _described(camera, rangefinder, coupling, distances)
            for coupling in (
                usual,
                _least(camera, rangefinder, usual, distances, is_zero_free=False),
                _least(camera, rangefinder, usual, distances, is_zero_free=True),
            )
        ),
    )


def _least(
    camera: Camera, rangefinder: Rangefinder, start: Coupling, distances: Array, is_zero_free: bool
) -> Coupling:
    """Improve zero and gain by linear programmes until nothing more is gained.

    With the zero not free, the coupling stays exact at the first (the far) distance.
    """
    coupling = start
    for _ in range(_MOST_ROUNDS):
        errors = film_errors(camera, rangefinder, coupling, distances)
        lens_moves = _slopes(camera, rangefinder, coupling, distances)
        if not is_zero_free:
            # Gain alone, the zero following so that the far end stays as it is.
            follows = -lens_moves[0, 1] / lens_moves[0, 0]
            lens_moves = lens_moves[:, :1] * follows + lens_moves[:, 1:]
        seen = _telling(errors)
        change = _flattened(errors[seen], lens_moves[seen])
        zero, gain = change if is_zero_free else (follows * change[0], change[0])
        coupling = Coupling(
            float(coupling.zero + zero), float(coupling.gain + gain), coupling.curvature
        )
        if float(np.abs(lens_moves @ change).max()) < _SETTLED:
            break
    return coupling


def _telling(errors: Array) -> NDArray[np.bool_]:
    """Which points tell where the worst error is: its peaks, and some everywhere."""
    size = np.abs(errors)
    is_telling = np.zeros(len(size), bool)
    is_telling[::_THINNED] = is_telling[-1] = True
    is_telling[1:-1] |= (size[1:-1] >= size[:-2]) & (size[1:-1] >= size[2:])
    return is_telling


def _slopes(
    camera: Camera, rangefinder: Rangefinder, coupling: Coupling, distances: Array
) -> Array:
    """How the film error at each distance changes with zero and gain, in two columns."""
    _, slopes = stands_at.value_and_partials(
        convergence=rangefinder.convergences(distances), **coupling.figures
    )
    return film_factor(camera) * np.column_stack([slopes["zero_error"], slopes["gain"]])


def _flattened(errors: Array, slopes: Array) -> Array:
    """The change of the unknowns that makes the greatest |errors + slopes·change| least."""
    from scipy.optimize import linprog

    scale = np.abs(slopes).max(axis=0)
    size = float(np.abs(errors).max()) or 1.0
    ones = np.ones((len(errors), 1))
    columns = slopes / scale
    answer = linprog(
        c=[*([0.0] * columns.shape[1]), 1.0],
        A_ub=np.block([[columns, -ones], [-columns, -ones]]),
        b_ub=np.concatenate([-errors, errors]) / size,
        bounds=[*([(None, None)] * columns.shape[1]), (0, None)],
        method="highs-ds",
    )
    change: Array = answer.x[:-1] * size / scale
    return change


def _described(
    camera: Camera, rangefinder: Rangefinder, coupling: Coupling, distances: Array
) -> Setting:
    errors = film_errors(camera, rangefinder, coupling, distances)
    worst = int(np.argmax(np.abs(errors)))
    return Setting(
        coupling,
        float(abs(errors[worst])),
        float(distances[worst]),
        _exact_at(camera, rangefinder, coupling, distances, errors),
    )


def _exact_at(
    camera: Camera, rangefinder: Rangefinder, coupling: Coupling, distances: Array, errors: Array
) -> tuple[float, ...]:
    """The distances at which the error is nothing, from where it changes its sign."""
    from scipy.optimize import brentq

    def error(inverse: float) -> float:
        return film_error(camera, rangefinder, coupling, 1 / inverse if inverse else math.inf)

    signs = np.where(np.abs(errors) < _SETTLED, 0, np.sign(errors))
    found = [float(distance) for distance in distances[signs == 0]]
    for i in np.flatnonzero(signs[1:] * signs[:-1] < 0):
        found.append(1 / float(brentq(error, 1 / distances[i], 1 / distances[i + 1])))
    return tuple(sorted(found, reverse=True))
