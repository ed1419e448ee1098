"""The infinity stop: moved, so that lens or cell comes to rest elsewhere."""

from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot

# The stop acts on the barrel itself: moved, it leaves the marks.
STOP = Cause(
    name="stop",
    in_jobs="stop",
    words="infinity stop out of place",
    figures={"stop": "infinity stop, farther out"},
    order=40,
    step=BenchStep.INFINITY,
    within=2,
    size=Millimetres(),
    prior=Prior(0.15, 0.010, 0.30),
    spots=frozenset({Spot.STOP}),
    is_always_open=True,
    without="Without moving the stop",
    gives_up=Spot.STOP,
)
