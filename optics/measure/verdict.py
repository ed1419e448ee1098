"""Whether a figure is inside its tolerance, allowing for how well it is known."""

from collections.abc import Iterable
from enum import StrEnum

from optics.measure.uncertainty import Estimate


class Verdict(StrEnum):
    """The decision; its guard band keeps off the edge of the tolerance."""

    INSIDE = "inside"
    OUTSIDE = "outside"
    UNSURE = "cannot tell"
    NOT_STATED = "not stated"

    @property
    def words(self) -> str:
        """As a sentence ends with it."""
        return {
            Verdict.INSIDE: "inside tolerance",
            Verdict.OUTSIDE: "outside tolerance",
            Verdict.UNSURE: "too close to the tolerance to tell",
            Verdict.NOT_STATED: "no verdict (nothing says how well it is known)",
        }[self]


class Guard(StrEnum):
    """How far inside the tolerance a figure must stay to be accepted (ILAC-G8:09/2019)."""

    NONE = "w = 0"
    EXPANDED = "w = U"

    def width(self, estimate: Estimate) -> float:
        """The guard band w in the estimate's unit: none, or U at 95 %."""
        return estimate.expanded if self is Guard.EXPANDED else 0.0


def judge(estimate: Estimate, tolerance: float, guard: Guard = Guard.EXPANDED) -> Verdict:
    """Inside or outside only if the figure is, by the guard band; else it cannot be told.

    With w = U the whole of value ± U must lie on one side. With w = 0 the figure alone
    decides, and at the very edge that is wrong every other time.
    """
    size, width = abs(estimate.value), guard.width(estimate)
    if size + width <= tolerance:
        return Verdict.INSIDE
    if size - width > tolerance:
        return Verdict.OUTSIDE
    return Verdict.UNSURE


def judge_read(estimate: Estimate, tolerance: float, guard: Guard = Guard.EXPANDED) -> Verdict:
    """As `judge`, for a figure that was read: without an uncertainty nothing is proved either way.

    One try with an instrument of no stated limit looks exact and is not, inside or outside.
    """
    is_bare = guard is Guard.EXPANDED and not estimate.standard
    return Verdict.NOT_STATED if is_bare else judge(estimate, tolerance, guard)


_WORST_FIRST = (Verdict.OUTSIDE, Verdict.UNSURE, Verdict.NOT_STATED, Verdict.INSIDE)


def worst_of(verdicts: Iterable[Verdict]) -> Verdict:
    """One verdict for several things, at least one: the worst of them."""
    return min(verdicts, key=_WORST_FIRST.index)
