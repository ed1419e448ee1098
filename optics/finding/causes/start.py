"""The thread start: a helicoid put together on another one than it left the works with."""

from optics.camera.camera import Camera, Helicoid
from optics.camera.true_lens import pitch_of
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause, Outcome, Wanted
from optics.finding.causes.setting import from_offer
from optics.finding.causes.size import Starts
from optics.measure.uncertainty import exact
from optics.readings.remedies.turning import thread_start
from optics.readings.spots import Spot


def _prior(camera: Camera) -> Prior | None:
    """A start can be wrong only where there is another; it is whole pitches, so has no spread."""
    return Prior(0.05, 0.0, 0.0) if pitch_of(camera) else None


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    assert isinstance(camera.focusing, Helicoid)
    return from_offer(START, thread_start(camera, camera.focusing, exact(-wanted["start"])))


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
    tool="scriber, mark the place where the threads let go",
    put_right=_put_right,
)
