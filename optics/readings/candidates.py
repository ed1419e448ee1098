"""A further reading that could be taken, before anything is known of what it will show."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from optics.camera.camera import Camera
from optics.readings.readings import Reading

# A depth gauge, rectangular (dial gauge over 10 mm, JIS B 7503:2011).
GAUGED = 0.015 / math.sqrt(3)
# Of the rangefinder's targets, far and near are this many times apart.
_MUCH_FARTHER = 4.0


@dataclass(frozen=True)
class Candidate:
    """A reading that could be taken, in words, and its standard uncertainty (mm at the film).

    `repeated` are its words where one like it was taken already; else so much "again". `order`
    is its place among those that a bench can usually take.
    """

    words: str
    reading: Reading
    standard: float
    repeated: str = ""
    order: int = 0

    def beside(self, taken: Sequence[Reading]) -> "Candidate":
        """The same, worded as a repeat where it is one."""
        if not any(_is_alike(self.reading, one) for one in taken):
            return self
        return replace(self, words=self.repeated or f"{self.words} again")


def _is_alike(one: Reading, other: Reading) -> bool:
    """Whether both look at the same thing, corners and near distances taken as one."""
    if one.spot is not other.spot or one.taken.surface is not other.taken.surface:
        return False
    if one.meets_at is not None and other.meets_at is not None:
        near, far = sorted((one.meets_at, other.meets_at))
        return near == far or far < _MUCH_FARTHER * near
    return one.taken.is_off_centre == other.taken.is_off_centre


def by_eye(camera: Camera) -> float:
    """How well focusing by eye is known: a fifth of the depth of focus (common practice)."""
    return camera.depth_of_focus / 5
