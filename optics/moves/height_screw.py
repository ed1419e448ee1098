"""The rangefinder's height adjuster, which lifts its moving image; no focus hangs on it."""

import math
from collections.abc import Iterator
from typing import Final

from optics.camera.camera import Camera, Turn
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Move
from optics.moves.screws import by_turns
from optics.units import format_angle

HEIGHT_PER_TURN: Final = math.radians(8 / 60)
"""What a whole turn lifts (rad at the eye): 8′ (invented)."""


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera, at_hand
    lifts = f"One turn {Turn.CLOCKWISE} lifts the moving image by {format_angle(HEIGHT_PER_TURN)}."
    yield by_turns("height screw", does=lifts, height=HEIGHT_PER_TURN)


HEIGHT_SCREW = Move(
    name="height_screw",
    title="Rangefinder, height screw",
    order=80,
    puts_right=(),
    tool="screwdriver for the rangefinder's height screw",
    controls=_controls,
    # Height is set by eye until the images lie level: there is no amount to plan.
    make=None,
    needs_finder=True,
)
