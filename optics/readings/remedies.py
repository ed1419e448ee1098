"""What can be done about a single reading's focus error: each move that may answer it.

A remedy says what to do, which way round or which leaves, what error it leaves and how well
that is known. Every amount is rounded to what a hand can set, and the residual is that of
the rounded amount. Moves that do not apply say why.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict, judge
from optics.moves import AtHand, Made, Move, Refused, remedies


@dataclass(frozen=True, kw_only=True)
class Remedy(Made):
    """A move that answers a focus error (mm at the film), and what it leaves of it."""

    camera: Camera
    error: Estimate

    @property
    def change(self) -> Estimate:
        """What it adds to the error (mm at the film)."""
        (change,) = self.changes.values()
        return change

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


Offer: TypeAlias = Remedy | Refused


def offers(camera: Camera, error: Estimate, at_hand: AtHand) -> tuple[Offer, ...]:
    """All remedies for this camera side by side, the most usual first."""
    return tuple(offer(move, camera, error, at_hand) for move in remedies(camera))


def offer(move: Move, camera: Camera, error: Estimate, at_hand: AtHand) -> Offer:
    """What one move can do about an error; it moves one fault, by as much the other way."""
    (fault,) = move.puts_right
    made = move.made(camera, at_hand, {fault: -error.value})
    if isinstance(made, Refused):
        return made
    return Remedy(**vars(made), camera=camera, error=error)
