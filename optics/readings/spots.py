"""The kinds of place at which a reading is taken."""

from enum import StrEnum


class Spot(StrEnum):
    """Where a reading is taken: it decides which faults can show in it."""

    GAUGE = "at the gauge"
    STOP = "at the stop"
    INFINITY = "at the ∞ mark"
    NEAR = "at a near mark"
    COINCIDENCE = "with the rangefinder"
    GATE = "at the film gate"
