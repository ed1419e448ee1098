"""All that was read of the workshop's cameras, to be weighed together; every figure is invented.

A slipped ring and a rangefinder set too far out; two causes that look alike; a standard that
leans and a stop out of place.
"""

from optics.camera.camera import Turn
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.register import RegisterPart
from optics.readings.kinds.rotation import RotationPart
from optics.records.job import JobDocument
from optics.records.lantern_street import CORVANE, OSTRIN, RANGEFINDERS, TARNBROOK

_OUT = Turn.COUNTER_CLOCKWISE
_CORNERS = {
    "top left": "104.33",
    "top right": "104.29",
    "bottom left": "104.11",
    "bottom right": "104.07",
}

WHOLE: dict[str, JobDocument] = {
    OSTRIN.name: JobDocument(
        readings=(
            RegisterPart(measured="28.803; 28.804; 28.802", nominal="28.8", limit="0.015"),
            RotationPart(turned="0; −0.25; 0; 0.25", sense=_OUT, limit="0.25", where="at the stop"),
            RotationPart(turned="2.75; 2.5; 2.5; 2.75", sense=_OUT, limit="0.25"),
            MarkPart(mark="1.5", sharp_at="1.628; 1.626; 1.620; 1.625 m", limit="2 mm"),
        ),
        rangefinder=RANGEFINDERS[OSTRIN.name].model_copy(
            update={"pairs": "∞ = 11.4; 10.9; 11.1; 1 m = 0.932; 0.929; 0.933", "tape": "2 mm"}
        ),
    ),
    CORVANE.name: JobDocument(
        readings=(
            RotationPart(turned="4; 4; 3.25; 3.75", sense=_OUT, limit="0.25"),
            MarkPart(mark="2", sharp_at="2.138; 2.140; 2.115; 2.131 m", limit="2 mm"),
        ),
    ),
    TARNBROOK.name: JobDocument(
        readings=(
            RegisterPart(measured="104.198; 104.206; 104.202", nominal="104.2", limit="0.015"),
            *(
                RegisterPart(place=place, measured=depth, nominal="104.2", limit="0.015")
                for place, depth in _CORNERS.items()
            ),
            MarkPart(sharp_at="67; 69; 70; 69 m", limit="0.2 m", where="at the stop"),
            MarkPart(mark="3", sharp_at="3.01; 2.995; 3.005; 3.02 m", limit="2 mm"),
        ),
    ),
}
"""What was read of each camera, by its name."""
