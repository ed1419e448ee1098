"""What the readings cannot tell: causes they never meet, and causes that look alike to them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from optics.finding.causes import Cause, Vector, places
from optics.finding.diagnosis.observations import Observations
from optics.finding.diagnosis.priors import Priors
from optics.finding.diagnosis.sensitivity import Matrix

# A typical fault must move the readings by twice their scatter to be told at all: about the
# 95 % limit (common practice, no source).
_TELLS = 2.0
# A whole step is told from another cause by its size alone when it is this many times larger.
_BY_SIZE = 4.0


@dataclass(frozen=True)
class LookAlike:
    """The readings cannot tell `cause` from the `others` put together."""

    cause: Cause
    others: tuple[Cause, ...]


@dataclass(frozen=True)
class Determination:
    """Causes never met by a reading, causes too faint for them, and those that look alike."""

    unread: tuple[Cause, ...]
    faint: tuple[Cause, ...]
    look_alikes: tuple[LookAlike, ...]

    def confused_with(self, cause: Cause) -> frozenset[Cause]:
        """The causes that could be taken for this one."""
        pairs = (p for p in self.look_alikes if len(p.others) == 1)
        alike = {frozenset({p.cause, *p.others}) for p in pairs}
        return frozenset().union(*(pair for pair in alike if cause in pair)) - {cause}


def determine(seen: Observations, priors: Priors) -> Determination:
    """Find out from the model alone, whatever the readings showed."""
    # What they showed would bring chance in: here it is asked what they could ever tell.
    patterns = _patterns(seen, priors)
    strength = _strength(patterns)
    met = [c for c in patterns if strength[c] >= _TELLS]
    return Determination(
        unread=tuple(c for c in patterns if strength[c] == 0.0),
        faint=_faint(strength),
        look_alikes=tuple(_look_alikes(met, patterns, priors)),
    )


def too_faint(seen: Observations, priors: Priors) -> tuple[Cause, ...]:
    """The causes whose usual fault moves the readings, but less than twice their scatter."""
    return _faint(_strength(_patterns(seen, priors)))


def _strength(patterns: dict[Cause, Matrix]) -> dict[Cause, float]:
    return {c: float(np.linalg.norm(p, axis=0).min()) for c, p in patterns.items()}


def _faint(strength: dict[Cause, float]) -> tuple[Cause, ...]:
    return tuple(c for c, met in strength.items() if 0.0 < met < _TELLS)


def possible_causes(seen: Observations, priors: Priors) -> tuple[Cause, ...]:
    """The causes that would move any reading at all."""
    rows = seen.straight.slopes(np.zeros(seen.straight.rows.shape[1]))
    return tuple(c for c in priors.by_cause if np.abs(rows[:, places(c)]).max(axis=0).min() > 0)


def _patterns(seen: Observations, priors: Priors) -> dict[Cause, Matrix]:
    """How a typical fault of each cause moves the readings, in units of their scatter.

    Each of shape (readings, faults of the cause); whitened by the readings' covariance.
    """
    slopes = seen.straight.slopes(np.zeros(seen.straight.rows.shape[1]))
    # Parts that are right are never exactly so: what they leave scatters the readings too.
    sound = slopes * priors.spread(())
    factor = np.linalg.cholesky(seen.noise + sound @ sound.T)
    typical = np.linalg.solve(factor, slopes)
    return {c: typical[:, places(c)] * priors.typical(c) for c in priors.by_cause}


def _look_alikes(
    met: Sequence[Cause], patterns: dict[Cause, Matrix], priors: Priors
) -> list[LookAlike]:
    found: list[LookAlike] = []
    for cause in met:
        single: set[Cause] = set()
        for size in (1, 2):
            for others in combinations([c for c in met if c != cause], size):
                # A pair that holds a look-alike says nothing new.
                told = single & set(others) or _told_by_size(cause, others, priors)
                if not told and _apart(patterns[cause], [patterns[o] for o in others]) < _TELLS:
                    found.append(LookAlike(cause, others))
                    single |= set(others) if size == 1 else set()
    return found


def _told_by_size(cause: Cause, others: Sequence[Cause], priors: Priors) -> bool:
    steps = [priors.step(c) for c in (cause, *others) if c.steps]
    rest = [priors.typical(c) for c in (cause, *others) if not c.steps]
    return bool(steps and rest) and min(steps) > _BY_SIZE * max(rest)


def _apart(pattern: Matrix, others: Sequence[Matrix]) -> float:
    """How far a pattern stays from everything that the others can make up."""
    # In whitened readings a length is a number of standard deviations, so that what is left
    # after the best imitation says how sure the difference can ever be.
    basis = np.concatenate(others, axis=1)
    made_up, *_ = np.linalg.lstsq(basis, pattern, rcond=None)
    left: Vector = np.linalg.norm(pattern - basis @ made_up, axis=0)
    return float(left.min())
