"""The infinity stop: moved, so that lens or cell comes to rest elsewhere."""

from optics.camera.camera import Bed, Camera, Helicoid
from optics.camera.cautions import SPRINGS
from optics.camera.true_lens import film_factor
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Adjustment, Blocked, Cause, Outcome, Wanted
from optics.finding.causes.setting import from_offer, least_turn, rotation, travel
from optics.finding.causes.size import Millimetres
from optics.measure.uncertainty import exact, within
from optics.readings.remedies.stops import stops
from optics.readings.remedies.turning import said_degrees, sense_of_turn, settable_step
from optics.readings.spots import Spot


def _put_right(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    focusing = camera.focusing
    if isinstance(focusing, Bed):
        return from_offer(STOP, stops(camera, exact(-wanted["stop"])))
    factor = film_factor(camera)
    step = settable_step(camera, focusing.lead, factor)
    turn = rotation.value(travel=wanted["stop"] / factor, lead=focusing.lead)
    turn = round(turn / step) * step
    if not turn:
        return Blocked(STOP, "The stop is off by less than can be set: leave it alone.")
    moved, setting = (
        factor * travel.value(rotation=a, lead=focusing.lead) for a in (turn, step / 2)
    )
    sense = sense_of_turn(focusing.extends, turn)
    part = "barrel" if isinstance(focusing, Helicoid) else "front cell"
    return Adjustment(
        STOP,
        "Infinity stop",
        f"Loosen the infinity stop and move it so that the {part} comes to rest "
        f"{said_degrees(turn)} further {sense}, seen from the front; tighten it.",
        {"stop": within(moved, setting, "setting of the stop")},
        (("Move", f"{said_degrees(turn)} {sense}"),),
        cautions=(SPRINGS,),
    )


# The stop acts on the barrel itself: moved, it leaves the marks.
STOP = Cause(
    name="stop",
    in_jobs="stop",
    words="infinity stop out of place",
    figures={"stop": "infinity stop, farther out"},
    order=40,
    step=BenchStep.INFINITY,
    within=2,
    size=Millimetres(),
    prior=Prior(0.15, 0.010, 0.30),
    spots=frozenset({Spot.STOP}),
    tool="small screwdriver, ground glass or collimator to check",
    put_right=_put_right,
    smallest=least_turn,
    is_always_open=True,
    without="Without moving the stop",
    gives_up=Spot.STOP,
)
