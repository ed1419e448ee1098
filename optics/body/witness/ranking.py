"""Which start and which mark belong together: every combination against one reading."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from optics.body.witness.thread import Mark, MarksOn, Thread
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, combine, exact, within
from optics.relation import Array
from optics.theory import helicoid

_travel = helicoid.ring_rotation.solve_for(helicoid.travel)
_shift = helicoid.start_shift.solve_for(helicoid.travel)

# Candidates must differ by more than so many standard uncertainties to be told apart.
APART = 4.0
# Beyond so many, no combination explains the reading.
_BEYOND = 3.0
_SURE = 0.95
MOST_MARKS = 12
# How closely the angle of a scribed mark is read (common practice, no source).
ANGLE_LIMIT = math.radians(0.5)


class RankingFinding(StrEnum):
    """What the ranking amounts to."""

    TOLD = "told"
    CANNOT_TELL = "cannot tell"
    NONE_FITS = "none fits"


@dataclass(frozen=True)
class Combination:
    """A mark with a thread start, and the focus error it would have.

    `starts_moved` is counted from the present start, plus when the lens ends farther out;
    `ring_turn` (rad, plus extends) from the present mark. `spread` is the standard deviation
    of the error that this combination would be expected to show if it were the right one.
    """

    mark: Mark
    starts_moved: int
    ring_turn: float
    error: Estimate
    spread: float
    probability: float

    @property
    def is_present(self) -> bool:
        """Whether this is how the barrel is put together now."""
        return not self.starts_moved and not self.ring_turn


@dataclass(frozen=True)
class Ranking:
    """All combinations, the likeliest first, and whether the first can be relied on.

    `allowed` is how far out (± mm) the right combination may be by shims and making.
    """

    thread: Thread
    marks_on: MarksOn
    present: Mark
    combinations: tuple[Combination, ...]
    finding: RankingFinding
    allowed: float

    @property
    def first(self) -> Combination:
        """The likeliest combination."""
        return self.combinations[0]

    @property
    def rivals(self) -> tuple[Combination, ...]:
        """Those too near the first to be told from it."""
        return tuple(c for c in self.combinations[1:] if not _are_apart(self.first, c))

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The candidate marks, in the order of their angles."""
        found = {c.mark: None for c in self.combinations}
        return tuple(sorted(found, key=lambda mark: mark.angle))


def rank(
    thread: Thread,
    marks: Sequence[Mark],
    present: str,
    error: Estimate,
    *,
    spread: float,
    angle_limit: float = ANGLE_LIMIT,
    marks_on: MarksOn = MarksOn.BARREL,
) -> Ranking:
    """Predict the focus error of every mark with every start and rank them.

    `present` names the mark in use when `error` was measured, with the ring at infinity.
    `spread` (± mm at the film, rectangular) is how far out the right combination may be by
    shims and making; the camera's tolerance is a fair figure. `angle_limit` (± rad) is how
    closely each mark's angle was read.
    Probability: prior alike for every combination, likelihood normal about no error with the
    reading's uncertainty and the spread together (Bayes' rule).
    Errors: OutOfRange for no mark, more than 12, two of one name, a present mark that is not
    among them, or neither uncertainty nor spread.
    Limits: assumes that one combination is right; NONE_FITS says that this is in doubt.
    """
    old = _checked(marks, present)
    shifts = [
        (k, _shift.value(starts_moved=float(k), lead=thread.lead, starts=float(thread.starts)))
        for k in thread.starts_to_try()
    ]
    found = []
    for mark, turn in _turns(thread, marks, old, angle_limit, marks_on):
        moved = combine(_travel, rotation=turn, lead=exact(thread.lead))
        at_mark = error.plus(moved, thread.to_film)
        found += [
            (mark, k, turn.value, at_mark.plus(exact(shift), thread.to_film)) for k, shift in shifts
        ]
    widths = np.array([math.hypot(e.standard, spread / math.sqrt(3)) for *_, e in found])
    _check_widths(widths, spread)
    probabilities = _probabilities(np.array([e.value for *_, e in found]), widths)
    combinations = sorted(
        (
            Combination(*one, float(width), float(probability))
            for one, width, probability in zip(found, widths, probabilities, strict=True)
        ),
        key=lambda c: (-c.probability, abs(c.error.value / c.spread)),
    )
    return Ranking(thread, marks_on, old, tuple(combinations), _finding(combinations), spread)


def _turns(
    thread: Thread, marks: Sequence[Mark], old: Mark, limit: float, marks_on: MarksOn
) -> list[tuple[Mark, Estimate]]:
    """Each mark's turn from the present one: both angles were read, each with its own limit."""
    present = within(0.0, limit, f"angle of mark {old.name}")
    turns = []
    for mark in marks:
        turn = exact(thread.ring_turn(marks_on, old, mark))
        if mark != old:
            turn = turn.plus(present).plus(within(0.0, limit, f"angle of mark {mark.name}"))
        turns.append((mark, turn))
    return turns


def _probabilities(errors: Array, widths: Array) -> Array:
    logs = -0.5 * (errors / widths) ** 2 - np.log(widths)
    weights = np.exp(logs - logs.max())
    shares: Array = weights / weights.sum()
    return shares


def _are_apart(one: Combination, other: Combination) -> bool:
    width = max(one.spread, other.spread)
    return abs(one.error.value - other.error.value) > APART * width


def _finding(ordered: Sequence[Combination]) -> RankingFinding:
    first, *others = ordered
    if abs(first.error.value) > _BEYOND * first.spread:
        return RankingFinding.NONE_FITS
    if first.probability < _SURE or not all(_are_apart(first, other) for other in others):
        return RankingFinding.CANNOT_TELL
    return RankingFinding.TOLD


def _checked(marks: Sequence[Mark], present: str) -> Mark:
    """The present mark, where the marks make sense together."""
    if not 1 <= len(marks) <= MOST_MARKS:
        raise OutOfRange(
            f"The candidate marks must number 1 to {MOST_MARKS}: got {len(marks)}; enter each "
            "index or scribed mark that may have been meant.",
            quantity="marks",
            value=len(marks),
            limit=MOST_MARKS,
        )
    by_name = {mark.name: mark for mark in marks}
    if len(by_name) < len(marks):
        raise OutOfRange(
            f"Every mark needs a name of its own: got {', '.join(m.name for m in marks)}; name "
            "them A, B, C.",
            quantity="marks",
        )
    for mark in marks:
        helicoid.rotation.check(mark.angle)
    if present not in by_name:
        raise OutOfRange(
            f"The mark in use must be one of {', '.join(by_name)}: got “{present}”; choose the "
            "one the ring was set to when the reading was taken.",
            quantity="present_mark",
            value=present,
        )
    return by_name[present]


def _check_widths(widths: Array, spread: float) -> None:
    if not 0 <= spread < math.inf or widths.min() <= 0:
        raise OutOfRange(
            f"The spread of the right combination must be more than 0 mm and finite: got "
            f"{spread:g} mm; the camera's tolerance is a fair figure.",
            quantity="spread",
            value=spread,
            limit=0.0,
        )
