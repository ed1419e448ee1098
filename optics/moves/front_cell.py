"""The front cell: turned in its thread while its scale ring is held on the mark."""

from optics.camera.camera import Camera, FrontCell
from optics.camera.cautions import SOLVENTS
from optics.measure.uncertainty import combine, exact
from optics.moves.record import Case, Move, Outcome, Picture
from optics.moves.ring import RING
from optics.moves.turning import Degrees, Turning, cell_lengths, least_turn, rotation, turned
from optics.theory import front_cell, lens


def _is_front_cell(camera: Camera) -> bool:
    return isinstance(camera.focusing, FrontCell)


def _make(case: Case) -> Outcome:
    camera, cell = case.camera, case.camera.focusing
    assert isinstance(cell, FrontCell)
    lengths, effect = cell_lengths(camera, cell), front_cell.film_effect
    shift = effect.solve_for(front_cell.cell_shift).value(focus_error=case.change, **lengths)
    # The film sees (f/f₁)² of what the cell moves, and that is known no better than they are.
    to_film = combine(
        effect.solve_for(lens.focus_error), cell_shift=exact(1.0), **camera.estimates(lengths)
    )
    turning = Turning(
        "Loosen the scale ring's screws and hold the ring on its mark; turn the front cell",
        "then tighten the screws",
        cell,
        to_film,
        rotation.value(travel=shift, lead=cell.lead),
    )
    return turned(case, turning)


FRONT_CELL = Move(
    name="front_cell",
    title="Front cell",
    order=60,
    puts_right=("ring",),
    tool=RING.tool,
    controls=Degrees("turn the front cell", "turned the front cell"),
    make=_make,
    serves=_is_front_cell,
    smallest=least_turn,
    cautions=(SOLVENTS,),
    as_remedy=1,
    picture=Picture.TURN,
)
