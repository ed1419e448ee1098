"""The pointer of a bed's scale: moved on the standard that it rides on."""

from optics.moves.record import Control, Move
from optics.moves.ring import RING
from optics.moves.setting import ALONG, FEELER, Slide, on_bed

# Shifted towards the film, the pointer meets a mark only when the standard stands farther out:
# plus is towards the film.
_POINTER = Control(
    "move the scale's pointer",
    "moved the scale's pointer",
    "mm",
    ALONG[::-1],
    {"ring": 1.0},
    FEELER / 2,
)
POINTER = Move(
    name="pointer",
    title="Bed scale",
    order=60,
    puts_right=("ring",),
    tool=RING.tool,
    controls=(_POINTER,),
    make=Slide(
        "Move the pointer of the bed's scale on the standard {said} {way}.",
        "The bed's scale is less than 0.01 mm off: leave it alone.",
        "setting of the scale",
    ),
    serves=on_bed,
    smallest=FEELER,
)
