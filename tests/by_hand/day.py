"""What a careful repairer reads of a camera, and what of it a practice camera lets be read."""

import math
from collections.abc import Sequence

from optics.camera.camera import Camera
from optics.camera.where_taken import Surface, Taken
from optics.measure.uncertainty import exact
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.ruler import RulerReading
from optics.readings.readings import Reading
from optics.teaching.practice import PracticeBench, PracticeCamera


def round_of_readings(camera: Camera) -> tuple[Reading, ...]:
    """What a careful repairer reads: register, stop, ∞ mark, near marks, film, rangefinder."""
    focal = camera.lens.focal_length
    register, collimator = exact(focal), exact(6 * focal)
    # Focal points together, so that the distance between the lenses needs no thought.
    apart = exact(7 * focal)
    near = tuple(exact(times * focal) for times in (60.0, 25.0))
    width, height = 0.35 * focal, 0.25 * focal
    places = ((width, height), (-width, height), (-width, -height), (width, -height))
    spots = (Taken(), *(Taken(place=place) for place in places))
    return (
        *(RegisterReading(register, register, spot) for spot in spots),
        CollimatorReading(exact(0.0), collimator, Taken(at_stop=True), apart),
        CollimatorReading(exact(0.0), collimator, to_lens=apart),
        CollimatorReading(exact(0.0), collimator, Taken(surface=Surface.FILM), apart),
        *(MarkReading(mark, mark) for mark in near),
        RulerReading(near[1], exact(0.0), exact(math.radians(45)), near[1]),
        CoincidenceReading(exact(400 * focal), exact(400 * focal)),
        CoincidenceReading(exact(25 * focal), exact(25 * focal)),
    )


def take_all(
    practice: PracticeCamera, wanted: Sequence[Reading], bench: PracticeBench
) -> tuple[Reading, ...]:
    """Every reading that can be taken; with a lens far off some cannot."""
    taken = (_taken(practice, one, bench) for one in wanted)
    return tuple(reading for reading in taken if reading is not None)


def _taken(practice: PracticeCamera, wanted: Reading, bench: PracticeBench) -> Reading | None:
    """The reading wanted, else what is read instead of it; None where neither can be taken."""
    for reading in (wanted, wanted.instead(practice.camera)):
        if reading is not None and bench.reaches(practice, reading):
            return bench.take(practice, reading)
    return None
