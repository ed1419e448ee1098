"""A reading that the others contradict, whatever is wrong with the camera."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.bench.diagnosis.faults import Vector
from optics.bench.diagnosis.hypotheses import Weighed
from optics.bench.diagnosis.sensitivity import Matrix

# One sound set of readings in a hundred may be accused, however many readings it has.
FAMILY_WISE = 0.01


@dataclass(frozen=True)
class Outlier:
    """A reading, what the others would have it be, and the chance of so great a difference."""

    index: int
    away: float
    chance: float


def outliers(all_weighed: Sequence[Weighed]) -> tuple[Outlier, ...]:
    """The readings that fail when each is set aside and foretold from the rest.

    Under each hypothesis reading i is foretold as normal with variance 1/[S⁻¹]ᵢᵢ about
    eᵢ − [S⁻¹e]ᵢ/[S⁻¹]ᵢᵢ, and the hypotheses are weighed afresh without it. The chance is
    both tails of that mixture; one is accused below 0.01 over the number of readings
    (Bonferroni). A single reading has nothing to contradict it.
    """
    weight = np.concatenate([w.log_weight for w in all_weighed])
    precision = np.concatenate([_diagonal(w) for w in all_weighed])
    away = np.concatenate([_pull(w) for w in all_weighed]) / precision
    count = precision.shape[1]
    if count < 2:
        return ()
    # Leaving a reading out divides the evidence by the density of what it showed.
    density = 0.5 * np.log(precision) - 0.5 * away**2 * precision
    rest = weight[:, None] - density
    rest = np.exp(rest - rest.max(axis=0))
    rest /= rest.sum(axis=0)
    chance = np.sum(rest * _tails(np.abs(away) * np.sqrt(precision)), axis=0)
    means = np.sum(rest * away, axis=0)
    return tuple(
        Outlier(i, float(means[i]), float(chance[i]))
        for i in np.argsort(chance).tolist()
        if chance[i] < FAMILY_WISE / count
    )


def _diagonal(weighed: Weighed) -> Matrix:
    diagonal: Matrix = np.einsum("hii->hi", weighed.inverse)
    return diagonal


def _pull(weighed: Weighed) -> Matrix:
    pull: Matrix = weighed.inverse @ weighed.centre
    return pull


def _tails(distance: Matrix) -> Vector:
    from scipy.special import ndtr

    tails: Vector = 2 * ndtr(-distance)
    return tails
