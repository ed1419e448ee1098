"""The focal length: another one than is engraved on the lens, or on its front group."""

from optics.camera.camera import Camera
from optics.camera.true_lens import marked_focal
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Cause, holds_nothing
from optics.finding.causes.size import Millimetres
from optics.readings.spots import Spot


def _prior(camera: Camera) -> Prior:
    """As a part of the marked one: makers sort to about a thousandth, and a lens from elsewhere

    is off by a hundredth (common practice, no source).
    """
    marked = marked_focal(camera)
    return Prior(0.08, 0.001 * marked, 0.012 * marked)


# Set right with infinity, a lens of another focal length falls short in proportion to the
# extension that a near subject calls for.
FOCAL = Cause(
    name="focal",
    in_jobs="focal length",
    words="focal length other than engraved",
    figures={"focal": "true focal length, longer"},
    order=50,
    drawn=1,
    step=BenchStep.NEAR,
    size=Millimetres("longer", "shorter"),
    prior=_prior,
    spots=frozenset({Spot.NEAR}),
    # What it does is worked out from what was sharp.
    holds=holds_nothing,
    without="Without a new scale",
)
