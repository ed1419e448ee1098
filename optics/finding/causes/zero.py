"""The rangefinder's infinity setting."""

from optics.camera.camera import Camera
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Cause, Outcome, Wanted
from optics.finding.causes.setting import holds_nothing, least_of, screwed
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot


def _couples(camera: Camera, distance: float) -> Added:
    del camera, distance
    return {"zero": 1.0}


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    return screwed(ZERO, "infinity", at_hand.zero_screw, wanted["zero"])


def _smallest(camera: Camera, at_hand: AtHand) -> float:
    del camera
    return least_of(at_hand.zero_screw)


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
    tool="screwdriver for the rangefinder's infinity screw",
    put_right=_put_right,
    smallest=_smallest,
    is_always_open=True,
)
