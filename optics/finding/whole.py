"""The answer to all readings of a camera together."""

from dataclasses import dataclass

from optics.finding.diagnosis import Diagnosis
from optics.finding.plan import Plan


@dataclass(frozen=True)
class WholeCamera:
    """The diagnosis of all readings, the plan, and what of the job was not weighed, and why."""

    diagnosis: Diagnosis
    plan: Plan
    left_out: tuple[str, ...]
