"""The rangefinder's near setting: its gain."""

from optics.camera.camera import Camera
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Cause, holds_nothing
from optics.finding.causes.size import ExtensionShare
from optics.measure.uncertainty import exact
from optics.moves import Wanted
from optics.rangefinder.correction import is_far_out
from optics.rangefinder.wording import far_out_line
from optics.readings.spots import Spot


def _couples(camera: Camera, distance: float) -> Added:
    return {"gain": camera.film_side_extension(distance)}


def _look_first(wanted: Wanted) -> str:
    """Where the gain is far out, what to look into before a screw is turned."""
    change = exact(wanted["gain"])
    return far_out_line(change) if is_far_out(change) else ""


GAIN = Cause(
    name="gain",
    in_jobs="rangefinder gain",
    words="rangefinder's near setting",
    figures={"gain": "rangefinder's near setting, farther out"},
    order=90,
    step=BenchStep.RANGEFINDER_GAIN,
    size=ExtensionShare(),
    prior=Prior(0.10, 0.002, 0.04),
    spots=frozenset({Spot.COINCIDENCE}),
    holds=holds_nothing,
    couples=_couples,
    look_first=_look_first,
    is_always_open=True,
)
