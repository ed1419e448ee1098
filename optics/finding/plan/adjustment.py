"""One thing done to the camera: its words, and what it does to the faults."""

from dataclasses import dataclass, field

from optics.camera.cautions import Caution
from optics.finding.diagnosis.faults import Cause
from optics.measure.uncertainty import Estimate
from optics.units import Leaves


@dataclass(frozen=True)
class Adjustment:
    """A rounded amount that a hand can set; `changes` is what it adds to each fault it touches.

    `leaves` are those it takes from the drawer, so that no later step counts on them.
    """

    cause: Cause
    title: str
    instruction: str
    changes: dict[str, Estimate]
    amounts: tuple[tuple[str, str], ...]
    tool: str
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    figures: dict[str, float | str] = field(default_factory=dict)
    leaves: Leaves = ()


@dataclass(frozen=True)
class Blocked:
    """An adjustment that is wanted and cannot be made, and why."""

    cause: Cause
    reason: str
