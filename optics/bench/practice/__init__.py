"""Practice cameras with hidden faults, their readings, and hands that follow a plan.

A `Sitting` is a camera drawn by level and seed with everything done to it, replayed from its
actions alone; `debrief` and `score` look back on it, `sight` says what the eye sees.
"""

from optics.bench.practice.camera import PracticeCamera, draw_camera
from optics.bench.practice.hands import Hands
from optics.bench.practice.instruments import Bench, Habits, round_of_readings, take_all
from optics.bench.practice.levels import Level
from optics.bench.practice.sitting import Adjust, Finish, Read, Sitting
from optics.bench.practice.sitting_text import read_sitting, write_sitting
from optics.bench.practice.stand import Stand
from optics.bench.practice.trial import Tried, trial_and_error

__all__ = [
    "Adjust",
    "Bench",
    "Finish",
    "Habits",
    "Hands",
    "Level",
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
