"""The infinity stop of a lens or cell that turns: moved round, so that it rests elsewhere."""

from optics.camera.camera import Bed, Helicoid
from optics.camera.cautions import SPRINGS
from optics.camera.true_lens import film_factor
from optics.measure.uncertainty import within
from optics.moves.record import Case, Move, Outcome
from optics.moves.turning import (
    Degrees,
    clockwise_degrees,
    has_thread,
    least_turn,
    rotation,
    said_degrees,
    sense_of_turn,
    settable_step,
    travel,
)


def _make(case: Case) -> Outcome:
    focusing, factor = case.camera.focusing, film_factor(case.camera)
    assert not isinstance(focusing, Bed)
    step = settable_step(case.camera, focusing.lead, factor)
    turn = rotation.value(travel=case.change / factor, lead=focusing.lead)
    turn = round(turn / step) * step
    if not turn:
        return case.refused("The stop is off by less than can be set: leave it alone.")
    moved, setting = (
        factor * travel.value(rotation=a, lead=focusing.lead) for a in (turn, step / 2)
    )
    sense = sense_of_turn(focusing.extends, turn)
    part = "barrel" if isinstance(focusing, Helicoid) else "front cell"
    return case.made(
        f"Loosen the infinity stop and move it so that the {part} comes to rest "
        f"{said_degrees(turn)} further {sense}, seen from the front; tighten it.",
        clockwise_degrees(focusing.extends, turn),
        within(moved, setting, "setting of the stop"),
        amounts=(("Move", f"{said_degrees(turn)} {sense}"),),
    )


STOP = Move(
    name="stop",
    title="Infinity stop",
    order=50,
    puts_right=("stop",),
    tool="small screwdriver, ground glass or collimator to check",
    controls=Degrees(
        "move the infinity stop", "moved the infinity stop", "at the stop the lens stands"
    ),
    make=_make,
    serves=has_thread,
    smallest=least_turn,
    cautions=(SPRINGS,),
)
