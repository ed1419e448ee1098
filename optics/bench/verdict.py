"""Whether a figure is inside its tolerance, allowing for how well it is known."""

from enum import StrEnum

from optics.bench.uncertainty import Estimate


class Verdict(StrEnum):
    """The decision with a guard band of U at 95 % (ILAC-G8: w = U)."""

    INSIDE = "inside"
    OUTSIDE = "outside"
    UNSURE = "cannot tell"

    @property
    def words(self) -> str:
        """As a sentence ends with it."""
        return {
            Verdict.INSIDE: "inside tolerance",
            Verdict.OUTSIDE: "outside tolerance",
            Verdict.UNSURE: "too close to the tolerance to tell",
        }[self]


def judge(estimate: Estimate, tolerance: float) -> Verdict:
    """Inside or outside only if the whole of value ± U is; otherwise it cannot be told."""
    size = abs(estimate.value)
    if size + estimate.expanded <= tolerance:
        return Verdict.INSIDE
    if size - estimate.expanded > tolerance:
        return Verdict.OUTSIDE
    return Verdict.UNSURE
