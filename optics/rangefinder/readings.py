"""What is read in the rangefinder: where the images meet, or how far apart they are."""

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, combine, exact, within
from optics.rangefinder.acuity import Acuity, film_uncertainty
from optics.rangefinder.coupling import film_factor
from optics.rangefinder.model import Rangefinder
from optics.theory import rangefinder as theory


class Ring(StrEnum):
    """Which way the ring would have to go for the two images to meet."""

    NEARER = "towards nearer"
    FARTHER = "towards farther"


@dataclass(frozen=True)
class Coincidence:
    """The two images of a target meet with the lens at a distance on its scale.

    `true` and `scale` are film distances (mm, infinity allowed); `scale` may be the mean of
    several settings.
    """

    true: Estimate
    scale: Estimate


@dataclass(frozen=True)
class Apart:
    """With the lens at a distance on its scale, the images of a target stand apart.

    `angle` is how far, in rad and without sign; `ring` is the way the ring would have to turn
    to bring them together.
    """

    true: Estimate
    scale: Estimate
    angle: Estimate
    ring: Ring

    @property
    def excess(self) -> Estimate:
        """The angle (rad) by which the rangefinder converges too much for the target."""
        return exact(0.0).plus(self.angle, 1.0 if self.ring is Ring.FARTHER else -1.0)


Reading: TypeAlias = Coincidence | Apart


def eyes_part(
    camera: Camera, rangefinder: Rangefinder, acuity: Acuity, met: Coincidence
) -> Estimate:
    """What the eye adds to where the images met (mm at the film).

    Nothing where several settings were made, for they scatter as the eye does.
    """
    if any(math.isfinite(source.dof) for source in met.scale.parts):
        return exact(0.0)
    eye = film_uncertainty(camera, rangefinder, acuity)
    return within(0.0, eye, f"eye in the rangefinder at {met.true.value:g} mm")


def apart_on_target(rangefinder: Rangefinder, true: Estimate, millimetres: Estimate) -> Estimate:
    """The angle (rad) of two images that stand so far apart on a ruled target.

    Errors: OutOfRange for a target at infinity, where millimetres say nothing.
    """
    distance = true.value - rangefinder.base_to_film
    if distance in (float("inf"), 0.0):
        raise OutOfRange(
            "Millimetres between the images tell an angle only on a target at a finite distance: "
            f"got {true.value:g} mm; read the angle, or use a nearer target.",
            quantity="film_distance",
            value=true.value,
        )
    return combine(
        theory.triangle.solve_for(theory.convergence),
        base=millimetres,
        film_distance=true,
        base_to_film=exact(rangefinder.base_to_film),
    )


def target_angle(rangefinder: Rangefinder, reading: Reading) -> Estimate:
    """The convergence (rad) at which the rangefinder stands, by what was read."""
    sight = combine(
        theory.triangle.solve_for(theory.convergence),
        base=exact(rangefinder.base),
        base_to_film=exact(rangefinder.base_to_film),
        film_distance=reading.true,
    )
    return sight.plus(reading.excess) if isinstance(reading, Apart) else sight


def lens_stands(camera: Camera, scale: Estimate) -> Estimate:
    """The extension, or the cell's movement (mm), that a distance on the scale stands for."""
    constants = {name: exact(value) for name, value in camera.constants.items()}
    return combine(camera.focusing_formula, film_distance=scale, **constants)


def eye(rangefinder: Rangefinder, acuity: Acuity, name: str) -> Estimate:
    """How nearly one setting brings the images together: ± acuity over magnification, in rad."""
    return within(0.0, acuity.angle / rangefinder.magnification, name)


def error_read(camera: Camera, reading: Reading, gain: float) -> float:
    """The focus error (mm at the film) that one reading shows at its own distance.

    A coincidence needs no gain; images that stand apart are carried over by it (rad/mm).
    """
    stands = lens_stands(camera, reading.scale).value
    if isinstance(reading, Apart):
        stands -= reading.excess.value / gain
    wanted = lens_stands(camera, exact(reading.true.value)).value
    return film_factor(camera) * (stands - wanted)
