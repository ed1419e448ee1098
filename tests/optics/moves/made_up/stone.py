"""A move that no bench has, as its file would stand in the folder of moves."""

from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import within
from optics.moves import Case, Control, Move, Outcome

_STEP = 0.02


_BURR = Control(
    "stone the burr",
    "stoned the burr",
    "mm",
    ("higher", "lower"),
    {"burr": 1.0},
    _STEP / 2,
    "What is stoned off does not come back.",
    cautions=(SOLVENTS,),
)


def _make(case: Case) -> Outcome:
    change = round(case.change / _STEP) * _STEP
    if not change:
        return case.refused("The burr is less than 0.01 mm high: leave it alone.")
    said = _BURR.said(change)
    return case.made(
        f"Stone the burr on the seat {said}.",
        change,
        within(change, _STEP / 2, "oilstone"),
        amounts=(("Stone", said),),
    )


STONE = Move(
    name="burr",
    title="Burr on the seat",
    order=35,
    puts_right=("burr",),
    tool="oilstone",
    controls=(_BURR,),
    make=_make,
    cautions=(SOLVENTS,),
    as_remedy=9,
)
