"""The rangefinder's height adjuster, which lifts its moving image; no focus hangs on it."""

import math
from typing import Final

from optics.moves.record import Move
from optics.moves.screws import by_turns
from optics.units import format_angle

HEIGHT_PER_TURN: Final = math.radians(8 / 60)
"""What a whole turn lifts (rad at the eye): 8′ (invented)."""
_LIFTS = f"One turn clockwise lifts the moving image by {format_angle(HEIGHT_PER_TURN)}."
HEIGHT_SCREW = Move(
    name="height_screw",
    title="Rangefinder, height screw",
    order=80,
    puts_right=(),
    tool="screwdriver for the rangefinder's height screw",
    controls=(by_turns("height screw", does=_LIFTS, height=HEIGHT_PER_TURN),),
    # Height is set by eye until the images lie level: there is no amount to plan.
    make=None,
    needs_finder=True,
)
