"""Real rays through a lens, and where on the axis they are called sharp.

A subject on the axis is given by its vergence at the first face, 1/distance in 1/mm: 0 for an
infinitely far one, minus for a beam that converges. All rays lie in one plane of the axis, for
everything is round about it; arrays run over the rays of a fan.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from optics.errors import NoAnswer
from optics.world.glass import Glass

Rays = NDArray[np.float64]

# Heights in the pupil and the areas they stand for: Gauss's places in the square of the height,
# so that a mean over the pupil is exact up to its thirtieth power.
_PLACES, _WEIGHTS = np.polynomial.legendre.leggauss(8)
RHO: Rays = np.sqrt((1 + _PLACES) / 2)
_AREA: Rays = _WEIGHTS / 2
_ANGLES = np.cos(np.pi * (np.arange(16) + 0.5) / 32)
# The stop's rim is met within a ten-thousandth of its width after so many corrections.
_CORRECTIONS = 3
_FINEST = 101


@dataclass(frozen=True)
class Fan:
    """Rays behind the last face: height at its vertex, and slope."""

    heights: Rays
    slopes: Rays


@dataclass(frozen=True)
class Seen:
    """How sharpness is judged: through which stop, and on what.

    On bars of so many line pairs to the mm it is where their contrast is greatest; on None, where
    the spot is least (root mean square radius).
    """

    f_number: float
    lines: float | None = None


def traced(glass: Glass, vergence: float, heights: Rays, faces: int | None = None) -> Fan:
    """Follow rays that meet the plane of the first vertex at these heights.

    Snell's law at every sphere; source: W. T. Welford, Aberrations of Optical Systems, chapter 4.
    With `faces` the rays are left behind so many faces. Errors: NoAnswer where a ray misses a
    face or is thrown back by it.
    """
    slopes = heights * vergence
    along = 1.0 / np.sqrt(1.0 + slopes**2)
    across, y, before = slopes * along, heights, 1.0
    z = np.zeros_like(heights)
    for i in range(len(glass.curvatures) if faces is None else faces):
        c, behind = glass.curvatures[i], glass.indices[i]
        g = along - c * y * across
        squared = g**2 - (c * y) ** 2
        left = behind**2 - before**2 * (1.0 - squared)
        if (squared < 0).any() or (left < 0).any():
            raise NoAnswer(
                "A ray does not go through a face of the lens: got too wide an aperture; take a "
                "smaller one.",
                quantity="aperture",
            )
        cosine, bent = np.sqrt(squared), np.sqrt(left)
        step = c * y**2 / (g + cosine)
        z, y = step * along, y + step * across
        turn = bent - before * cosine
        along = (before * along - c * turn * z + turn) / behind
        across = (before * across - c * turn * y) / behind
        y = y + (glass.gaps[i] - z) * across / along
        before = behind
    return Fan(y, across / along)


def _at_stop(glass: Glass, vergence: float, heights: Rays) -> Rays:
    """How high the rays are where the stop lies."""
    fan = traced(glass, vergence, heights, glass.before_stop)
    back = glass.stop_gap - glass.gaps[glass.before_stop - 1]
    return fan.heights + back * fan.slopes


@lru_cache(maxsize=4096)
def stop_radius(glass: Glass, f_number: float) -> float:
    """How wide the stop is: a far beam of focal length over f-number just passes."""
    rim = np.array([glass.focal_length / (2 * f_number)])
    return float(_at_stop(glass, 0.0, rim)[0])


def fan_through(glass: Glass, vergence: float, radius: float) -> Fan:
    """The fan that fills a stop of this radius, ring by ring."""
    front = glass.part(glass.before_stop)
    back = np.array([[1.0, glass.stop_gap], [0.0, 1.0]]) @ front
    heights = RHO * radius / (back[0, 0] + back[0, 1] * vergence)
    for _ in range(_CORRECTIONS):
        heights = heights * (RHO * radius / _at_stop(glass, vergence, heights))
    return traced(glass, vergence, heights)


def least_spot(fan: Fan) -> float:
    """How far behind the last face the spot is least: −Σ w·y·s / Σ w·s²."""
    weighed = _AREA * fan.slopes
    return float(-(weighed @ fan.heights) / (weighed @ fan.slopes))


def most_contrast(fan: Fan, lines: float) -> float:
    """How far behind the last face bars of so many line pairs to the mm show most contrast.

    Contrast is the spot's own, without diffraction: Σ w·J₀(2π·lines·y), J₀ as a mean of cosines
    (Hopkins' geometrical response). Looked for about the least spot, over as far as the fan's
    foci reach, and refined by a parabola.
    """
    middle = least_spot(fan)
    foci = -fan.heights / fan.slopes
    reach = max(float(np.ptp(foci)), 1e-4)
    places = middle + np.linspace(-reach, reach, _FINEST)
    spread = fan.heights + np.outer(places, fan.slopes)
    response = np.cos(2 * np.pi * lines * spread[..., None] * _ANGLES).mean(axis=-1) @ _AREA
    best = min(max(int(response.argmax()), 1), _FINEST - 2)
    left, top, right = response[best - 1 : best + 2]
    bend = left - 2 * top + right
    shift = 0.0 if bend == 0 else 0.5 * float((left - right) / bend)
    return float(places[best] + shift * (places[1] - places[0]))


def best_focus(glass: Glass, vergence: float, radius: float, lines: float | None = None) -> float:
    """How far behind the last face a subject is sharp through a stop of this radius."""
    fan = fan_through(glass, vergence, radius)
    return least_spot(fan) if lines is None else most_contrast(fan, lines)
