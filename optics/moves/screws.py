"""The rangefinder's screws and eccentrics: counted in turns, as one looks at the head."""

from dataclasses import dataclass
from typing import Literal

from optics.camera.cautions import SUN
from optics.measure.uncertainty import within
from optics.moves.at_hand import AdjustingScrew
from optics.moves.record import Case, Control, Outcome
from optics.moves.setting import FEELER
from optics.moves.turning import WAYS

# A screw is set to a sixteenth of a turn, and missed by half of that (common practice, no
# source); a plan asks for eighths.
_MISSED = 1 / 32
_PARTS = 8


def by_turns(
    screw: str, effects: dict[str, float] | None = None, does: str = "", height: float = 0.0
) -> Control:
    """A screw of the rangefinder as it is turned: `effects` of one turn clockwise."""
    return Control(
        f"turn the {screw}",
        f"turned the {screw}",
        "turns",
        WAYS,
        effects or {},
        _MISSED,
        does,
        height=height,
        cautions=(SUN,),
    )


@dataclass(frozen=True)
class Adjusting:
    """How a screw of the rangefinder that may be at hand is turned to put its fault right.

    `name` is what it sets.
    """

    name: Literal["infinity", "near"]

    def at(self, case: Case) -> AdjustingScrew | None:
        """The screw; None where nobody knows what a turn of it does."""
        at_hand = case.at_hand
        return at_hand.zero_screw if self.name == "infinity" else at_hand.gain_screw

    def smallest(self, case: Case) -> float:
        """The smallest change by a screw; a feeler's where it is not known what it does."""
        screw = self.at(case)
        return FEELER if screw is None else abs(screw.per_turn) / _PARTS

    def make(self, case: Case) -> Outcome:
        """A turn of the screw, in eighths."""
        name, screw = self.name, self.at(case)
        if screw is None:
            return case.refused(
                f"How much a turn of the rangefinder's {name} screw does is not known: give it a "
                "quarter turn, read the rangefinder again, and the amount follows."
            )
        eighths = round(_PARTS * case.change / screw.per_turn)
        if not eighths:
            return case.refused(
                f"The {name} screw is within half of an eighth of a turn: leave it."
            )
        (control,) = case.controls
        turns, change = eighths / _PARTS, eighths * screw.per_turn / _PARTS
        return case.made(
            f"Turn the rangefinder's {name} screw {control.said(turns)}.",
            turns,
            within(change, abs(screw.per_turn) * _MISSED, f"setting of {name} screw"),
            amounts=(("Turn", control.said(turns)),),
        )
