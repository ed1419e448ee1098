"""The infinity stops of a bed or strut camera, moved both alike."""

from optics.camera.cautions import SPRINGS
from optics.measure.uncertainty import within
from optics.moves.record import Case, Control, Move, Outcome, Picture
from optics.moves.setting import ALONG, FEELER, on_bed
from optics.moves.stop import STOP
from optics.units import format_length

# How nearly a plan counts on a pair of stops to be set (common practice, no source). At the
# practice bench each slides against a feeler, ten times as nearly.
_SETTING_LIMIT = 0.05
_STOPS = Control(
    "move the infinity stops",
    "moved the infinity stops",
    "mm",
    ALONG,
    {"stop": 1.0},
    FEELER / 2,
    cautions=(SPRINGS,),
)


def _make(case: Case) -> Outcome:
    change = round(case.change, 2)
    if not change:
        return case.refused("The stops stand right: leave them alone.")
    way = ALONG[0] if change > 0 else ALONG[1]
    said = format_length(abs(change))
    return case.made(
        f"Move both infinity stops {said} {way}, the same on each side.",
        change,
        within(change, _SETTING_LIMIT, "setting of the stops"),
        amounts=(("Move", f"{said} {way}"),),
        figures={"moved": change},
        notes=("Check afterwards that the standard is still square to the film.",),
    )


BED_STOPS = Move(
    name="stops",
    title="Infinity stops",
    order=50,
    puts_right=("stop",),
    tool=STOP.tool,
    controls=(_STOPS,),
    make=_make,
    serves=on_bed,
    smallest=FEELER,
    cautions=_STOPS.cautions,
    as_remedy=5,
    picture=Picture.STOP,
)
