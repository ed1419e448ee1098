"""What is taken for a front cell's figures that are not told, and what not knowing them costs.

Both are parts of the lens's focal length, as front cells of triplets and of lenses of four
elements usually have them (common practice, no source); a traced triplet lies within both.
"""

import math
from dataclasses import replace

from optics.camera.camera import Camera, FrontCell
from optics.errors import OutOfRange
from optics.units import format_distance, format_length

# Focal length of the front group: 0.60 to 0.75 of the lens's (a traced triplet: 0.688).
GROUP_PART, GROUP_LIMIT = 0.675, 0.075
# Film to the front group at infinity: 1.1 to 1.3 times the lens's (the same triplet: 1.217).
PLACE_PART, PLACE_LIMIT = 1.2, 0.1
GROUP_HINT = "if known; else 0.60 to 0.75 f is supposed"
PLACE_HINT = "at ∞, if known; else 1.1 to 1.3 f is supposed"
_USUAL = "common practice, no source"
_SHOWN_AT = (3000.0, 1500.0)


def group_of(focal_length: float) -> tuple[float, float]:
    """The usual focal length of a front group (mm) and how far either way it may be out."""
    return GROUP_PART * focal_length, GROUP_LIMIT * focal_length


def place_of(focal_length: float) -> tuple[float, float]:
    """The usual distance from film to front group at infinity (mm), and its limit either way."""
    return PLACE_PART * focal_length, PLACE_LIMIT * focal_length


def supposed_lines(camera: Camera) -> tuple[str, ...]:
    """One sentence for each figure that was not told: what is taken, and what that costs."""
    cell = camera.focusing
    if not isinstance(cell, FrontCell):
        return ()
    return tuple(filter(None, (_group_line(cell), _place_line(camera, cell))))


def _group_line(cell: FrontCell) -> str:
    if not cell.group_limit:
        return ""
    middle = cell.group_focal_length
    low, high = middle - cell.group_limit, middle + cell.group_limit
    less, more = (abs((end / middle) ** 2 - 1) for end in (low, high))
    return (
        f"The focal length of the front group is not known: {_mm(low)} to {_mm(high)} is usual "
        f"({_USUAL}), and {_mm(middle)} is reckoned with. For the same error at the film the "
        f"cell's turn may then be up to {100 * less:.0f} % less or {100 * more:.0f} % more; the ± "
        "allows for it."
    )


def _place_line(camera: Camera, cell: FrontCell) -> str:
    if not cell.place_limit:
        return ""
    limit = cell.place_limit
    costs = (
        f"{format_length(cost, places=3)} at {format_distance(mark)}"
        for mark in _SHOWN_AT
        if (cost := _cost_of_place(camera, cell, mark)) is not None
    )
    said = "; ".join(costs)
    return (
        f"Front cell to film is not known: {_mm(cell.cell_to_film)} ± {_mm(limit)} is reckoned "
        f"with ({_USUAL}). At infinity that costs nothing"
        + (f"; at the film up to {said}. The ± allows for it." if said else ".")
    )


def _cost_of_place(camera: Camera, cell: FrontCell, mark: float) -> float | None:
    """How far (mm at the film) a mark's focus goes with the cell's place; None out of reach."""
    ends = (
        replace(camera, focusing=replace(cell, cell_to_film=cell.cell_to_film + sign * limit))
        for sign, limit in ((1, cell.place_limit), (-1, cell.place_limit))
    )
    try:
        far, near = (end.film_side_extension(mark) for end in ends)
    except OutOfRange:
        return None
    return math.fabs(far - near) / 2


def _mm(length: float) -> str:
    return f"{length:.3g} mm"
