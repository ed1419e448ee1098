"""The barrel seen from the front, as data for a drawing: marks, places of entry, senses."""

import math
from dataclasses import dataclass

from optics.body.witness.ranking import Ranking
from optics.body.witness.thread import Mark
from optics.camera.camera import Turn


@dataclass(frozen=True)
class DrawnMark:
    """A mark at its angle (rad clockwise from the top) with the probability it was meant."""

    mark: Mark
    probability: float
    is_present: bool
    is_first: bool


@dataclass(frozen=True)
class DrawnEntry:
    """A place of entry at its angle (rad clockwise from the top), named as a start moved.

    `starts_moved` are the moves that lead here; opposite the present entry of an even number
    of starts there are two, one each way.
    """

    starts_moved: tuple[int, ...]
    angle: float
    probability: float
    is_present: bool
    is_first: bool


@dataclass(frozen=True)
class BarrelDrawing:
    """Everything on the barrel's face, and which way round extends the lens."""

    marks: tuple[DrawnMark, ...]
    entries: tuple[DrawnEntry, ...]
    extends: Turn
    ring_diameter: float | None


def barrel_drawing(ranking: Ranking, parted_at: float = 0.0) -> BarrelDrawing:
    """Marks and places of entry round the barrel.

    `parted_at` is where (rad clockwise from the top) the threads let go now; 0 draws the
    present entry at the top.
    """
    first, thread = ranking.first, ranking.thread
    marks = tuple(
        DrawnMark(
            mark,
            math.fsum(c.probability for c in ranking.combinations if c.mark == mark),
            mark == ranking.present,
            mark == first.mark,
        )
        for mark in ranking.marks
    )
    entries: dict[int, list[int]] = {}
    for moved in thread.starts_to_try():
        entries.setdefault(moved % thread.starts, []).append(moved)
    drawn = tuple(
        DrawnEntry(
            tuple(moves),
            thread.entry_angle(moves[0], parted_at),
            math.fsum(c.probability for c in ranking.combinations if c.starts_moved in moves),
            0 in moves,
            first.starts_moved in moves,
        )
        for moves in entries.values()
    )
    return BarrelDrawing(marks, drawn, thread.extends, thread.ring_diameter)
