"""The film error against distance, ready to plot, and what infinity and height errors do."""

import math
from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera
from optics.rangefinder.acuity import Acuity, film_uncertainty
from optics.rangefinder.coupling import Coupling, film_errors, film_factor
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import along
from optics.relation import Array
from optics.theory import rangefinder as theory

_POINTS = 121


@dataclass(frozen=True)
class ErrorCurve:
    """Arrays of one length, infinity first: film error (mm, + too far out) by distance.

    `per_metre` is 1/D in 1/m, an even scale on which infinity has its place at 0. `band` is
    the depth of focus each way, `eye` what the eye leaves either way at every distance.
    """

    film_distance: Array
    per_metre: Array
    errors: dict[str, Array]
    band: Array
    eye: float


def curve(
    camera: Camera,
    rangefinder: Rangefinder,
    couplings: dict[str, Coupling],
    near: float,
    acuity: Acuity,
    points: int = _POINTS,
) -> ErrorCurve:
    """Film errors of named couplings (before, after, best) from infinity to `near`."""
    distances = along(near, points=points)
    return ErrorCurve(
        film_distance=distances,
        per_metre=1000 / distances,
        errors={
            name: film_errors(camera, rangefinder, coupling, distances)
            for name, coupling in couplings.items()
        },
        band=np.array([camera.depth_at(float(d)) for d in distances]),
        eye=film_uncertainty(camera, rangefinder, acuity),
    )


@dataclass(frozen=True)
class FarTarget:
    """What a target at a finite distance leaves when it stands in for infinity.

    `lens_error` (mm) is for a lens focused on it; `angle` (rad) is the convergence it still
    asks for, and `of_acuity` that angle in units of what the eye can tell.
    """

    film_distance: float
    lens_error: float
    angle: float
    of_acuity: float


def far_target(
    camera: Camera, rangefinder: Rangefinder, acuity: Acuity, film_distance: float
) -> FarTarget:
    """How good an infinity a distant target is, for the lens and for the rangefinder.

    `film_distance` in mm from the film. Equations: the extension that the target calls for,
    carried to the film (unit_focusing or front_cell_focusing), and atan(b/(D − k)) (triangle).
    Errors: OutOfRange for a target nearer than the lens can serve.
    """
    angle = rangefinder.convergence(film_distance)
    error = camera.film_side_extension(film_distance)
    seen = angle * rangefinder.magnification / acuity.angle if acuity.angle else math.inf
    return FarTarget(film_distance, error, angle, seen)


def height_effect(camera: Camera, coupling: Coupling, height_error: float, lean: float) -> float:
    """The film error (mm) that a height error (rad) makes on an edge leaning by `lean` (rad).

    Upright edges, with no lean, show none. Limits: small errors; the sign is that of the lean.
    """
    false = theory.height_effect.solve_for(theory.false_convergence).value(
        height_error=height_error, lean=lean
    )
    return film_factor(camera) * false / coupling.gain
