"""What to do about a camera, in the order of the bench, and what is promised when it is done."""

from optics.bench.plan.adjustment import Adjustment, Blocked
from optics.bench.plan.at_hand import AtHand, Screw
from optics.bench.plan.order import BenchStep
from optics.bench.plan.planning import Alternative, Plan, Step, make_plan
from optics.bench.plan.state import Expected, State

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
