"""The rangefinder's infinity adjuster, which sets its zero."""

from collections.abc import Iterator

from optics.camera.camera import Camera
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Move, Outcome, Wanted
from optics.moves.screws import by_turns, least_of, screwed
from optics.moves.turning import one_does


def _control(per_turn: float) -> Control:
    does = one_does("turn", "where the images meet, the lens stands", per_turn)
    return by_turns("infinity screw", {"zero": per_turn}, does)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera
    if at_hand.zero_screw is not None:
        yield _control(at_hand.zero_screw.per_turn)


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    screw = at_hand.zero_screw
    control = _control(screw.per_turn if screw else 0.0)
    return screwed(INFINITY_SCREW, "infinity", screw, control, wanted["zero"])


def _smallest(camera: Camera, at_hand: AtHand) -> float:
    del camera
    return least_of(at_hand.zero_screw)


INFINITY_SCREW = Move(
    name="infinity_screw",
    title="Rangefinder, infinity screw",
    order=90,
    puts_right=("zero",),
    tool="screwdriver for the rangefinder's infinity screw",
    controls=_controls,
    make=_make,
    smallest=_smallest,
    needs_finder=True,
)
