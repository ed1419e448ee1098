"""The rangefinder's infinity setting."""

from optics.camera.camera import Camera
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Cause, holds_nothing
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot


def _couples(camera: Camera, distance: float) -> Added:
    del camera, distance
    return {"zero": 1.0}


ZERO = Cause(
    name="zero",
    in_jobs="rangefinder zero",
    words="rangefinder's infinity setting",
    figures={"zero": "rangefinder's infinity setting, farther out"},
    order=80,
    step=BenchStep.RANGEFINDER_ZERO,
    size=Millimetres(),
    prior=Prior(0.20, 0.010, 0.25),
    spots=frozenset({Spot.COINCIDENCE}),
    holds=holds_nothing,
    couples=_couples,
    is_always_open=True,
)
