"""The thread start: a helicoid put together on another one than it left the works with."""

from optics.camera.camera import Camera
from optics.camera.true_lens import pitch_of
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior, Steps
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Starts
from optics.readings.spots import Spot


def _prior(camera: Camera) -> Prior | None:
    """A start can be wrong only where there is another; it is whole pitches, so has no spread."""
    return Prior(0.05, 0.0, 0.0) if pitch_of(camera) else None


def _steps(camera: Camera) -> Steps:
    """So many pitches either way as there are other starts, each as likely."""
    most = getattr(camera.focusing, "starts", 1) - 1
    return Steps(pitch_of(camera), tuple(k for k in range(-most, most + 1) if k))


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
    steps=_steps,
    lacking="no other thread start to be on",
    spots=frozenset({Spot.STOP, Spot.INFINITY, Spot.NEAR, Spot.COINCIDENCE}),
)
