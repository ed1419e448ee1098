"""Thread starts and witness marks: which of several belong together."""

from optics.body.witness.drawing import BarrelDrawing, DrawnEntry, DrawnMark, barrel_drawing
from optics.body.witness.ranking import Combination, Ranking, RankingFinding, rank
from optics.body.witness.thread import Mark, MarksOn, Thread

__all__ = [
    "BarrelDrawing",
    "Combination",
    "DrawnEntry",
    "DrawnMark",
    "Mark",
    "MarksOn",
    "Ranking",
    "RankingFinding",
    "Thread",
    "barrel_drawing",
    "rank",
]
