"""Drawing by chance what a budget adds up: the cross-check of JCGM 101:2008.

Each source is drawn from the distribution it stands for: rectangular between its limits,
Student's t where repeated readings told its size, normal otherwise.
"""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from optics.measure.uncertainty import LEVEL, Estimate, Source

Draws = NDArray[np.float64]
DRAWS = 100_000


def drawn(estimates: Sequence[Estimate], count: int = DRAWS, seed: int = 1) -> Draws:
    """Draw the figures `count` times together, one column for each (JCGM 101, 7).

    A source that several figures share is drawn once for all of them, so they stay
    correlated. Limits: the figures are straight in their sources, as the budget takes them.
    """
    sources = list(dict.fromkeys(source for e in estimates for source in e.parts))
    shares = np.array([[e.parts.get(s, 0.0) for e in estimates] for s in sources])
    values = np.array([e.value for e in estimates])
    units = unit_draws(sources, count, np.random.default_rng(seed))
    figures: Draws = values + (shares.reshape(len(sources), len(values)).T @ units).T
    return figures


def unit_draws(sources: Sequence[Source], count: int, chance: np.random.Generator) -> Draws:
    """Draw each source `count` times, a row for each, in units of its standard uncertainty.

    JCGM 101, 6.4.2 (rectangular), 6.4.7 (normal) and 6.4.9 (scaled t of n − 1 degrees);
    sources of one pool share the scatter that was drawn for it.
    """
    draws = np.empty((len(sources), count))
    scatters: dict[object, Draws] = {}
    for row, source in zip(draws, sources, strict=True):
        if source.is_rectangular:
            row[:] = chance.uniform(-math.sqrt(3), math.sqrt(3), count)
            continue
        chance.standard_normal(out=row)
        if math.isfinite(source.dof):
            pool = source if source.pool is None else source.pool
            if pool not in scatters:
                scatters[pool] = np.sqrt(chance.chisquare(source.dof, count) / source.dof)
            row /= scatters[pool]
    return draws


def middle(draws: Draws, level: float = LEVEL) -> tuple[float, float]:
    """The ends of the interval that leaves as many draws below it as above (JCGM 101, 7.7)."""
    low, high = np.quantile(draws, [(1 - level) / 2, (1 + level) / 2])
    return float(low), float(high)
