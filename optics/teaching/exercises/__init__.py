"""Exercises with the invented cameras: questions, hints in steps, and marks that help."""

from optics.teaching.exercises.exercise import Exercise, ExerciseLevel, Hint, Topic
from optics.teaching.exercises.kinds import KINDS
from optics.teaching.exercises.marking import Marked, Outcome, mark
from optics.teaching.exercises.series import exercise, numbered, series
from optics.teaching.exercises.slips import Slip

__all__ = [
    "KINDS",
    "Exercise",
    "ExerciseLevel",
    "Hint",
    "Marked",
    "Outcome",
    "Slip",
    "Topic",
    "exercise",
    "mark",
    "numbered",
    "series",
]
