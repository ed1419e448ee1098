"""What to do about a camera, in the order of the bench, and what is promised when it is done."""

from optics.finding.plan.planning import Alternative, Plan, PlanStep, make_plan
from optics.finding.plan.state import Expected, PlanOutlook

__all__ = [
    "Alternative",
    "Expected",
    "Plan",
    "PlanOutlook",
    "PlanStep",
    "make_plan",
]
