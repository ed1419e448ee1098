"""What to do about a camera, in the order of the bench, and what is promised when it is done."""

from optics.finding.plan.adjustment import Adjustment, Blocked
from optics.finding.plan.at_hand import AtHand, Screw
from optics.finding.plan.order import BenchStep
from optics.finding.plan.planning import Alternative, Plan, Step, make_plan
from optics.finding.plan.state import Expected, State

__all__ = [
    "Adjustment",
    "Alternative",
    "AtHand",
    "BenchStep",
    "Blocked",
    "Expected",
    "Plan",
    "Screw",
    "State",
    "Step",
    "make_plan",
]
