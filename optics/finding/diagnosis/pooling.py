"""The scatter of repeats pooled over readings of one kind: few repeats each, many together."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from optics.measure.uncertainty import Estimate, Source
from optics.readings.readings import Judged, Reading

# Scatters that differ more than once in a hundred by chance are not one scatter.
_DIFFERENT = 0.01


@dataclass(frozen=True)
class _Spread:
    """The one source of a reading that repeats told, in mm at the film, and its repeats."""

    index: int
    source: Source
    part: float

    @property
    def repeats(self) -> float:
        """How many tries there were."""
        return self.source.dof + 1

    @property
    def variance(self) -> float:
        """The variance of a single try."""
        return self.part**2 * self.repeats


def pooled(readings: Sequence[Reading], errors: Sequence[Estimate]) -> tuple[Estimate, ...]:
    """The errors with the scatter of their repeats pooled by kind (GUM 4.2.4 and H.3.6).

    By eye, by gauge and with the rangefinder each scatter alike at the film: the same eye, the
    same day. Equation: s² = Σ νᵢsᵢ²/Σ νᵢ, known with Σ νᵢ degrees of freedom. Where Bartlett's
    test says at 1 % that they do not scatter alike, each keeps its own.
    """
    groups: dict[Judged, list[_Spread]] = defaultdict(list)
    shared = _shared(errors)
    for index, (reading, error) in enumerate(zip(readings, errors, strict=True)):
        limited = [s for s in error.parts if math.isfinite(s.dof)]
        # A scatter that two readings share is one already, and where a reading has two of them
        # nobody can say which is the hand's.
        if len(limited) == 1 and limited[0] not in shared:
            spread = _Spread(index, limited[0], error.parts[limited[0]])
            groups[reading.judged].append(spread)
    after = list(errors)
    for spreads in groups.values():
        if len(spreads) > 1 and _alike(spreads):
            for index, error in _with_one_scatter(spreads, errors):
                after[index] = error
    return tuple(after)


def _shared(errors: Sequence[Estimate]) -> set[Source]:
    met: set[Source] = set()
    twice: set[Source] = set()
    for error in errors:
        twice |= met & set(error.parts)
        met |= set(error.parts)
    return twice


def _pool(spreads: Sequence[_Spread]) -> tuple[float, float]:
    dof = math.fsum(s.source.dof for s in spreads)
    return math.fsum(s.source.dof * s.variance for s in spreads) / dof, dof


def _alike(spreads: Sequence[_Spread]) -> bool:
    """Bartlett's test for equal variances (Snedecor and Cochran, Statistical Methods)."""
    from scipy.special import chdtrc

    # Repeats that never differed show a coarse scale, not that they scatter otherwise.
    if not all(s.part for s in spreads):
        return True
    variance, dof = _pool(spreads)
    count = len(spreads)
    statistic = dof * math.log(variance)
    statistic -= math.fsum(s.source.dof * math.log(s.variance) for s in spreads)
    inverse = math.fsum(1 / s.source.dof for s in spreads) - 1 / dof
    return float(chdtrc(count - 1, statistic / (1 + inverse / (3 * (count - 1))))) > _DIFFERENT


def _with_one_scatter(
    spreads: Sequence[_Spread], errors: Sequence[Estimate]
) -> list[tuple[int, Estimate]]:
    variance, dof = _pool(spreads)
    changed = []
    # Still one source for each reading, for their scatters are independent; the common mark says
    # that their degrees of freedom are the same ones, not to be counted twice.
    pool = object()
    for spread in spreads:
        error = errors[spread.index]
        parts = {s: part for s, part in error.parts.items() if s is not spread.source}
        part = math.copysign(math.sqrt(variance / spread.repeats), spread.part)
        parts[Source(spread.source.name, dof, pool=pool)] = part
        changed.append((spread.index, Estimate(error.value, parts)))
    return changed
