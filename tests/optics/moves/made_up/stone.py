"""A move that no bench has, as its file would stand in the folder of moves."""

from collections.abc import Iterator

from optics.camera.camera import Camera
from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import within
from optics.moves import AtHand, Control, Made, Move, Outcome, Refused, Wanted

_STEP = 0.02


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera, at_hand
    yield Control(
        "stone the burr",
        "stoned the burr",
        "mm",
        ("higher", "lower"),
        {"burr": 1.0},
        _STEP / 2,
        "What is stoned off does not come back.",
        cautions=(SOLVENTS,),
    )


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    (control,) = _controls(camera, at_hand)
    change = round(wanted["burr"] / _STEP) * _STEP
    if not change:
        return Refused(STONE, "The burr is less than 0.01 mm high: leave it alone.")
    return Made(
        move=STONE,
        instruction=f"Stone the burr on the seat {control.said(change)}.",
        settings=((control, change),),
        changes={"burr": within(change, _STEP / 2, "oilstone")},
        amounts=(("Stone", control.said(change)),),
    )


STONE = Move(
    name="burr",
    title="Burr on the seat",
    order=35,
    puts_right=("burr",),
    tool="oilstone",
    controls=_controls,
    make=_make,
    cautions=(SOLVENTS,),
    as_remedy=9,
)
