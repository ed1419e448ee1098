"""The scale ring: slipped on its barrel, or the pointer of a bed's scale out of place."""

from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot

# The ring is clamped to the barrel: slipped, it shifts every mark alike and leaves the stop.
RING = Cause(
    name="ring",
    in_jobs="ring",
    words="slipped scale ring",
    figures={"ring": "scale ring, farther out"},
    order=30,
    step=BenchStep.SCALE,
    size=Millimetres(),
    prior=Prior(0.20, 0.010, 0.40),
    spots=frozenset({Spot.INFINITY, Spot.NEAR, Spot.COINCIDENCE}),
    is_always_open=True,
)
