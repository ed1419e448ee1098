"""What the readings leave possible: the hypotheses that remain, each with its faults."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from optics.finding.causes import NAMES, Cause, Vector
from optics.finding.diagnosis.hypotheses import Hypothesis, Weighed, gains
from optics.finding.diagnosis.observations import Observations, widening
from optics.finding.diagnosis.sensitivity import Matrix
from optics.measure.monte_carlo import Draws, unit_draws
from optics.measure.uncertainty import LEVEL, Estimate, Source

# Hypotheses kept: those of any weight, and no more than a page could ever name.
_LEAST, _MOST = 1e-4, 40


@dataclass(frozen=True)
class Posterior:
    """The hypotheses that remain, most probable first.

    `means[h]` are the faults under each; `shares[h, j, s]` what source s, of the readings
    or of the suppositions, adds to fault j. Shapes: `weights` (hypotheses,), `means`
    (hypotheses, faults), `shares` (hypotheses, faults, sources).
    """

    hypotheses: tuple[Hypothesis, ...]
    weights: Vector
    means: Matrix
    shares: Matrix
    sources: tuple[Source, ...]

    @cached_property
    def mean(self) -> Vector:
        """The faults, averaged over the hypotheses."""
        averaged: Vector = self.weights @ self.means
        return averaged

    def under(self, index: int, row: Vector) -> Estimate:
        """A sum of faults, `row` of shape (faults,), under one hypothesis, with its sources."""
        parts = (row @ self.shares[index]).tolist()
        kept = {source: part for source, part in zip(self.sources, parts, strict=True) if part}
        return Estimate(float(row @ self.means[index]), kept)

    def mixture(self, row: Vector) -> "Mixture":
        """A sum of faults over all hypotheses, few repeats made to count for less.

        As where the readings were weighed, a source known by its own spread is widened by
        t/1.96; a little wider than the effective degrees of freedom of GUM G.4.1 make it, which
        held the truth a little too seldom on the practice cameras.
        """
        parts = (row @ self.shares) * self._widening
        return Mixture(self.weights, self.means @ row, np.linalg.norm(parts, axis=-1))

    @cached_property
    def _widening(self) -> Vector:
        return np.array([widening(source.dof) for source in self.sources])

    def chance_of(self, cause: Cause) -> float:
        """The probability that a cause is at work, whatever else is."""
        here = (cause in hypothesis.causes for hypothesis in self.hypotheses)
        return float(self.weights @ np.array(list(here), dtype=float))

    def draws(self, rows: Matrix, count: int, seed: int = 1) -> Draws:
        """Draw sums of the faults so many times, each hypothesis as often as it is probable.

        One line of draws for each row, (rows, faults) to (rows, count); the lines belong together
        draw by draw, so that what all rows share stays shared.
        """
        chance = np.random.default_rng(seed)
        # Sources that move nothing are not drawn: most of them, once few causes are left.
        felt = np.flatnonzero(np.abs(self.shares).max(axis=(0, 1)))
        units = unit_draws([self.sources[s] for s in felt], count, chance)
        often = chance.multinomial(count, self.weights)
        ends = np.cumsum(often)
        drawn = np.empty((len(rows), count))
        shares = rows @ self.shares[:, :, felt]
        means = self.means @ rows.T
        # Each hypothesis fills a run of the draws, as long as it is probable.
        for mean, share, end, number in zip(means, shares, ends, often, strict=True):
            some = slice(end - number, end)
            drawn[:, some] = mean[:, None] + share @ units[:, some]
        return drawn


@dataclass(frozen=True)
class Mixture:
    """One figure: normal about a mean under each hypothesis, with its weight."""

    weights: Vector
    means: Vector
    standards: Vector

    @property
    def mean(self) -> float:
        """The mean over all hypotheses."""
        return float(self.weights @ self.means)

    @property
    def standard(self) -> float:
        """The standard deviation within and between hypotheses."""
        away = (self.means - self.mean) ** 2
        return math.sqrt(float(self.weights @ (self.standards**2 + away)))

    def below(self, value: float) -> float:
        """The probability that the figure is less than a value."""
        from scipy.special import ndtr

        scaled = (value - self.means) / np.maximum(self.standards, 1e-15)
        return float(self.weights @ ndtr(scaled))

    def within(self, tolerance: float, shift: float = 0.0) -> float:
        """The probability that the figure, shifted, lies within ± a tolerance."""
        return self.below(tolerance - shift) - self.below(-tolerance - shift)

    def interval(self, level: float = LEVEL) -> tuple[float, float]:
        """The ends that leave as much below as above."""
        from scipy.optimize import brentq

        # No part of the mixture has anything left so far out, so the root lies between.
        reach = 50 * float(self.standards.max()) + 1e-9
        low, high = float(self.means.min()) - reach, float(self.means.max()) + reach
        tails = ((1 - level) / 2, (1 + level) / 2)
        ends = [brentq(lambda v, p=p: self.below(v) - p, low, high) for p in tails]
        return float(ends[0]), float(ends[1])


def posterior_of(seen: Observations, all_weighed: Sequence[Weighed]) -> Posterior:
    """Share out the weight of all hypotheses and work out the faults under the best."""
    weight = np.concatenate([w.log_weight for w in all_weighed])
    # Against the greatest, so that no exponential overflows and the best is never lost.
    chance = np.exp(weight - weight.max())
    chance /= chance.sum()
    kept = np.argsort(-chance, kind="stable")[:_MOST]
    kept = kept[chance[kept] >= _LEAST]
    owners = np.concatenate([np.full(len(w.log_weight), n) for n, w in enumerate(all_weighed)])
    places = np.concatenate([np.arange(len(w.log_weight)) for w in all_weighed])
    # Faults are worked out for those that are kept alone, and start by start, for each start
    # has matrices of its own.
    found: dict[int, tuple[Hypothesis, Vector, Matrix]] = {}
    for number, weighed in enumerate(all_weighed):
        mine = kept[owners[kept] == number]
        worked = _faults_under(seen, weighed, places[mine])
        found |= dict(zip(mine.tolist(), worked, strict=True))
    ordered = [found[index] for index in kept.tolist()]
    return Posterior(
        hypotheses=tuple(hypothesis for hypothesis, _, _ in ordered),
        weights=chance[kept] / chance[kept].sum(),
        means=np.array([mean for _, mean, _ in ordered]),
        shares=np.array([shares for _, _, shares in ordered]),
        sources=(*seen.sources, *_supposed()),
    )


def _supposed() -> tuple[Source, ...]:
    """What is supposed of each fault, as a source of its own."""
    return tuple(Source(f"supposed of {name}") for name in NAMES)


def _faults_under(
    seen: Observations, weighed: Weighed, chosen: Vector
) -> list[tuple[Hypothesis, Vector, Matrix]]:
    """The faults, (faults,), and the share of every source in them, (faults, sources)."""
    carried = gains(weighed, chosen)
    means = weighed.shift + carried @ weighed.centre
    # With the readings' true shares, not the widened ones that weighed them, the variance is
    # (1 − GA)·V·(1 − GA)ᵀ + G·R·Gᵀ, right for whatever weights G was made with.
    by_readings = carried @ seen.shares
    left = np.eye(len(NAMES)) - carried @ weighed.slopes
    by_supposing = left * weighed.spreads[chosen][:, None, :]
    shares = np.concatenate([by_readings, by_supposing], axis=2)
    return [
        (weighed.hypotheses[index], mean, share)
        for index, mean, share in zip(chosen.tolist(), means, shares, strict=True)
    ]
