"""Where a reading was taken, and of what: readings of one thing must agree."""

import math
from enum import StrEnum
from typing import TypeAlias

from optics.camera.taken import Surface
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    GateReading,
    MarkReading,
    RegisterReading,
    RotationReading,
    RulerReading,
)

Reading: TypeAlias = (
    MarkReading
    | RotationReading
    | RegisterReading
    | CollimatorReading
    | RulerReading
    | CoincidenceReading
    | GateReading
)


class Spot(StrEnum):
    """The kinds of place at which a reading is taken."""

    GAUGE = "at the gauge"
    STOP = "at the stop"
    INFINITY = "at the ∞ mark"
    NEAR = "at a near mark"
    COINCIDENCE = "with the rangefinder"
    GATE = "at the film gate"


def spot_of(reading: Reading) -> Spot:
    """The kind of place at which a reading was taken."""
    if isinstance(reading, RegisterReading):
        return Spot.GAUGE
    if isinstance(reading, CoincidenceReading):
        return Spot.COINCIDENCE
    if isinstance(reading, GateReading):
        return Spot.GATE
    if reading.taken.at_stop:
        return Spot.STOP
    if isinstance(reading, CollimatorReading) or math.isinf(seen_at(reading)):
        return Spot.INFINITY
    return Spot.NEAR


def seen_at(reading: Reading) -> float:
    """The distance from the film of what the reading was taken on, as far as it is stated."""
    if isinstance(reading, RotationReading | CoincidenceReading):
        return reading.target.value
    if isinstance(reading, MarkReading | RulerReading) and not reading.taken.at_stop:
        return reading.mark.value
    return math.inf


def thing_of(reading: Reading) -> tuple[Spot, float, Surface, tuple[float, float]]:
    """What was looked at, by whatever instrument: readings of one thing must agree."""
    taken = reading.taken
    return spot_of(reading), seen_at(reading), taken.surface, taken.place
