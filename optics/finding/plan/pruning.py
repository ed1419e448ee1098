"""Steps that gain nothing are not asked for: every part touched can also be set amiss."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.finding.causes import AT, Adjustment, Cause, Vector
from optics.finding.diagnosis.duties import Duty
from optics.finding.plan.state import Forecast
from optics.measure.monte_carlo import Draws

# All ways are compared on the same draws, so that some of those for the promise serve.
_DRAWS = 5_000
# By so much the probability of being inside may fall for a step less.
_FALL = 0.001
# An error left beyond half the tolerance is put right, however surely it lies within (common
# practice, no source) ...
_LEFT = 0.5
# ... as far as the step makes it smaller by a tenth of the tolerance.
_SMALLER = 0.1
# 95 % of a normal scatter.
_REACH = 1.96

Steps: TypeAlias = tuple[Adjustment, ...]
Choose: TypeAlias = Callable[[frozenset[Cause]], Sequence[Adjustment]]


@dataclass(frozen=True)
class Outlook:
    """The duties after some of the steps, in units of their tolerances.

    `together` is the probability that all are inside, `inside` that of each; `reach` how far
    the 95 % interval reaches either way.
    """

    together: float
    inside: Vector
    means: Vector
    reach: Vector

    @classmethod
    def of(cls, scaled: Draws) -> "Outlook":
        """The outlook that draws give: `scaled` is duties by draws, in units of the tolerances."""
        within = np.abs(scaled) <= 1
        means = scaled.mean(axis=1)
        reach = np.abs(means) + _REACH * scaled.std(axis=1)
        return cls(float(within.all(axis=0).mean()), within.mean(axis=1), means, reach)

    def is_as_good_as(self, other: "Outlook") -> bool:
        """Whether all together is likelier inside, or nothing is lost at any duty."""
        # A step less that makes success likelier is better whatever single duties say: the
        # hand that sets a part can also set it amiss.
        if self.together > other.together + _FALL:
            return True
        away = np.abs(self.means)
        is_left = (away > _LEFT) & (away > np.abs(other.means) + _SMALLER)
        is_unsure = (self.reach > 1) & (other.reach <= 1)
        is_less = self.inside < other.inside - _FALL
        is_worse = bool((is_left | is_unsure | is_less).any())
        return self.together >= other.together - _FALL and not is_worse


class Drawn:
    """The duties' errors as found, and what each step adds, always on the same draws.

    `rows` are duties by faults and `found` duties by draws, both in units of the tolerances.
    """

    def __init__(self, as_found: Forecast) -> None:
        self.duties = as_found.duties
        tolerances = np.array([duty.tolerance for duty in self.duties])[:, None]
        self.rows = as_found.rows / tolerances
        some = max(1, as_found.errors.shape[1] // _DRAWS)
        self.found: Draws = as_found.errors[:, ::some] / tolerances
        self.chance = np.random.default_rng(1)
        self.hands: dict[tuple[Cause, str], Vector] = {}

    def lines_of(self, duties: Sequence[Duty]) -> list[int]:
        """Which of the lines are these duties'."""
        wanted = set(map(id, duties))
        return [line for line, duty in enumerate(self.duties) if id(duty) in wanted]

    def after(self, steps: Sequence[Adjustment], lines: list[int] | None = None) -> Outlook:
        """What is to be expected after these steps, of all duties or of some."""
        errors = self.found.copy()
        for step in steps:
            for name, change in step.changes.items():
                reach = float(np.sqrt(3)) * change.standard
                moved: Vector = change.value + reach * self._hand(step.cause, name)
                for line in np.flatnonzero(self.rows[:, AT[name]]):
                    errors[line] += self.rows[line, AT[name]] * moved
        return Outlook.of(errors if lines is None else errors[lines])

    def _hand(self, cause: Cause, name: str) -> Vector:
        """How a hand misses, between −1 and 1; alike whatever amount it sets."""
        # Ways are compared by less than a draw scatters, so the same hand sets them all.
        if (cause, name) not in self.hands:
            self.hands[cause, name] = self.chance.uniform(-1, 1, self.found.shape[1:])
        return self.hands[cause, name]


def worth_doing(
    drawn: Drawn,
    made: Sequence[Adjustment],
    choose: Choose | None = None,
    kept: Sequence[Duty] | None = None,
) -> Steps:
    """The adjustments without those that gain nothing, the least useful left out first.

    One is left out as long as the probability of being inside, all together and each by itself,
    does not fall by more than 0.1 %, no duty loses its guard band, and no error beyond half the
    tolerance is left that would have been smaller. `choose` makes the plan afresh without some
    causes, for steps that only make up for one another; what it gives is taken where it asks
    for no other cause. `kept` are the duties that count, where some are given up.
    """
    steps: Steps = tuple(made)
    if not steps:
        return ()
    lines = drawn.lines_of(drawn.duties if kept is None else kept)
    now = drawn.after(steps, lines)
    while steps:
        ways = [(way, drawn.after(way, lines)) for way in _shorter(steps, made, choose)]
        good = [(way, outlook) for way, outlook in ways if outlook.is_as_good_as(now)]
        if not good:
            break
        steps, then = max(
            good, key=lambda one: (round(one[1].together, 3), -np.abs(one[1].means).max())
        )
        now = max(now, then, key=lambda outlook: outlook.together)
    return steps


def _shorter(steps: Steps, made: Sequence[Adjustment], choose: Choose | None) -> Iterator[Steps]:
    """Every way with a step less, the rest as it was or chosen afresh; and doing nothing."""
    causes = {step.cause for step in steps}
    gone = {step.cause for step in made} - causes
    yield ()
    for step in steps:
        rest = tuple(one for one in steps if one is not step)
        if rest:
            yield rest
        if choose is not None and rest:
            afresh = tuple(choose(frozenset(gone | {step.cause})))
            if afresh and {one.cause for one in afresh} < causes:
                yield afresh
