"""What the bench has at hand: shim leaves, the rangefinder's screws, the standard's screws."""

import math
from collections import Counter
from dataclasses import dataclass, field, replace

from optics.camera.shims import DIGITS
from optics.errors import OutOfRange
from optics.units import Leaves


@dataclass(frozen=True)
class Workshop:
    """Shim leaves at hand: in the drawer, and now under the lens seat (None: not known)."""

    drawer: Leaves = ()
    fitted: Leaves | None = None


@dataclass(frozen=True)
class AdjustingScrew:
    """An adjusting screw: what one clockwise turn adds to its fault (mm at the film, or gain)."""

    per_turn: float

    def __post_init__(self) -> None:
        """Refuse a screw that does nothing."""
        if not self.per_turn or not math.isfinite(self.per_turn):
            raise OutOfRange(
                f"A screw's effect must be a number other than 0: got {self.per_turn:g} a turn; "
                "give it a trial turn and enter the change.",
                quantity="per_turn",
                value=self.per_turn,
                limit=0.0,
            )


@dataclass(frozen=True)
class AtHand:
    """Everything a move may call on; None where it is not known.

    `standard_screws` are how far (mm) the standard's four screws stand from its middle, to
    the side and up.
    """

    workshop: Workshop = field(default_factory=Workshop)
    zero_screw: AdjustingScrew | None = None
    gain_screw: AdjustingScrew | None = None
    standard_screws: tuple[float, float] = (25.0, 20.0)

    def less(self, used: Leaves) -> "AtHand":
        """The same with these leaves gone from the drawer."""
        rest: Counter[float] = Counter()
        for leaves, sign in ((self.workshop.drawer, 1), (used, -1)):
            for thickness, count in leaves:
                rest[round(thickness, DIGITS)] += sign * count
        drawer = tuple((+rest).items())
        return replace(self, workshop=replace(self.workshop, drawer=drawer))
