"""Taking readings of a practice camera with instruments and eyes that are none too sure."""

import math
from dataclasses import dataclass, field

import numpy as np

from optics.camera.camera import Camera
from optics.errors import NoAnswer, ShimwrightError
from optics.finding.diagnosis.forward import predict
from optics.measure.uncertainty import Estimate, Source, exact
from optics.readings.readings import Judged, Reading, Scale
from optics.teaching.practice.camera import PracticeCamera

# A distance that scatters by a larger part of itself is not written down.
_COARSEST = 0.15


@dataclass(frozen=True)
class Habits:
    """How readings are taken: instrument limits (± rectangular) and spreads, mm at the film.

    `eye_part` is the blur that a loupe just shows, as a part of the circle of confusion;
    `gauge_limit` that of a dial gauge (JIS B 7503:2011), `gauge_spread` how repeats scatter;
    `slide_limit` is the reticle slide's, in mm at the reticle; `acuity` is in rad.
    """

    eye_part: float = 0.25
    eye_repeats: int = 5
    gauge_limit: float = 0.015
    gauge_spread: float = 0.003
    gauge_repeats: int = 3
    slide_limit: float = 0.1
    angle_limit: float = math.radians(0.25)
    distance_limit: float = 2.0
    acuity: float = math.radians(1 / 60)
    base: float = 41.0

    def limit_of(self, scale: Scale) -> float:
        """How far (mm, or rad) a figure read off a scale may be out either way."""
        match scale:
            case Scale.TAPE:
                return self.distance_limit
            case Scale.SLIDE:
                return self.slide_limit
            case Scale.PROTRACTOR:
                return self.angle_limit

    def eye_limit(self, camera: Camera, reading: Reading) -> float:
        """How far either way (mm at the film) an eye sees no difference.

        A quarter of the depth of focus on the ground glass (0.4 of it at the third level); the
        finder's f²ε/(bM).
        """
        if reading.judged is Judged.BY_RANGEFINDER:
            return camera.lens.focal_length**2 * self.acuity / self.base
        return self.eye_part * camera.depth_of_focus


@dataclass
class PracticeBench:
    """A day at the bench: one set of instruments, whose own errors stay the same all day."""

    habits: Habits
    chance: np.random.Generator
    gauge: Source = field(default_factory=lambda: Source("depth gauge", is_rectangular=True))

    def __post_init__(self) -> None:
        """The gauge's error is drawn once, for all its readings share it."""
        limit = self.habits.gauge_limit
        self.gauge_error = float(self.chance.uniform(-limit, limit))

    def take(self, practice: PracticeCamera, reading: Reading) -> Reading:
        """The reading with its figure measured on the camera, repeats, limits and all.

        Errors: NoAnswer where nothing can be made sharp.
        """
        true, spread, count = self._foretold(practice, reading)
        tries = true + self.chance.normal(0.0, spread, count)
        return reading.showing(self._estimate(reading, tries))

    def reaches(self, practice: PracticeCamera, reading: Reading) -> bool:
        """Whether the camera lets the reading be taken, the noise of it left aside."""
        try:
            true, _, _ = self._foretold(practice, reading)
        except ShimwrightError:
            return False
        return reading.within_reach(true)

    def _foretold(self, practice: PracticeCamera, reading: Reading) -> tuple[float, float, int]:
        """The figure without noise, how single tries scatter about it, and how many there are."""
        true = predict(practice.camera, practice.hidden, reading)
        per_unit = film_per_unit(practice.camera, reading.showing(exact(true)))
        spread, count = self._spread(practice.camera, reading)
        if reading.is_distance and spread / per_unit > _COARSEST * true:
            raise NoAnswer(
                "A distance that repeats only within a sixth of itself tells nothing: take the "
                "reading nearer, or by rotation.",
                quantity=reading.figure_name,
            )
        return true, spread / per_unit, count

    def _spread(self, camera: Camera, reading: Reading) -> tuple[float, int]:
        """How single tries scatter (mm at the film), and how many there are."""
        habits = self.habits
        if reading.judged is Judged.BY_GAUGE:
            return habits.gauge_spread, habits.gauge_repeats
        return habits.eye_limit(camera, reading) / math.sqrt(3), habits.eye_repeats

    def _estimate(self, reading: Reading, tries: np.ndarray) -> Estimate:
        parts = {Source("spread", len(tries) - 1): float(tries.std(ddof=1)) / math.sqrt(len(tries))}
        off = self._instrument(reading)
        limit, source, error = off
        parts[source] = limit / math.sqrt(3)
        return Estimate(float(tries.mean()) + error, parts)

    def _instrument(self, reading: Reading) -> tuple[float, Source, float]:
        """The instrument's limit, its source, and its error this time."""
        if reading.judged is Judged.BY_GAUGE:
            return self.habits.gauge_limit, self.gauge, self.gauge_error
        limit = self.habits.limit_of(reading.scale)
        error = float(self.chance.uniform(-limit, limit))
        return limit, Source(reading.kind, is_rectangular=True), error


def film_per_unit(camera: Camera, reading: Reading) -> float:
    """How far the focus error (mm at the film) goes with one unit of the measured figure."""
    unit = Source("unit")
    probe = reading.showing(Estimate(reading.figure.value, {unit: 1.0}))
    return abs(probe.steps(camera)[-1].result.parts[unit])
