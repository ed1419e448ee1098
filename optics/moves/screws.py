"""The rangefinder's screws and eccentrics: counted in turns, as one looks at the head."""

from optics.camera.cautions import SUN
from optics.measure.uncertainty import within
from optics.moves.at_hand import Screw
from optics.moves.record import Control, Made, Move, Outcome, Refused
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


def screwed(move: Move, name: str, screw: Screw | None, control: Control, wanted: float) -> Outcome:
    """A turn of the infinity or the near screw, in eighths."""
    if screw is None:
        return Refused(
            move,
            f"How much a turn of the rangefinder's {name} screw does is not known: give it a "
            "quarter turn, read the rangefinder again, and the amount follows.",
        )
    eighths = round(_PARTS * wanted / screw.per_turn)
    if not eighths:
        return Refused(move, f"The {name} screw is within half of an eighth of a turn: leave it.")
    turns = eighths / _PARTS
    (fault,) = control.effects
    change = eighths * screw.per_turn / _PARTS
    return Made(
        move=move,
        instruction=f"Turn the rangefinder's {name} screw {control.said(turns)}.",
        settings=((control, turns),),
        changes={fault: within(change, abs(screw.per_turn) * _MISSED, f"setting of {name} screw")},
        amounts=(("Turn", control.said(turns)),),
    )


def least_of(screw: Screw | None) -> float:
    """The smallest change by a screw; a feeler's where it is not known what it does."""
    return FEELER if screw is None else abs(screw.per_turn) / _PARTS
