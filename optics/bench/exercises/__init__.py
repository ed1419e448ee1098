"""Exercises with the invented cameras: questions, hints in steps, and marks that help."""

from optics.bench.exercises.exercise import Exercise, Hint, Level, Topic
from optics.bench.exercises.kinds import KINDS
from optics.bench.exercises.marking import Marked, Outcome, mark
from optics.bench.exercises.series import exercise, numbered, series
from optics.bench.exercises.slips import Slip

__all__ = [
    "KINDS",
    "Exercise",
    "Hint",
    "Level",
    "Marked",
    "Outcome",
    "Slip",
    "Topic",
    "exercise",
    "mark",
    "numbered",
    "series",
]
