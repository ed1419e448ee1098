"""The film gate: film that lies elsewhere than the ground glass did."""

import math

from optics.camera.camera import Camera
from optics.camera.cautions import SPRINGS
from optics.camera.taken import Surface, Taken
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Adjustment, Blocked, Cause, Outcome, Wanted
from optics.finding.causes.setting import FEELER, feeler
from optics.finding.causes.size import Millimetres
from optics.measure.uncertainty import within
from optics.readings.spots import Spot
from optics.units import format_length


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera, at_hand
    amount = round(abs(wanted["gate"]) / FEELER) * FEELER
    if not amount:
        return Blocked(GATE, "The film lies within 0.01 mm of its place: leave it alone.")
    way = "nearer the lens" if wanted["gate"] < 0 else "farther from the lens"
    said = format_length(amount)
    change = math.copysign(amount, wanted["gate"])
    return Adjustment(
        GATE,
        "Film gate",
        f"Bring the film {said} {way} by its rails or pressure plate.",
        {"gate": within(change, FEELER / 2, "setting of the gate")},
        (("Move", f"{said} {way}"),),
        cautions=(SPRINGS,),
    )


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
    tool="depth gauge and feelers",
    put_right=_put_right,
    smallest=feeler,
)
