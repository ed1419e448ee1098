"""The thread start: a helicoid put together on another one than it left the works with."""

from optics.camera.camera import Camera
from optics.camera.true_lens import pitch_of
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Starts
from optics.readings.spots import Spot


def _prior(camera: Camera) -> Prior | None:
    """A start can be wrong only where there is another; it is whole pitches, so has no spread."""
    return Prior(0.05, 0.0, 0.0) if pitch_of(camera) else None


# The barrel stands a whole number of pitches off at every turn of the ring, and the body's
# gauge does not see it.
START = Cause(
    name="start",
    in_jobs="start",
    words="wrong thread start",
    figures={"start": "thread starts farther out"},
    order=20,
    step=BenchStep.INFINITY,
    size=Starts(),
    prior=_prior,
    spots=frozenset({Spot.STOP, Spot.INFINITY, Spot.NEAR, Spot.COINCIDENCE}),
)
