"""Whether a figure passes, by which rule, and how likely that is to be right."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from optics.measure.uncertainty import Estimate, conformity
from optics.measure.verdict import Guard, Verdict, judge_read, worst_of
from optics.units import format_length


@dataclass(frozen=True)
class Decision:
    """A figure held against its tolerance (mm) with a guard band.

    `probability` is that of the true figure lying within the tolerance; None where no
    uncertainty was stated.
    """

    allowed: float
    guard: Guard
    width: float
    verdict: Verdict
    probability: float | None


def decide(error: Estimate, allowed: float, guard: Guard) -> Decision:
    """Hold an error against the allowed one, both in mm (ILAC-G8:09/2019; JCGM 106:2012)."""
    return Decision(
        allowed=allowed,
        guard=guard,
        width=guard.width(error),
        verdict=judge_read(error, allowed, guard),
        probability=conformity(error, allowed) if error.standard else None,
    )


def overall(decisions: Iterable[Decision]) -> Verdict | None:
    """One verdict for several figures: the worst of them; None for none."""
    verdicts = [decision.verdict for decision in decisions]
    return worst_of(verdicts) if verdicts else None


def said_rule(guard: Guard) -> str:
    """The decision rule in words."""
    if guard is Guard.NONE:
        return (
            "Decision rule: no guard band (w = 0, ILAC-G8:09/2019). The figure alone is held "
            "against the tolerance; close to its edge such a decision is wrong almost every "
            "other time."
        )
    return (
        "Decision rule: guard band w = U (ILAC-G8:09/2019). A figure is inside only if the "
        "whole of it ± U at 95 % lies within the tolerance, outside only if the whole lies "
        "beyond it; in between it cannot be told."
    )


def said_decision(decision: Decision) -> str:
    """How the figure stands to its tolerance, by which guard band."""
    band = "no guard band"
    if decision.guard is Guard.EXPANDED:
        band = f"guard band w = U {_said_width(decision)}"
    allowed = format_length(decision.allowed, places=3)
    return f"{decision.verdict.words.capitalize()}: allowed ± {allowed}, {band}."


def _said_width(decision: Decision) -> str:
    if decision.probability is None:
        return "is not stated"
    width = format_length(decision.width, places=3)
    return "less than 0.001 mm" if width == "0.000 mm" else f"= {width}"


def said_probability(decision: Decision) -> str:
    """How likely the lens really is within the tolerance, in words."""
    within = f"within ± {format_length(decision.allowed, places=3)}"
    if decision.probability is None:
        return f"How likely it is {within} is not known: no uncertainty was stated."
    return (
        f"On this reading alone the chance that it is really {within} is "
        f"{said_chance(decision.probability)} (JCGM 106:2012)."
    )


def said_chance(probability: float) -> str:
    """A probability in per cent, with as many digits as its nearness to 0 or 1 calls for."""
    if probability > 0.999:
        return "more than 99.9 %"
    if probability < 0.001:
        return "less than 0.1 %"
    is_near_an_end = not 0.01 <= probability <= 0.99
    # Rounded away from certainty: 99.97 % must not be said as 100 %.
    per_cent = 100 * probability
    if is_near_an_end:
        return f"{math.floor(10 * per_cent) / 10:g} %"
    return f"about {per_cent:.0f} %"
