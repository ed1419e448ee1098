"""What a remedy is, and what is said when one does not apply."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.camera.cautions import Caution
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict, judge

# A quarter of the tolerance: the usual four to one between a part and what it must hold
# (common practice, no source).
_NEAR_ENOUGH = 0.25


def near_enough(camera: Camera) -> float:
    """How far (mm at the film) a rounded amount may leave the lens from where it should be."""
    return camera.allowed_error * _NEAR_ENOUGH


@dataclass(frozen=True)
class Remedy:
    """One thing that can be done about a focus error.

    `change` is what it adds to the error (mm at the film) for the rounded amount that a hand
    can set; `amounts` are lines for a table as (label, text), and `figures` the same as
    numbers in mm, rad or counts. `only_if` is what must first be seen to hold, in words; empty
    where it can be done at once.
    """

    kind: str
    title: str
    instruction: str
    camera: Camera
    error: Estimate
    change: Estimate
    amounts: tuple[tuple[str, str], ...]
    figures: dict[str, float | str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    only_if: str = ""

    @cached_property
    def residual(self) -> Estimate:
        """The focus error that is left, and how well that is known."""
        return self.error.moved(self.change)

    @cached_property
    def verdict(self) -> Verdict:
        """How the residual stands to the tolerance; no move proves what was not known before."""
        if not self.error.standard:
            return Verdict.NOT_STATED
        return judge(self.residual, self.camera.allowed_error)

    @property
    def within_depth_of_focus(self) -> bool:
        """Whether the residual would go unseen at full aperture, N·c."""
        return abs(self.residual.value) <= self.camera.depth_of_focus


@dataclass(frozen=True)
class NotApplicable:
    """A remedy that cannot serve here, or is not called for, and why."""

    kind: str
    title: str
    reason: str


Offer: TypeAlias = Remedy | NotApplicable
