"""The camera as it is believed to be after each step: drawn by chance, and in plain figures."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.finding.causes import AT, Adjustment, Vector
from optics.finding.diagnosis.duties import Duty
from optics.finding.diagnosis.posterior import Posterior
from optics.measure.monte_carlo import DRAWS, Draws
from optics.measure.uncertainty import LEVEL


@dataclass(frozen=True)
class Expected:
    """One duty's error (mm): mean, ends of the 95 % interval, probability within tolerance."""

    duty: Duty
    mean: float
    low: float
    high: float
    inside: float

    @property
    def is_guarded(self) -> bool:
        """Whether the whole interval lies within the tolerance (guard band w = U, ILAC-G8)."""
        return max(-self.low, self.high) <= self.duty.tolerance


@dataclass(frozen=True)
class PlanOutlook:
    """Every duty, and the probability that all are within tolerance at once (JCGM 106)."""

    expected: tuple[Expected, ...]
    all_inside: float

    @property
    def worst(self) -> Expected:
        """The duty least likely to be within its tolerance."""
        return min(self.expected, key=lambda e: (e.inside, -abs(e.mean)))

    @property
    def conforms(self) -> bool:
        """All within tolerance with 95 % probability, and each by its own guard band."""
        return self.all_inside >= LEVEL and all(e.is_guarded for e in self.expected)


class Forecast:
    """Draws of every duty's error, carried from step to step.

    The faults are drawn from the hypotheses that remain (JCGM 101: normal, Student's t or
    rectangular as each source is), and each adjustment adds its amount and its own error.
    """

    # `rows` are duties by faults, `errors` duties by draws (mm at the film).
    def __init__(
        self, left: Posterior, duties: Sequence[Duty], draws: int = DRAWS, seed: int = 1
    ) -> None:
        self.duties = tuple(duties)
        self.rows = np.array([duty.row for duty in duties])
        self.chance = np.random.default_rng(seed + 1)
        self.errors: Draws = left.draws(self.rows, draws, seed)

    def apply(self, adjustment: Adjustment) -> None:
        """Add an adjustment's changes, each with the limits within which a hand sets it."""
        count = self.errors.shape[1]
        for name, change in adjustment.changes.items():
            effect = self.rows[:, AT[name]]
            drawn = change.value + change.standard * np.sqrt(3) * self.chance.uniform(-1, 1, count)
            # A duty that does not feel the fault keeps its row: most do not, and rows are long.
            for line in np.flatnonzero(effect):
                self.errors[line] += effect[line] * drawn

    def state(self, every: int = 1) -> PlanOutlook:
        """What is to be expected now; the intervals from every so manieth draw."""
        tolerances = np.array([duty.tolerance for duty in self.duties])
        inside = np.abs(self.errors) <= tolerances[:, None]
        low, high = _middle(np.ascontiguousarray(self.errors[:, ::every]))
        expected = tuple(
            Expected(duty, *(float(v) for v in figures))
            for duty, *figures in zip(
                self.duties, self.errors.mean(axis=1), low, high, inside.mean(axis=1), strict=True
            )
        )
        return PlanOutlook(expected, float(inside.all(axis=0).mean()))


def _middle(errors: Draws) -> tuple[Vector, Vector]:
    """The ends of the middle 95 % of each duty's draws: two figures for each row."""
    count = errors.shape[1]
    ends = [int(count * (1 - LEVEL) / 2), int(count * (1 + LEVEL) / 2)]
    # Sorted whole, for numpy sorts several times faster than it parts.
    ordered = np.sort(errors, axis=1)
    return ordered[:, ends[0]], ordered[:, ends[1]]
