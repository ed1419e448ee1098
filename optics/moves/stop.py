"""The infinity stop of a lens or cell that turns: moved round, so that it rests elsewhere."""

from collections.abc import Iterator

from optics.camera.camera import Bed, Camera, Helicoid
from optics.camera.cautions import SPRINGS
from optics.camera.true_lens import film_factor
from optics.measure.uncertainty import within
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Made, Move, Outcome, Refused, Wanted
from optics.moves.turning import (
    clockwise_degrees,
    degrees_of,
    has_thread,
    least_turn,
    rotation,
    said_degrees,
    sense_of_turn,
    settable_step,
    travel,
)

_CAUTIONS = (SPRINGS,)
STOP_TOOL = "small screwdriver, ground glass or collimator to check"
"""What a stop is set with."""


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    words = ("move the infinity stop", "moved the infinity stop")
    yield degrees_of(camera, at_hand, "stop", words, "at the stop the lens stands", _CAUTIONS)


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    focusing = camera.focusing
    assert not isinstance(focusing, Bed)
    factor = film_factor(camera)
    step = settable_step(camera, focusing.lead, factor)
    turn = rotation.value(travel=wanted["stop"] / factor, lead=focusing.lead)
    turn = round(turn / step) * step
    if not turn:
        return Refused(STOP, "The stop is off by less than can be set: leave it alone.")
    moved, setting = (
        factor * travel.value(rotation=a, lead=focusing.lead) for a in (turn, step / 2)
    )
    (control,) = _controls(camera, at_hand)
    sense = sense_of_turn(focusing.extends, turn)
    part = "barrel" if isinstance(focusing, Helicoid) else "front cell"
    return Made(
        move=STOP,
        instruction=f"Loosen the infinity stop and move it so that the {part} comes to rest "
        f"{said_degrees(turn)} further {sense}, seen from the front; tighten it.",
        settings=((control, clockwise_degrees(focusing.extends, turn)),),
        changes={"stop": within(moved, setting, "setting of the stop")},
        amounts=(("Move", f"{said_degrees(turn)} {sense}"),),
    )


STOP = Move(
    name="stop",
    title="Infinity stop",
    order=50,
    puts_right=("stop",),
    tool=STOP_TOOL,
    controls=_controls,
    make=_make,
    serves=has_thread,
    smallest=least_turn,
    cautions=_CAUTIONS,
)
