"""The lens standard out of square."""

from optics.camera.camera import Camera
from optics.camera.where_taken import Taken
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Cause
from optics.finding.causes.size import Lean
from optics.readings.readings import Judged, Reading
from optics.readings.spots import Spot


def tilt_factor(camera: Camera, reading: Reading) -> float:
    """How much steeper than the standard the focus tilts: 1 + m for the lens, 1 for the gauge."""
    if reading.judged is Judged.BY_GAUGE:
        return 1.0
    return 1.0 + camera.magnification_at(reading.seen_at)


def _holds(camera: Camera, reading: Reading) -> Added:
    factor = tilt_factor(camera, reading)
    x, y = reading.taken.place
    return {"tilt_x": factor * x, "tilt_y": factor * y}


def _off_centre(taken: Taken) -> bool:
    return taken.is_off_centre


# A standard out of square leaves the middle alone.
TILT = Cause(
    name="tilt",
    in_jobs="standard",
    words="standard out of square",
    figures={
        "tilt_x": "standard, farther out at the right",
        "tilt_y": "standard, farther out at the top",
    },
    order=60,
    step=BenchStep.STANDARD,
    size=Lean(),
    prior=Prior(0.10, 0.0002, 0.002),
    spots=frozenset({Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.NEAR}),
    shows=_off_centre,
    holds=_holds,
    told_by="a reading at another place of the picture",
)
