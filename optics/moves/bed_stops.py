"""The infinity stops of a bed or strut camera, moved both alike."""

from collections.abc import Iterator

from optics.camera.camera import Camera
from optics.camera.cautions import SPRINGS
from optics.measure.uncertainty import within
from optics.moves.at_hand import AtHand
from optics.moves.pointer import on_bed
from optics.moves.record import Control, Made, Move, Outcome, Refused, Wanted
from optics.moves.setting import ALONG, FEELER, feeler
from optics.moves.stop import STOP_TOOL
from optics.units import format_length

_CAUTIONS = (SPRINGS,)
# How nearly a plan counts on a pair of stops to be set (common practice, no source). At the
# practice bench each slides against a feeler, ten times as nearly.
_SETTING_LIMIT = 0.05


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera, at_hand
    yield Control(
        "move the infinity stops",
        "moved the infinity stops",
        "mm",
        ALONG,
        {"stop": 1.0},
        FEELER / 2,
        cautions=_CAUTIONS,
    )


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    change = round(wanted["stop"], 2)
    if not change:
        return Refused(BED_STOPS, "The stops stand right: leave them alone.")
    (control,) = _controls(camera, at_hand)
    way = control.ways[0] if change > 0 else control.ways[1]
    said = format_length(abs(change))
    return Made(
        move=BED_STOPS,
        instruction=f"Move both infinity stops {said} {way}, the same on each side.",
        settings=((control, change),),
        changes={"stop": within(change, _SETTING_LIMIT, "setting of the stops")},
        amounts=(("Move", f"{said} {way}"),),
        figures={"moved": change},
        notes=("Check afterwards that the standard is still square to the film.",),
    )


BED_STOPS = Move(
    name="stops",
    title="Infinity stops",
    order=50,
    puts_right=("stop",),
    tool=STOP_TOOL,
    controls=_controls,
    make=_make,
    serves=on_bed,
    smallest=feeler,
    cautions=_CAUTIONS,
    as_remedy=5,
)
