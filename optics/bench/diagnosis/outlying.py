"""A reading that the others contradict, whatever is wrong with the camera."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.bench.diagnosis.hypotheses import Weighed
from optics.bench.diagnosis.observations import Observations, widening
from optics.bench.diagnosis.sensitivity import Matrix

# One sound set of readings in a hundred may be accused, however many readings it has.
FAMILY_WISE = 0.01


@dataclass(frozen=True)
class Outlier:
    """A reading, what the others would have it be, and the chance of so great a difference."""

    index: int
    away: float
    chance: float


def outliers(seen: Observations, all_weighed: Sequence[Weighed]) -> tuple[Outlier, ...]:
    """The readings that fail when each is set aside and foretold from the rest.

    Under each hypothesis reading i is foretold as normal with variance 1/[S⁻¹]ᵢᵢ about
    eᵢ − [S⁻¹e]ᵢ/[S⁻¹]ᵢᵢ, and the hypotheses are weighed afresh without it. The chance is
    both tails of that mixture; one is accused below 0.01 over the number of readings
    (Bonferroni). The tails are Student's t, in the measure in which repeats told the variance.
    A single reading has nothing to contradict it.
    """
    weight = np.concatenate([w.log_weight for w in all_weighed])
    inverse = np.concatenate([w.inverse for w in all_weighed])
    precision: Matrix = np.einsum("hii->hi", inverse)
    away = np.concatenate([w.inverse @ w.centre for w in all_weighed]) / precision
    count = precision.shape[1]
    if count < 2:
        return ()
    # Leaving a reading out divides the evidence by the density of what it showed.
    density = 0.5 * np.log(precision) - 0.5 * away**2 * precision
    rest = weight[:, None] - density
    rest = np.exp(rest - rest.max(axis=0))
    rest /= rest.sum(axis=0)
    chance = np.sum(rest * _tails(seen, away, inverse), axis=0)
    means = np.sum(rest * away, axis=0)
    return tuple(
        Outlier(i, float(means[i]), float(chance[i]))
        for i in np.argsort(chance).tolist()
        if chance[i] < FAMILY_WISE / count
    )


def _tails(seen: Observations, away: Matrix, inverse: Matrix) -> Matrix:
    """Both tails beyond the differences, with the degrees of freedom each is known with.

    The widening for few repeats was made to serve at 95 %; farther out t's own tail takes over.
    """
    from scipy.special import stdtr

    own, dof = seen.repeated
    precision = np.einsum("hii->hi", inverse)
    # The difference is the sum of all readings with the weights [S⁻¹]ᵢⱼ/[S⁻¹]ᵢᵢ.
    part = np.minimum(inverse**2 @ own / precision, 1.0)
    wide = np.array([widening(d) for d in dof])
    stretched = np.abs(away) * np.sqrt(precision) * (1 + (wide - 1) * part)
    tails: Matrix = 2 * stdtr(dof / np.maximum(part, 1e-3) ** 2, -stretched)
    return tails
