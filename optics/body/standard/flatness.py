"""Is the standard bent, or only tilted? The readings' deviations against their uncertainty."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from optics.camera.plane import design
from optics.measure.places import DepthReading
from optics.measure.uncertainty import LEVEL, Estimate
from optics.relation import Array


class Bend(StrEnum):
    """What the deviations from the plane say."""

    BENT = "bent"
    FLAT = "no sign of a bend"
    THREE_READINGS = "three readings cannot tell"
    NOT_STATED = "no uncertainty stated"


@dataclass(frozen=True)
class Flatness:
    """The finding, the reading that stands out most, and the numbers it rests on.

    `ratio` is the mean square of the deviations over that which the readings' uncertainty
    leads one to expect; a flat standard exceeds `limit` once in twenty times.
    """

    bend: Bend
    reading: DepthReading
    deviation: Estimate
    ratio: float = math.nan
    limit: float = math.nan


def flatness(readings: Sequence[DepthReading], residuals: Sequence[Estimate]) -> Flatness:
    """Tell a bent standard from a tilted one.

    Equation: with w the readings taken across all planes and C their covariance,
    w·C⁻¹·w/(n − 3) against the 95 % point of F with n − 3 and the readings' own degrees of
    freedom (a chi-square test where those are without limit).
    Limits: rectangular limits are treated as normal; so the test is a little cautious.
    Source: Rao, Linear Statistical Inference, generalised least squares; from memory.
    """
    reading, deviation = max(
        zip(readings, residuals, strict=True), key=lambda pair: abs(pair[1].value)
    )
    freedom = len(readings) - 3
    if freedom == 0:
        return Flatness(Bend.THREE_READINGS, reading, deviation)
    # Directions in which no plane can move the readings.
    across = np.linalg.svd(design([(r.x, r.y) for r in readings]))[0][:, 3:]
    covariance = across.T @ _covariance([r.depth for r in readings]) @ across
    if np.linalg.matrix_rank(covariance, hermitian=True) < freedom:
        return Flatness(Bend.NOT_STATED, reading, deviation)
    whole = across.T @ np.array([r.depth.value for r in readings])
    ratio = float(whole @ np.linalg.solve(covariance, whole)) / freedom
    limit = _limit(freedom, min(residual.dof for residual in residuals))
    return Flatness(Bend.BENT if ratio > limit else Bend.FLAT, reading, deviation, ratio, limit)


def _covariance(estimates: Sequence[Estimate]) -> Array:
    sources = list({source: None for estimate in estimates for source in estimate.parts})
    parts = np.array([[e.parts.get(s, 0.0) for s in sources] for e in estimates])
    covariance: Array = parts @ parts.T
    return covariance


def _limit(freedom: int, dof: float) -> float:
    from scipy.special import chdtri, fdtri

    if math.isinf(dof):
        return float(chdtri(freedom, 1 - LEVEL)) / freedom
    return float(fdtri(freedom, dof, LEVEL))
