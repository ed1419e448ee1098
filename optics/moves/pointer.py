"""The pointer of a bed's scale: moved on the standard that it rides on."""

import math
from collections.abc import Iterator

from optics.camera.camera import Bed, Camera
from optics.measure.uncertainty import within
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Made, Move, Outcome, Refused, Wanted
from optics.moves.ring import RING_TOOL
from optics.moves.setting import ALONG, FEELER, feeler, in_feelers
from optics.units import format_length


def on_bed(camera: Camera) -> bool:
    """Whether the lens slides on a bed or struts."""
    return isinstance(camera.focusing, Bed)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera, at_hand
    # Shifted towards the film, the pointer meets a mark only when the standard stands farther
    # out: plus is towards the film.
    yield Control(
        "move the scale's pointer",
        "moved the scale's pointer",
        "mm",
        ALONG[::-1],
        {"ring": 1.0},
        FEELER / 2,
    )


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    amount = in_feelers(wanted["ring"])
    if not amount:
        return Refused(POINTER, "The bed's scale is less than 0.01 mm off: leave it alone.")
    (control,) = _controls(camera, at_hand)
    change = math.copysign(amount, wanted["ring"])
    way = control.ways[0] if change > 0 else control.ways[1]
    said = format_length(amount)
    return Made(
        move=POINTER,
        instruction=f"Move the pointer of the bed's scale on the standard {said} {way}.",
        settings=((control, round(change, 2)),),
        changes={"ring": within(change, FEELER / 2, "setting of the scale")},
        amounts=(("Move", f"{said} {way}"),),
    )


POINTER = Move(
    name="pointer",
    title="Bed scale",
    order=60,
    puts_right=("ring",),
    tool=RING_TOOL,
    controls=_controls,
    make=_make,
    serves=on_bed,
    smallest=feeler,
)
