"""The front cell: turned in its thread while its scale ring is held on the mark."""

from collections.abc import Iterator

from optics.camera.camera import Camera, FrontCell
from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import combine, exact
from optics.moves.at_hand import AtHand
from optics.moves.record import Control, Move, Outcome, Wanted
from optics.moves.ring import RING_TOOL
from optics.moves.turning import Turning, cell_lengths, degrees_of, least_turn, rotation, turned
from optics.theory import front_cell, lens

_CAUTIONS = (SOLVENTS,)


def _is_front_cell(camera: Camera) -> bool:
    return isinstance(camera.focusing, FrontCell)


def _controls(camera: Camera, at_hand: AtHand) -> Iterator[Control]:
    words = ("turn the front cell", "turned the front cell")
    yield degrees_of(camera, at_hand, "ring", words, "the lens stands", _CAUTIONS)


def _make(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    cell, change = camera.focusing, wanted["ring"]
    assert isinstance(cell, FrontCell)
    lengths, effect = cell_lengths(camera, cell), front_cell.film_effect
    # The film sees (f/f₁)² of what the cell moves, and that is known no better than they are.
    shift = effect.solve_for(front_cell.cell_shift).value(focus_error=change, **lengths)
    to_film = combine(
        effect.solve_for(lens.focus_error), cell_shift=exact(1.0), **camera.estimates(lengths)
    )
    turning = Turning(
        FRONT_CELL,
        "Loosen the scale ring's screws and hold the ring on its mark; turn the front cell",
        "then tighten the screws",
        cell,
        to_film,
        rotation.value(travel=shift, lead=cell.lead),
    )
    return turned(camera, at_hand, turning, change)


FRONT_CELL = Move(
    name="front_cell",
    title="Front cell",
    order=60,
    puts_right=("ring",),
    tool=RING_TOOL,
    controls=_controls,
    make=_make,
    serves=_is_front_cell,
    smallest=least_turn,
    cautions=_CAUTIONS,
    as_remedy=1,
)
