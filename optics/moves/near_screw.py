"""The rangefinder's near adjuster, which sets its gain."""

from collections.abc import Iterator

from optics.moves.record import Case, Control, Move
from optics.moves.screws import Adjusting, by_turns

_SCREW = Adjusting("near")


def _controls(case: Case) -> Iterator[Control]:
    screw = _SCREW.at(case)
    if screw is not None:
        does = (
            f"One turn clockwise: where the images meet, the lens stands "
            f"{100 * abs(screw.per_turn):.3g} % of its extension farther "
            f"{'out' if screw.per_turn > 0 else 'in'}."
        )
        yield by_turns("near screw", {"gain": screw.per_turn}, does)


NEAR_SCREW = Move(
    name="near_screw",
    title="Rangefinder, near screw",
    order=100,
    puts_right=("gain",),
    tool="screwdriver for the rangefinder's near screw",
    controls=_controls,
    make=_SCREW.make,
    smallest=_SCREW.smallest,
    needs_finder=True,
)
