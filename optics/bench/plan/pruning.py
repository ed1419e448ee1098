"""Steps that gain nothing are not asked for: every part touched can also be set amiss."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.bench.diagnosis.duties import Duty
from optics.bench.diagnosis.faults import Vector
from optics.bench.diagnosis.posterior import Posterior
from optics.bench.monte_carlo import Draws
from optics.bench.plan.adjustment import Adjustment
from optics.bench.plan.state import Forecast

# All ways are compared on the same draws, so that fewer serve than for a promise.
_DRAWS = 10_000
# By so much the probability of being inside may fall for a step less.
_FALL = 0.001
# An error left beyond half the tolerance is put right, however surely it lies within (common
# practice, no source) ...
_LEFT = 0.5
# ... as far as the step makes it smaller by a tenth of the tolerance.
_SMALLER = 0.1
# 95 % of a normal scatter.
_REACH = 1.96


@dataclass(frozen=True)
class _Outlook:
    """The duties after some of the steps, in units of their tolerances."""

    together: float
    inside: Vector
    means: Vector
    reach: Vector

    @classmethod
    def of(cls, scaled: Draws) -> "_Outlook":
        within = np.abs(scaled) <= 1
        means = np.abs(scaled.mean(axis=1))
        reach = means + _REACH * scaled.std(axis=1)
        return cls(float(within.all(axis=0).mean()), within.mean(axis=1), means, reach)

    def is_as_good_as(self, full: "_Outlook") -> bool:
        """Whether nothing is lost against the full plan, at any duty or at all together."""
        is_left = (self.means > _LEFT) & (self.means > full.means + _SMALLER)
        is_unsure = (self.reach > 1) & (full.reach <= 1)
        is_less = self.inside < full.inside - _FALL
        return self.together >= full.together - _FALL and not (is_left | is_unsure | is_less).any()


def worth_doing(
    left: Posterior, duties: Sequence[Duty], made: Sequence[Adjustment], seed: int = 1
) -> tuple[Adjustment, ...]:
    """The adjustments without those that gain nothing, the least useful left out first.

    One is left out as long as the probability of being inside, all together and each by itself,
    does not fall by more than 0.1 %, no duty loses its guard band, and no error beyond half the
    tolerance is left that would have been smaller. Limits: what stays is not chosen afresh.
    """
    if not made:
        return ()
    forecast = Forecast(left, duties, _DRAWS, seed)
    tolerances = np.array([duty.tolerance for duty in duties])[:, None]
    effects = []
    for adjustment in made:
        before = forecast.errors.copy()
        forecast.apply(adjustment)
        effects.append((forecast.errors - before) / tolerances)
    kept, errors = list(range(len(made))), forecast.errors / tolerances
    full = _Outlook.of(errors)
    while kept:
        outlooks = {index: _Outlook.of(errors - effects[index]) for index in kept}
        spare = [index for index, outlook in outlooks.items() if outlook.is_as_good_as(full)]
        if not spare:
            break
        least = max(
            spare, key=lambda index: (outlooks[index].together, -outlooks[index].means.max())
        )
        errors = errors - effects[least]
        kept.remove(least)
    return tuple(made[index] for index in kept)
