"""The scale ring: slipped on its barrel, or the pointer of a bed's scale out of place."""

import math

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Adjustment, Blocked, Cause, Outcome, Wanted
from optics.finding.causes.setting import FEELER, from_offer, least_turn
from optics.finding.causes.size import Millimetres
from optics.measure.uncertainty import exact, within
from optics.readings.remedies.turning import front_cell_turn, ring
from optics.readings.spots import Spot
from optics.units import format_length


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    error, focusing = exact(-wanted["ring"]), camera.focusing
    if isinstance(focusing, Helicoid):
        return from_offer(RING, ring(camera, focusing, error))
    if isinstance(focusing, FrontCell):
        return from_offer(RING, front_cell_turn(camera, focusing, error))
    return _bed(wanted["ring"])


def _bed(wanted: float) -> Outcome:
    # The pointer rides on the standard: shifted towards the film, it meets a mark only when
    # the standard stands farther out.
    amount = round(abs(wanted) / FEELER) * FEELER
    if not amount:
        return Blocked(RING, "The bed's scale is less than 0.01 mm off: leave it alone.")
    way = "towards the film" if wanted > 0 else "away from the film"
    said = format_length(amount)
    return Adjustment(
        RING,
        "Bed scale",
        f"Move the pointer of the bed's scale on the standard {said} {way}.",
        {"ring": within(math.copysign(amount, wanted), FEELER / 2, "setting of the scale")},
        (("Move", f"{said} {way}"),),
    )


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
    tool="small screwdriver, degree scale or dividers on the ring",
    put_right=_put_right,
    smallest=least_turn,
    is_always_open=True,
)
