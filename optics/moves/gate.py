"""The film gate put right: film brought to where the ground glass is."""

import math
from collections.abc import Iterator

from optics.camera.camera import Camera
from optics.camera.cautions import SPRINGS
from optics.measure.uncertainty import within
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Made, Move, Outcome, Refused, Wanted
from optics.moves.setting import FEELER, feeler, in_feelers
from optics.units import format_length

_CAUTIONS = (SPRINGS,)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera, at_hand
    yield Control(
        "move the film",
        "moved the film",
        "mm",
        ("nearer the lens", "farther from the lens"),
        {"gate": -1.0},
        FEELER / 2,
        cautions=_CAUTIONS,
    )


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    amount = in_feelers(wanted["gate"])
    if not amount:
        return Refused(GATE, "The film lies within 0.01 mm of its place: leave it alone.")
    (control,) = _controls(camera, at_hand)
    change = math.copysign(amount, wanted["gate"])
    way = control.ways[0] if change < 0 else control.ways[1]
    said = format_length(amount)
    return Made(
        move=GATE,
        instruction=f"Bring the film {said} {way} by its rails or pressure plate.",
        settings=((control, -round(change, 2)),),
        changes={"gate": within(change, FEELER / 2, "setting of the gate")},
        amounts=(("Move", f"{said} {way}"),),
    )


GATE = Move(
    name="gate",
    title="Film gate",
    order=10,
    puts_right=("gate",),
    tool="depth gauge and feelers",
    controls=_controls,
    make=_make,
    smallest=feeler,
    cautions=_CAUTIONS,
)
