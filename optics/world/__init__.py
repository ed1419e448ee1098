"""Cameras as they really are, to judge every diagnosis by: traced glass, faults, and ignorance.

Nothing here knows the bench's model of a camera, its diagnosis or its plans: a camera is drawn
from a seed, read into a job document, and a result's plan is carried out on it. What the camera
then does on film is traced through its glass.
"""

from optics.world.bench import Bench, Habits
from optics.world.build import Build, Faults, Unmodelled
from optics.world.camera import TracedCamera
from optics.world.document import job
from optics.world.draw import draw
from optics.world.hands import Hands, carry_out
from optics.world.judge import errors_on_film
from optics.world.visit import Visit, visit

__all__ = [
    "Bench",
    "Build",
    "Faults",
    "Habits",
    "Hands",
    "TracedCamera",
    "Unmodelled",
    "Visit",
    "carry_out",
    "draw",
    "errors_on_film",
    "job",
    "visit",
]
