"""Practice cameras with hidden faults, their readings, and hands that follow a plan.

A `Sitting` is a camera drawn by level and seed with everything done to it, replayed from its
actions alone; `debrief` and `score` look back on it, `sight` says what the eye sees.
"""

from optics.teaching.practice.camera import PracticeCamera, draw_camera
from optics.teaching.practice.hands import Hands
from optics.teaching.practice.instruments import Habits, PracticeBench, round_of_readings, take_all
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Adjust, Finish, Read, Sitting
from optics.teaching.practice.sitting_text import read_sitting, write_sitting
from optics.teaching.practice.stand import Stand
from optics.teaching.practice.trial import Tried, trial_and_error

__all__ = [
    "Adjust",
    "Finish",
    "Habits",
    "Hands",
    "Level",
    "PracticeBench",
    "PracticeCamera",
    "Read",
    "Sitting",
    "Stand",
    "Tried",
    "draw_camera",
    "read_sitting",
    "round_of_readings",
    "take_all",
    "trial_and_error",
    "write_sitting",
]
