"""The rangefinder's near setting: its gain."""

from dataclasses import replace

from optics.camera.camera import Camera
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Blocked, Cause, Outcome, Wanted
from optics.finding.causes.setting import holds_nothing, least_of, screwed
from optics.finding.causes.size import Share
from optics.measure.uncertainty import exact
from optics.rangefinder.correction import is_far_out
from optics.rangefinder.wording import far_out_line
from optics.readings.spots import Spot


def _couples(camera: Camera, distance: float) -> Added:

    return {"gain": camera.film_side_extension(distance)}


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    made = screwed(GAIN, "near", at_hand.gain_screw, wanted["gain"])
    change = exact(wanted["gain"])
    if not is_far_out(change):
        return made
    look = far_out_line(change)
    if isinstance(made, Blocked):
        return replace(made, reason=look)
    said = f"{look} Only if all of these are in order: {made.instruction}"
    return replace(made, instruction=said)


def _smallest(camera: Camera, at_hand: AtHand) -> float:
    del camera
    return least_of(at_hand.gain_screw)


GAIN = Cause(
    name="gain",
    in_jobs="rangefinder gain",
    words="rangefinder's near setting",
    figures={"gain": "rangefinder's near setting, farther out"},
    order=90,
    step=BenchStep.RANGEFINDER_GAIN,
    size=Share(),
    prior=Prior(0.10, 0.002, 0.04),
    spots=frozenset({Spot.COINCIDENCE}),
    holds=holds_nothing,
    couples=_couples,
    tool="screwdriver for the rangefinder's near screw",
    put_right=_put_right,
    smallest=_smallest,
    is_always_open=True,
)
