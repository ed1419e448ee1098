"""Which causes to put right and by how much, all settings together."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from optics.finding.causes import AT, Cause, Vector, places
from optics.finding.diagnosis.duties import Duty
from optics.finding.diagnosis.sensitivity import Matrix

# Good enough to aim at: a quarter of the tolerance (common practice, no source).
GOOD = 0.25
# A further control must take away a tenth of what is left.
_HELPS = 0.9
# Among settings as good, the smaller: a fault's worth of change weighs this little.
_RIDGE = 1e-4


@dataclass(frozen=True)
class Target:
    """The duties as one matrix: `rows` (duties by faults), `tolerances` (duties, mm).

    Every method takes the faults as a vector in the order of `AT`, in mm, rad or a part.
    """

    rows: Matrix
    tolerances: Vector

    @classmethod
    def of(cls, duties: Sequence[Duty]) -> "Target":
        """The duties' rows and tolerances."""
        return cls(np.array([d.row for d in duties]), np.array([d.tolerance for d in duties]))

    def worst(self, faults: Vector) -> float:
        """The largest error in units of its tolerance."""
        return float(np.abs(self.rows @ faults / self.tolerances).max())

    def spread(self, faults: Vector) -> float:
        """The errors' root mean square in units of their tolerances."""
        return float(np.sqrt(np.mean((self.rows @ faults / self.tolerances) ** 2)))

    def effect(self, faults: Vector, cause: Cause) -> float:
        """The largest error that a cause alone makes, in units of its tolerance."""
        alone = np.zeros(len(AT))
        alone[places(cause)] = faults[places(cause)]
        return self.worst(alone)

    def wanted(self, faults: Vector, controls: Sequence[Cause], sizes: Vector) -> Vector:
        """The changes of the controls' faults that leave the least errors (least squares).

        A vector in the order of `AT`, 0 where no control acts. `sizes`, alike, are how far off
        each fault usually is.
        """
        at = [place for cause in controls for place in places(cause)]
        change = np.zeros(len(AT))
        if not at:
            return change
        scaled = self.rows / self.tolerances[:, None]
        # Each fault is counted in its own size, so that a radian weighs no less than 1 mm, and
        # a ridge takes the smaller of settings that serve alike.
        pull = scaled[:, at] * sizes[at]
        system = pull.T @ pull + _RIDGE * np.eye(len(at))
        change[at] = -sizes[at] * np.linalg.solve(system, pull.T @ (scaled @ faults))
        return change


def choose_controls(
    target: Target,
    faults: Vector,
    leading: Sequence[Cause],
    possible: Sequence[Cause],
    sizes: Vector,
) -> tuple[Cause, ...]:
    """The causes to put right: each leading one that matters, and what else is needed.

    A leading cause is left alone only where its own effect is small everywhere, never because
    another part could make up for it: that would hide one fault behind a second.
    """

    def left(controls: Sequence[Cause]) -> Vector:
        return faults + target.wanted(faults, controls, sizes)

    chosen = [c for c in leading if target.effect(faults, c) > GOOD]
    # Further parts are taken one by one, the one that takes away most first, until all is good.
    others = [c for c in possible if c not in chosen]
    while others and target.worst(left(chosen)) > GOOD:
        # The worst error may need two more controls, so the spread of all tells which helps.
        best = min(others, key=lambda c: target.spread(left([*chosen, c])))
        others.remove(best)
        if target.spread(left([*chosen, best])) < _HELPS * target.spread(left(chosen)):
            chosen.append(best)
    return tuple(chosen)


def on_lattice(
    target: Target,
    faults: Vector,
    controls: Sequence[Cause],
    steps: Sequence[float],
    sizes: Vector,
) -> Vector:
    """The changes in whole steps of every control that make the worst error least.

    The free optimum is rounded and every neighbour a step away is tried with all the others
    at once; `steps` holds one for each control. Limits: up to six controls, of one fault each;
    a better setting two steps away is not looked for.
    """
    free = target.wanted(faults, controls, sizes)
    at = [place for cause in controls for place in places(cause)]
    size = np.array(steps)
    nearest = np.round(free[at] / size)
    # Tries by faults: rounding one control by itself may spoil what another made up for.
    tries = np.array(list(product((-1, 0, 1), repeat=len(at))))
    changes = (nearest + tries) * size
    # Tries by duties.
    errors = (target.rows @ faults)[None] + changes @ target.rows[:, at].T
    scaled = np.abs(errors / target.tolerances)
    # A small weight on all errors settles what the worst leaves open.
    cost = scaled.max(axis=1) + 0.1 * np.sqrt((scaled**2).mean(axis=1))
    best = np.zeros(len(AT))
    best[at] = changes[int(np.argmin(cost))]
    return best
