"""The focal length: another one than is engraved on the lens, or on its front group."""

from typing import Final

from optics.camera.camera import Bed, Camera, FrontCell
from optics.camera.true_lens import TrueLens, film_factor, marked_focal
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Adjustment, Blocked, Cause, Outcome, Wanted
from optics.finding.causes.setting import FEELER, feeler, holds_nothing, rotation
from optics.finding.causes.size import Millimetres
from optics.measure.uncertainty import within
from optics.readings.remedies.turning import said_degrees
from optics.readings.spots import Spot
from optics.units import format_distance, format_length

MOST_FOCAL: Final = 0.2
"""No lens that came on a camera is off by more than this part of its focal length."""


def _prior(camera: Camera) -> Prior:
    """As a part of the marked one: makers sort to about a thousandth, and a lens from elsewhere

    is off by a hundredth (common practice, no source).
    """
    marked = marked_focal(camera)
    return Prior(0.08, 0.001 * marked, 0.012 * marked)


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    """A scale for the true focal length; the lens itself cannot be changed."""
    del at_hand
    focal = round(marked_focal(camera) - wanted["focal"], 2)
    change = marked_focal(camera) - focal
    if not round(change, 2):
        return Blocked(FOCAL, "The scale fits the lens within 0.01 mm of focal length.")
    if abs(change) > MOST_FOCAL * marked_focal(camera):
        return Blocked(
            FOCAL,
            f"The readings would ask for a lens of {focal:.2f} mm, which cannot be: they "
            "contradict each other, so take them again.",
        )
    what = "front group" if isinstance(camera.focusing, FrontCell) else "lens"
    marks = ", ".join(_new_marks(camera, -change))
    return Adjustment(
        FOCAL,
        "Focusing scale",
        f"Make a new focusing scale for a {what} of {focal:.2f} mm; from ∞: {marks}.",
        {"focal": within(change, FEELER / 2, "focal length of the scale")},
        (("Focal length", f"{focal:.2f} mm"),),
    )


def _new_marks(camera: Camera, focal: float) -> list[str]:
    true, focusing = TrueLens(camera, focal), camera.focusing
    times = (100.0, 60.0, 30.0)
    said = []
    for distance in (round(t * camera.lens.focal_length, -3) or 1000.0 for t in times):
        travel = true.needs(distance) / film_factor(camera)
        place = format_length(travel)
        if not isinstance(focusing, Bed):
            place = said_degrees(rotation.value(travel=travel, lead=focusing.lead))
        said.append(f"{format_distance(distance)} at {place}")
    return said


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
    tool="dividing head or a printed scale",
    put_right=_put_right,
    smallest=feeler,
    without="Without a new scale",
)
