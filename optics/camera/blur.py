"""The blur of one camera at one error: defocus, diffraction, film and eye, stop by stop."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from optics.camera.camera import Camera
from optics.relation import Array
from optics.theory import depth

GREEN = 0.00055
"""Wavelength of green light in mm, to which the eye is most sensitive (textbooks)."""


@dataclass(frozen=True, eq=False)
class Blur:
    """Blur discs in mm on the film, one for each f-number, and their sum as squares."""

    f_numbers: Array
    defocus: Array
    airy: Array
    receiver: float
    total: Array
    looks_sharp: NDArray[np.bool]


def blur_budget(
    camera: Camera,
    error: float,
    f_numbers: ArrayLike,
    *,
    film_distance: float = math.inf,
    receiver: float = 0.0,
    wavelength: float = GREEN,
) -> Blur:
    """The whole blur of a focus error at each f-number.

    Equations: defocus |e|/(N·(1 + m/p)), of a front cell |e|/N; diffraction 2.44·λ·N; all added
    as squares with the `receiver` blur of film and eye; every length in mm, `error` + when too
    far out.
    Errors: OutOfRange for a stop or wavelength of zero, or a subject too near to focus.
    Limits: blurs of different shape do not add exactly so; the lens has no aberrations.
    """
    stops = np.atleast_1d(np.asarray(f_numbers, np.float64))
    disc, cone = camera.depth_of_focus_formula(
        depth.circle_of_confusion, camera.magnification_at(film_distance)
    )
    defocus = disc.value(depth_each_way=abs(error), f_number=stops, **cone)
    airy = depth.airy_disc.solve_for(depth.airy_diameter).value(
        wavelength=wavelength, f_number=stops
    )
    total = depth.blur_budget.solve_for(depth.total_blur).value(
        defocus_blur=defocus, airy_diameter=airy, receiver_blur=receiver
    )
    return Blur(stops, defocus, airy, receiver, total, total <= camera.circle_of_confusion)
