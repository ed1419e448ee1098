"""The focusing ring: the lens turned on its thread while the scale ring is held on its mark."""

from optics.camera.camera import Camera, Helicoid
from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import exact
from optics.moves.record import Case, Move, Outcome, Picture
from optics.moves.turning import Degrees, Turning, least_turn, rotation, turned


def is_helicoid(camera: Camera) -> bool:
    """Whether the whole lens turns out on a thread."""
    return isinstance(camera.focusing, Helicoid)


def _make(case: Case) -> Outcome:
    thread = case.camera.focusing
    assert isinstance(thread, Helicoid)
    turning = Turning(
        "Loosen the scale ring and hold it on its mark; turn the lens barrel",
        "then tighten the ring",
        thread,
        exact(1.0),
        rotation.value(travel=case.change, lead=thread.lead),
    )
    return turned(case, turning)


RING = Move(
    name="ring",
    title="Focusing ring",
    order=60,
    puts_right=("ring",),
    tool="small screwdriver, degree scale or dividers on the ring",
    controls=Degrees("turn the barrel", "turned the barrel"),
    make=_make,
    serves=is_helicoid,
    smallest=least_turn,
    cautions=(SOLVENTS,),
    as_remedy=3,
    picture=Picture.TURN,
)
