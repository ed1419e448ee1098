"""Practice cameras with hidden faults, and their readings.

A `Sitting` is a camera drawn by level and seed with everything done to it, replayed from its
actions alone; `debrief` and `score` look back on it, `sight` says what the eye sees.
"""

from optics.teaching.practice.camera import PracticeCamera, draw_camera
from optics.teaching.practice.instruments import Habits, PracticeBench
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Adjust, Finish, Read, Sitting
from optics.teaching.practice.sitting_text import read_sitting, write_sitting
from optics.teaching.practice.stand import Stand

__all__ = [
    "Adjust",
    "Finish",
    "Habits",
    "Level",
    "PracticeBench",
    "PracticeCamera",
    "Read",
    "Sitting",
    "Stand",
    "draw_camera",
    "read_sitting",
    "write_sitting",
]
