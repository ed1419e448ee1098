"""The moves: one file each with all that is known of it, found by being in this folder.

What a repairer is told to do, what a plan counts on, what hands do at the practice bench and
how an adjuster's turn is said are all made from these records.

| move | faults it moves |
|---|---|
| film gate | gate |
| leaves under the standard's screws | seat, tilt_x, tilt_y |
| thread entered at another start | start |
| shim leaves under the lens seat | seat |
| infinity stop; both stops of a bed | stop |
| lens turned on its ring; front cell; bed scale's pointer | ring |
| scale made anew | focal |
| rangefinder's height screw | none: its height |
| rangefinder's infinity screw | zero |
| rangefinder's near screw | gain |
"""

from optics.moves.at_hand import AdjustingScrew, AtHand, Workshop
from optics.moves.record import Case, Control, Made, Move, Outcome, Picture, Refused, Wanted
from optics.moves.registry import ALL, curing, find, remedies

find(__name__, list(__path__))

__all__ = [
    "ALL",
    "AdjustingScrew",
    "AtHand",
    "Case",
    "Control",
    "Made",
    "Move",
    "Outcome",
    "Picture",
    "Refused",
    "Wanted",
    "Workshop",
    "curing",
    "remedies",
]
