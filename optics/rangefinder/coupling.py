"""How the lens and the rangefinder hang together, and the film error that follows.

The angle the rangefinder is set to is γ₀ + G·x + C·x² when the lens stands x out from
infinity. For a front cell, x is the cell's movement.
"""

from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera, FrontCell
from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate, combine, exact
from optics.rangefinder.model import Rangefinder
from optics.relation import Array
from optics.theory import front_cell, lens
from optics.theory import rangefinder as theory

stands_at = theory.curved_coupling.solve_for(theory.coupled_extension)


@dataclass(frozen=True)
class Coupling:
    """Zero γ₀ (rad), gain G (rad/mm) and curvature C (rad/mm²) of a linkage."""

    zero: float
    gain: float
    curvature: float = 0.0

    @property
    def figures(self) -> dict[str, float]:
        """As the relations call them."""
        return {
            "zero_error": self.zero,
            "gain": self.gain,
            "coupling_curvature": self.curvature,
        }


def movement(camera: Camera, film_distance: float) -> float:
    """How far out (mm) the lens, or the front cell, must stand for a subject."""
    return camera.focusing_formula.value(film_distance=film_distance, **camera.constants)


def film_factor(camera: Camera) -> float:
    """What one mm of the coupled movement makes at the film: 1, or (f/f₁)² for a front cell."""
    if not isinstance(camera.focusing, FrontCell):
        return 1.0
    return front_cell.film_effect.solve_for(lens.focus_error).value(
        cell_shift=1.0,
        focal_length=camera.lens.focal_length,
        group_focal_length=camera.focusing.group_focal_length,
    )


def film_errors(
    camera: Camera, rangefinder: Rangefinder, coupling: Coupling, film_distances: Array
) -> Array:
    """The focus error (mm, + too far out) at each distance when the two images meet.

    Equation: e = x(γ) − x(D), with x(γ) from curved_coupling and γ from triangle; times
    (f/f₁)² for a front cell. Arrays of any shape; infinity allowed.
    """
    distances = np.asarray(film_distances, np.float64)
    stands = stands_at.value(convergence=rangefinder.convergences(distances), **coupling.figures)
    wanted = camera.focusing_formula.value(film_distance=distances, **camera.constants)
    return film_factor(camera) * (stands - wanted)


def film_error(
    camera: Camera, rangefinder: Rangefinder, coupling: Coupling, film_distance: float
) -> float:
    """The focus error (mm) at one distance when the two images meet."""
    return float(film_errors(camera, rangefinder, coupling, np.array(film_distance)))


def film_error_estimate(
    camera: Camera,
    rangefinder: Rangefinder,
    figures: dict[str, Estimate],
    film_distance: float,
) -> Estimate:
    """The focus error when the images meet, with the uncertainty of an estimated coupling.

    `figures` are zero_error, gain and coupling_curvature; what they share stays correlated.
    """
    angle = exact(rangefinder.convergence(film_distance))
    stands = combine(stands_at, convergence=angle, **figures)
    short = exact(-movement(camera, film_distance)).plus(stands)
    return Estimate(0.0).plus(short, film_factor(camera))


def set_at(
    camera: Camera,
    rangefinder: Rangefinder,
    far: float,
    near: float,
    curvature: float = 0.0,
) -> Coupling:
    """The zero and gain that are exact at two film distances, the curvature as given.

    Errors: NoAnswer where the two distances are one.
    """
    if far == near:
        raise NoAnswer(
            f"The zero and the gain need two different distances: got {far:g} mm twice; "
            "give another near distance.",
            quantity="film_distance",
            value=near,
        )
    far_x, near_x = movement(camera, far), movement(camera, near)
    far_angle = rangefinder.convergence(far) - curvature * far_x**2
    near_angle = rangefinder.convergence(near) - curvature * near_x**2
    gain = (near_angle - far_angle) / (near_x - far_x)
    zero = theory.straight_coupling.solve_for(theory.zero_error).value(
        convergence=far_angle, gain=gain, extension=far_x
    )
    return Coupling(zero, gain, curvature)
