"""Practice cameras with hidden faults, their readings, and hands that follow a plan."""

from optics.bench.practice.camera import PracticeCamera, draw_camera
from optics.bench.practice.hands import Hands
from optics.bench.practice.instruments import Bench, Habits, round_of_readings, take_all
from optics.bench.practice.trial import Tried, trial_and_error

__all__ = [
    "Bench",
    "Habits",
    "Hands",
    "PracticeCamera",
    "Tried",
    "draw_camera",
    "round_of_readings",
    "take_all",
    "trial_and_error",
]
