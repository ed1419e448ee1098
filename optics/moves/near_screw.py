"""The rangefinder's near adjuster, which sets its gain."""

from collections.abc import Iterator

from optics.camera.camera import Camera, Turn
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Move, Outcome, Wanted
from optics.moves.screws import by_turns, least_of, screwed


def _control(per_turn: float) -> Control:
    out = "out" if per_turn > 0 else "in"
    does = (
        f"One turn {Turn.CLOCKWISE}: where the images meet, the lens stands "
        f"{100 * abs(per_turn):.3g} % of its extension farther {out}."
    )
    return by_turns("near screw", {"gain": per_turn}, does)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    del camera
    if at_hand.gain_screw is not None:
        yield _control(at_hand.gain_screw.per_turn)


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    screw = at_hand.gain_screw
    control = _control(screw.per_turn if screw else 0.0)
    return screwed(NEAR_SCREW, "near", screw, control, wanted["gain"])


def _smallest(camera: Camera, at_hand: AtHand) -> float:
    del camera
    return least_of(at_hand.gain_screw)


NEAR_SCREW = Move(
    name="near_screw",
    title="Rangefinder, near screw",
    order=100,
    puts_right=("gain",),
    tool="screwdriver for the rangefinder's near screw",
    controls=_controls,
    make=_make,
    smallest=_smallest,
    needs_finder=True,
)
