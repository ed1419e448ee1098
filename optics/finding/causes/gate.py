"""The film gate: film that lies elsewhere than the ground glass did."""

from optics.camera.where_taken import Surface, Taken
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot


def _on_film(taken: Taken) -> bool:
    return taken.surface is Surface.FILM


# The gate puts the film elsewhere than the ground glass: it shows on film, and where rails and
# film are gauged.
GATE = Cause(
    name="gate",
    in_jobs="gate",
    words="film not where the ground glass is",
    figures={"gate": "film, farther from the lens"},
    order=70,
    step=BenchStep.GATE,
    size=Millimetres("farther from the lens", "nearer the lens"),
    prior=Prior(0.10, 0.005, 0.08),
    spots=frozenset({Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.NEAR, Spot.GATE}),
    shows=_on_film,
)
