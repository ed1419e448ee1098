"""Two adjusters that act on each other, learned from what turning them does.

The rangefinder is read at a far and a near distance; each reading is the focus error there
(mm at the film). How much an eighth of a turn changes either is not known beforehand: the
repairer turns one adjuster, reads both again, and the table of four sensitivities is learned
turn by turn. Turns are in whole turns, plus clockwise as the repairer sees the screw.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeAlias

import numpy as np

from optics.camera.camera import Turn
from optics.errors import OutOfRange
from optics.rangefinder.model import Adjuster, Rangefinder
from optics.relation import Array

# What a sensitivity may be before anything was turned (mm at the film for one turn).
_UNKNOWN = 100.0
# By how much of itself a sensitivity may change from one turn to the next, because neither
# screws nor eccentrics act evenly.
_UNEVEN = 0.4
_UNEVEN_ECCENTRIC = 1.5
# An eccentric is never sent farther than a quarter turn at once, nor a screw farther than
# four times its longest turn so far: beyond that nothing has been learned.
_ECCENTRIC_STRIDE = 0.25
_STRIDE = 4.0
_FIRST_TRIAL = 0.25
_LONGEST_TRIAL = 2.0
_MOST_TRIALS = 4
_FINEST = 64
# One adjuster alone is to bring both readings this far inside the goal: the rest is the eye's.
_SAFELY = 1 / 3
# A turn that moves far and near by less than this share of the goal can wait.
_LITTLE = 0.25
# No reading is finer than this (mm), whatever is stated.
_FINEST_READING = 1e-6
# A trial's change is worth learning from beyond so many standard uncertainties, and a
# surprise is one beyond so many.
_SEEN = 3.0
_SURPRISING = 3.0
# Two adjusters whose effects lie within this angle (rad) of one line cannot be told apart.
_ALIKE = 0.02


class Which(StrEnum):
    """The two adjusters by what they are for."""

    ZERO = "zero"
    GAIN = "gain"


ORDER = (Which.ZERO, Which.GAIN)


@dataclass(frozen=True)
class EndErrors:
    """The focus errors (mm, + too far out) read at the far and at the near distance."""

    far: float
    near: float

    @property
    def as_array(self) -> Array:
        """Far and near, in this order."""
        return np.array([self.far, self.near])

    def within(self, error: float) -> bool:
        """Whether both are within ± an error."""
        return max(abs(self.far), abs(self.near)) <= error


@dataclass(frozen=True)
class Turned:
    """Turns of both adjusters (plus clockwise), and what was read afterwards."""

    zero: float
    gain: float
    after: EndErrors

    @property
    def turns(self) -> Array:
        """Zero and gain, in this order."""
        return np.array([self.zero, self.gain])


@dataclass(frozen=True)
class History:
    """The readings before anything was turned, and every turn since.

    `noise` is the standard uncertainty of one reading (mm at the film).
    """

    start: EndErrors
    turned: tuple[Turned, ...] = ()
    noise: float = 0.0

    def then(self, zero: float, gain: float, far: float, near: float) -> "History":
        """The history with one more turn and what was read after it."""
        return replace(self, turned=(*self.turned, Turned(zero, gain, EndErrors(far, near))))


@dataclass(frozen=True)
class LearnedTurns:
    """What has been learned, in one row for far and one for near.

    Columns of `means`: the error now (mm), and what a turn of the zero and of the gain
    adjuster adds to it (mm per turn). `covariance` of the three is the same in both rows.
    """

    means: Array
    covariance: Array

    @property
    def errors(self) -> Array:
        """The errors now, by all that was read."""
        return self.means[:, 0]

    @property
    def table(self) -> Array:
        """The sensitivities: rows far and near, columns zero and gain adjuster."""
        return self.means[:, 1:]

    @property
    def variance(self) -> Array:
        """The covariance of the two sensitivities in a row."""
        return self.covariance[1:, 1:]


def learn(history: History, rangefinder: Rangefinder) -> LearnedTurns:
    """The errors and sensitivities that all readings so far have taught.

    Without noise each turn makes the table agree with it and changes it least otherwise
    (C. G. Broyden, 1965); with noise a turn that moved little teaches little, and earlier
    readings steady the latest (R. E. Kalman, 1960).
    """
    noise = max(history.noise, _FINEST_READING) ** 2
    learned = LearnedTurns(
        np.column_stack([history.start.as_array, np.zeros((2, 2))]),
        np.diag([noise, _UNKNOWN**2, _UNKNOWN**2]),
    )
    uneven = np.array(
        [
            _UNEVEN_ECCENTRIC if adjuster_of(rangefinder, which).is_eccentric else _UNEVEN
            for which in ORDER
        ]
    )
    for turned in history.turned:
        learned = _taught(_carried(learned, turned.turns, uneven), turned.after, noise)
    return learned


def _carried(learned: LearnedTurns, turns: Array, uneven: Array) -> LearnedTurns:
    """What is to be expected after a turn, before it is read."""
    # The farther a turn goes from where it was learned, the less its sensitivity still holds.
    drift = np.sum((uneven * learned.table * turns) ** 2, axis=0)
    step = np.eye(3)
    step[0, 1:] = turns
    doubted = learned.covariance + np.diag([0.0, *drift])
    return LearnedTurns(learned.means @ step.T, step @ doubted @ step.T)


def _taught(learned: LearnedTurns, read: EndErrors, noise: float) -> LearnedTurns:
    """What the reading after a turn adds."""
    weight = learned.covariance[0] / (learned.covariance[0, 0] + noise)
    means = learned.means + np.outer(read.as_array - learned.errors, weight)
    return LearnedTurns(means, learned.covariance - np.outer(weight, learned.covariance[0]))


def _changes(history: History) -> list[tuple[Array, Array]]:
    """Each turn with the change of the two readings that came of it."""
    states = [history.start, *(t.after for t in history.turned)]
    pairs = zip(history.turned, states, strict=False)
    return [(t.turns, t.after.as_array - before.as_array) for t, before in pairs]


class Surprise(StrEnum):
    """An adjuster that did not do what its earlier turns foretold."""

    REVERSED = "reversed"
    FADED = "faded"


@dataclass(frozen=True)
class AdjusterFinding:
    """Which adjuster surprised, how, and what share of the foretold change came."""

    which: Which
    surprise: Surprise
    share: float


def surprise(history: History, rangefinder: Rangefinder) -> AdjusterFinding | None:
    """Whether the last turn went against, or fell far short of, what was foretold.

    An eccentric acts as the sine of its turn: past its dead point it reverses, near it it
    hardly acts. Limits: told only where the change foretold is well above the noise; laid to
    the adjuster that was to do most.
    """
    *_, (turns, change) = _changes(history) or [(np.zeros(2), np.zeros(2))]
    before = replace(history, turned=history.turned[:-1])
    learned = learn(before, rangefinder)
    foretold = learned.table @ turns
    size = float(np.linalg.norm(foretold))
    most = int(np.argmax(np.linalg.norm(learned.table * turns, axis=0)))
    if not size or not _was_seen(before, most):
        return None
    share = float(change @ foretold) / size**2
    doubt = math.sqrt(2 * history.noise**2 + float(turns @ learned.variance @ turns)) / size
    if share > 0.5 or (1 - share) < _SURPRISING * doubt:
        return None
    kind = Surprise.REVERSED if share < 0 else Surprise.FADED
    return AdjusterFinding(ORDER[most], kind, share)


def _was_seen(history: History, column: int) -> bool:
    """Whether a turn of this adjuster alone changed something that the eye could see."""
    return any(
        turns[column]
        and not turns[1 - column]
        and np.linalg.norm(change) > _SEEN * math.sqrt(2) * history.noise
        for turns, change in _changes(history)
    )


@dataclass(frozen=True)
class Done:
    """Both readings are within the goal."""

    state: EndErrors


@dataclass(frozen=True)
class Trial:
    """One adjuster is to be turned by an amount (turns, plus clockwise) and both read again.

    `again` is true where its last turn changed nothing that the eye could see.
    """

    which: Which
    turns: float
    again: bool = False


@dataclass(frozen=True)
class AdjusterStep:
    """Turns of both adjusters (plus clockwise, multiples of 1/`parts`), and what they foretell."""

    zero: float
    gain: float
    parts: int
    foretold: EndErrors
    finding: AdjusterFinding | None = None
    is_limited: bool = False


@dataclass(frozen=True)
class Stuck:
    """Nothing can be foretold, and why: `which` does not act, or both act alike (None)."""

    which: Which | None


Advice: TypeAlias = Done | Trial | AdjusterStep | Stuck


def advise(history: History, goal: float, rangefinder: Rangefinder) -> Advice:
    """What to turn next, by how much and which way round.

    `goal` is the error (mm at the film) that both readings are to come within.
    Errors: OutOfRange for a goal that is not more than zero.
    """
    if not goal > 0:
        raise OutOfRange(
            f"The error to come within must be more than 0 mm: got {goal:g} mm; "
            "state the tolerance.",
            quantity="goal",
            value=goal,
            limit=0.0,
        )
    state = history.turned[-1].after if history.turned else history.start
    if state.within(goal):
        return Done(state)
    learned = learn(history, rangefinder)
    for column, which in enumerate(ORDER):
        if not _was_seen(history, column):
            alone = _by_the_other_alone(history, learned, 1 - column, goal, rangefinder)
            return alone or _trial(history, which, rangefinder)
    if _alike(learned.table):
        longer = _trial(history, Which.GAIN, rangefinder)
        return Stuck(None) if isinstance(longer, Stuck) else longer
    return _step(history, learned, goal, rangefinder)


def adjuster_of(rangefinder: Rangefinder, which: Which) -> Adjuster:
    """The one of the rangefinder's two adjusters that is meant."""
    return rangefinder.zero_adjuster if which is Which.ZERO else rangefinder.gain_adjuster


def _trial(history: History, which: Which, rangefinder: Rangefinder) -> Advice:
    """The first trial of an adjuster, or a longer one where the eye saw no change."""
    column = ORDER.index(which)
    tried = [float(t.turns[column]) for t in history.turned if t.turns[column]]
    is_eccentric = adjuster_of(rangefinder, which).is_eccentric
    if not tried:
        state = history.turned[-1].after if history.turned else history.start
        first = _FIRST_TRIAL / 2 if is_eccentric else _FIRST_TRIAL
        return Trial(which, first * _helpful_way(rangefinder, which, state))
    # A full turn of an eccentric changes nothing, so it leaves its dead point by quarters.
    longer = min(2 * abs(tried[-1]), _ECCENTRIC_STRIDE) if is_eccentric else 2 * abs(tried[-1])
    if longer > _LONGEST_TRIAL or len(tried) > _MOST_TRIALS:
        return Stuck(which)
    return Trial(which, math.copysign(longer, tried[-1]), again=True)


def _helpful_way(rangefinder: Rangefinder, which: Which, state: EndErrors) -> int:
    """Clockwise unless the adjuster is known to bring the lens the right way the other way."""
    brings_in = adjuster_of(rangefinder, which).brings_in
    if brings_in is None:
        return 1
    error = state.far if which is Which.ZERO else state.near
    return 1 if (brings_in is Turn.CLOCKWISE) == (error > 0) else -1


def _alike(table: Array) -> bool:
    """Whether both adjusters move far and near in the same proportion."""
    sizes = float(np.prod(np.linalg.norm(table, axis=0)))
    return abs(float(np.linalg.det(table))) < _ALIKE * sizes


def _by_the_other_alone(
    history: History, learned: LearnedTurns, column: int, goal: float, rangefinder: Rangefinder
) -> AdjusterStep | None:
    """A turn of the one adjuster that is known, if it alone brings far and near within the goal.

    An adjuster that need not be touched is best left locked.
    """
    if not _was_seen(history, column):
        return None
    effect, errors = learned.table[:, column], learned.errors
    parts = _parts(float(np.abs(effect).max()), goal)
    turn = round(-float(effect @ errors) / float(effect @ effect) * parts) / parts
    far, near = errors + effect * turn
    if not turn or abs(turn) > _longest(history, rangefinder, column):
        return None
    if max(abs(far), abs(near)) > goal * _SAFELY:
        return None
    turns = (turn, 0.0) if ORDER[column] is Which.ZERO else (0.0, turn)
    foretold = EndErrors(float(far), float(near))
    return AdjusterStep(*turns, parts, foretold, surprise(history, rangefinder))


def _longest(history: History, rangefinder: Rangefinder, column: int) -> float:
    """How far one turn may go beyond those that were tried."""
    if adjuster_of(rangefinder, ORDER[column]).is_eccentric:
        return _ECCENTRIC_STRIDE
    return _STRIDE * max(abs(float(t.turns[column])) for t in history.turned)


def _step(
    history: History, learned: LearnedTurns, goal: float, rangefinder: Rangefinder
) -> AdjusterStep:
    # The turns that leave least on average over all that the table may truly be.
    table, errors = learned.table, learned.errors
    wanted = -np.linalg.solve(table.T @ table + 2 * learned.variance, table.T @ errors)
    longest = np.array([_longest(history, rangefinder, column) for column in range(len(ORDER))])
    limited = np.clip(wanted, -longest, longest)
    parts = [_parts(float(np.abs(column).max()), goal) for column in table.T]
    turns = _worthwhile(np.round(limited * parts) / parts, table, goal)
    far, near = errors + table @ turns
    return AdjusterStep(
        float(turns[0]),
        float(turns[1]),
        max(parts),
        EndErrors(float(far), float(near)),
        surprise(history, rangefinder),
        bool(np.any(limited != wanted)),
    )


def _parts(rate: float, goal: float) -> int:
    """Eighths of a turn where they are fine enough, else sixteenths and so on."""
    parts = 8
    while rate / parts > goal / 2 and parts < _FINEST:
        parts *= 2
    return parts


def _worthwhile(turns: Array, table: Array, goal: float) -> Array:
    """The turns without one that would change little, if the other changes more."""
    is_little = np.abs(table * turns).max(axis=0) < goal * _LITTLE
    return turns if is_little.all() else np.where(is_little, 0.0, turns)
