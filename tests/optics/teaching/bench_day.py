"""Cameras and readings of known faults, for the tests of diagnosis, plan and practice."""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from optics.camera.camera import Camera
from optics.camera.where_taken import AT_STOP, ON_FILM, Taken
from optics.finding.diagnosis import Faults, predict
from optics.measure.uncertainty import Estimate, Source, exact
from optics.moves import AdjustingScrew, AtHand
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.gate import GateReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.kinds.ruler import RulerReading
from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK, WORKSHOP
from optics.records.to_bench import camera_of, workshop_of

HELICOID, CELL, BED = (camera_of(part) for part in (OSTRIN, CORVANE, TARNBROOK))
AT_HAND = AtHand(
    workshop_of(WORKSHOP.model_copy(update={"fitted": "0.2; 0.1 × 2"})),
    AdjustingScrew(0.2),
    AdjustingScrew(0.02),
)
FAR, COLLIMATOR = exact(math.inf), exact(400.0)

GAUGE = RegisterReading(exact(60.0), exact(60.0))
# So far before a lens of 47 mm the focal points of both meet.
TOGETHER = exact(447.0)
STOP = CollimatorReading(exact(0.0), COLLIMATOR, AT_STOP, TOGETHER)
INFINITY = CollimatorReading(exact(0.0), COLLIMATOR, to_lens=TOGETHER)
INFINITY_FILM = CollimatorReading(exact(0.0), COLLIMATOR, ON_FILM, TOGETHER)
MIDDLE = MarkReading(exact(4000.0), exact(4000.0))
NEAR = MarkReading(exact(1500.0), exact(1500.0))
TURNED = RotationReading(exact(0.0), FAR, FAR)
RULER = RulerReading(exact(1500.0), exact(0.0), exact(0.8), exact(1500.0))
FAR_PAIR = CoincidenceReading(exact(12000.0), exact(12000.0))
NEAR_PAIR = CoincidenceReading(exact(1200.0), exact(1200.0))
GATE = GateReading(exact(0.0))
CORNERS = tuple(
    replace(GAUGE, taken=Taken(place=(16.0 * x, 11.0 * y))) for x in (1, -1) for y in (1, -1)
)
FULL_ROUND = (
    GAUGE,
    *CORNERS,
    STOP,
    INFINITY,
    INFINITY_FILM,
    MIDDLE,
    NEAR,
    RULER,
    FAR_PAIR,
    NEAR_PAIR,
)


def showing(reading: Any, figure: Estimate) -> Any:
    """Give the reading with another measured figure."""
    return reading.showing(figure)


def shown(camera: Camera, faults: Faults, reading: Any, limit: float = 0.006) -> Any:
    """Give a reading without scatter, its standard uncertainty so many mm at the film."""
    figure = predict(camera, faults, reading)
    unit = Source("unit")
    probe = showing(reading, Estimate(figure, {unit: 1.0}))
    per_unit = probe.steps(camera)[-1].result.parts[unit]
    return showing(reading, Estimate(figure, {Source(reading.kind): limit / abs(per_unit)}))


def all_shown(
    camera: Camera, faults: Faults, readings: Sequence[Any], limit: float = 0.006
) -> tuple[Any, ...]:
    """Give all readings without scatter."""
    return tuple(shown(camera, faults, reading, limit) for reading in readings)
