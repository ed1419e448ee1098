"""The lens seat: shims too thick or too thin under it."""

from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot

# A shim holds the whole lens out, so it shows everywhere but at the film gate.
SEAT = Cause(
    name="seat",
    in_jobs="shims",
    words="shims under the lens seat",
    figures={"seat": "thickness under the lens seat"},
    order=10,
    step=BenchStep.INFINITY,
    within=1,
    size=Millimetres("too thick", "too thin"),
    prior=Prior(0.20, 0.005, 0.10),
    spots=frozenset({Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.NEAR, Spot.COINCIDENCE}),
    is_always_open=True,
    without="Without removing the lens from its seat",
    gives_up=Spot.GAUGE,
)
