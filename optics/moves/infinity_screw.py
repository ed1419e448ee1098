"""The rangefinder's infinity adjuster, which sets its zero."""

from collections.abc import Iterator

from optics.moves.record import Case, Control, Move
from optics.moves.screws import Adjusting, by_turns
from optics.moves.turning import one_does

_SCREW = Adjusting("infinity")


def _controls(case: Case) -> Iterator[Control]:
    screw = _SCREW.at(case)
    if screw is not None:
        does = one_does("turn", "where the images meet, the lens stands", screw.per_turn)
        yield by_turns("infinity screw", {"zero": screw.per_turn}, does)


INFINITY_SCREW = Move(
    name="infinity_screw",
    title="Rangefinder, infinity screw",
    order=90,
    puts_right=("zero",),
    tool="screwdriver for the rangefinder's infinity screw",
    controls=_controls,
    make=_SCREW.make,
    smallest=_SCREW.smallest,
    needs_finder=True,
)
