"""The focusing ring: the lens turned on its thread while the scale ring is held on its mark."""

from collections.abc import Iterator

from optics.camera.camera import Camera, Helicoid
from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import exact
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Move, Outcome, Wanted
from optics.moves.turning import Turning, degrees_of, least_turn, rotation, turned

_CAUTIONS = (SOLVENTS,)
RING_TOOL = "small screwdriver, degree scale or dividers on the ring"
"""What the scale ring, or what stands for it, is set with."""


def _is_helicoid(camera: Camera) -> bool:
    return isinstance(camera.focusing, Helicoid)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    words = ("turn the barrel", "turned the barrel")
    yield degrees_of(camera, at_hand, "ring", words, "the lens stands", _CAUTIONS)


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    thread, change = camera.focusing, wanted["ring"]
    assert isinstance(thread, Helicoid)
    turning = Turning(
        RING,
        "Loosen the scale ring and hold it on its mark; turn the lens barrel",
        "then tighten the ring",
        thread,
        exact(1.0),
        rotation.value(travel=change, lead=thread.lead),
    )
    return turned(camera, at_hand, turning, change)


RING = Move(
    name="ring",
    title="Focusing ring",
    order=60,
    puts_right=("ring",),
    tool=RING_TOOL,
    controls=_controls,
    make=_make,
    serves=_is_helicoid,
    smallest=least_turn,
    cautions=_CAUTIONS,
    as_remedy=3,
)
