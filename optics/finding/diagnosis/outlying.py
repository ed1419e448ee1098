"""Readings that contradict each other, whatever is wrong with the camera."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from optics.finding.causes import ALL, AT, Vector
from optics.finding.diagnosis.hypotheses import Weighed
from optics.finding.diagnosis.observations import Observations, widening
from optics.finding.diagnosis.priors import Priors
from optics.finding.diagnosis.sensitivity import Matrix

# One sound set of readings in a hundred may be accused, however many readings it has.
FAMILY_WISE = 0.01
# A variance (mm²) of less than a nanometre squared is rounding.
_NONE = 1e-12


@dataclass(frozen=True)
class Outlier:
    """A reading, what the others would have it be, and the chance of so great a difference."""

    index: int
    away: float
    chance: float


@dataclass(frozen=True)
class Contradiction:
    """Two readings of one thing, how far apart they lie (mm), and the chance of so much."""

    pair: tuple[int, int]
    apart: float
    chance: float


def outliers(seen: Observations, all_weighed: Sequence[Weighed]) -> tuple[Outlier, ...]:
    """The readings that fail when each is set aside and foretold from the rest.

    Under each hypothesis reading i is foretold as normal with variance 1/[S⁻¹]ᵢᵢ about
    eᵢ − [S⁻¹e]ᵢ/[S⁻¹]ᵢᵢ, and the hypotheses are weighed afresh without it. The chance is
    both tails of that mixture; one is accused below 0.01 over the number of readings
    (Bonferroni). The tails are Student's t, in the measure in which repeats told the variance.
    A single reading has nothing to contradict it. Limits: two readings of one thing that
    contradict each other can make any third look wrong: look for `contradictions` first.
    """
    weight = np.concatenate([w.log_weight for w in all_weighed])
    inverse = np.concatenate([w.inverse for w in all_weighed])
    # From the inverses alone, without solving afresh for each reading that is left out; all
    # arrays from here on are (hypotheses, readings).
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


def contradictions(seen: Observations, priors: Priors) -> tuple[Contradiction, ...]:
    """The readings of one thing that no fault can bring together, the worst pair first.

    Equation: z = (eᵢ − eⱼ)/√(Rᵢᵢ + Rⱼⱼ − 2Rᵢⱼ + d·V·dᵀ), where R is the readings' covariance, d
    the difference of their slopes and V every fault's variance with all causes at work. Accused
    below 0.01 over the number of pairs (Bonferroni), Student's t as for `outliers`.
    """
    things = [reading.thing for reading in seen.readings]
    pairs = [pair for pair in combinations(range(len(things)), 2) if _same(*pair, things)]
    slopes = seen.straight.slopes(np.zeros(len(AT)))
    # With every cause at work at once, so that no fault is ruled out that could part the two.
    spread = priors.spread(ALL)
    found = []
    for i, j in pairs:
        apart = float(abs(seen.values[i] - seen.values[j]))
        faults = float((((slopes[i] - slopes[j]) * spread) ** 2).sum())
        chance = _pair_tail(seen, (i, j), apart, faults)
        if chance < FAMILY_WISE / len(pairs):
            found.append(Contradiction((i, j), apart, chance))
    return tuple(sorted(found, key=lambda one: (one.chance, -one.apart)))


def _same(i: int, j: int, things: Sequence[object]) -> bool:
    return things[i] == things[j]


def _pair_tail(seen: Observations, pair: tuple[int, int], apart: float, faults: float) -> float:
    own, dof = (values[list(pair)] for values in seen.repeated)
    noise = seen.noise[np.ix_(pair, pair)]
    # One reading entered twice has nothing left to scatter by.
    variance = max(float(noise[0, 0] + noise[1, 1] - 2 * noise[0, 1]) + faults, _NONE)
    part = np.minimum(own / variance, 1.0)
    return float(_beyond(np.array(apart / math.sqrt(variance)), part, dof).max())


def _tails(seen: Observations, away: Matrix, inverse: Matrix) -> Matrix:
    """Both tails beyond the differences, with the degrees of freedom each is known with."""
    own, dof = seen.repeated
    precision = np.einsum("hii->hi", inverse)
    # The difference is the sum of all readings with the weights [S⁻¹]ᵢⱼ/[S⁻¹]ᵢᵢ.
    part = np.minimum(inverse**2 @ own / precision, 1.0)
    return _beyond(np.abs(away) * np.sqrt(precision), part, dof)


def _beyond(scaled: Matrix, part: Matrix, dof: Vector) -> Matrix:
    """Both tails beyond a difference, `part` of whose variance was told by repeats.

    The widening for few repeats was made to serve at 95 %; farther out t's own tail takes over.
    """
    from scipy.special import stdtr

    wide = np.array([widening(d) for d in dof])
    stretched = scaled * (1 + (wide - 1) * part)
    tails: Matrix = 2 * stdtr(dof / np.maximum(part, 1e-3) ** 2, -stretched)
    return tails
