"""Rings to be measured, engraved by a draughtsman who knows none of the program's formulas.

Where a mark belongs is found by halving intervals on the distance that a thin lens, or a front
cell before fixed groups, is focused at when its thread has turned so far.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn

DEGREE = math.pi / 180
DISTANCES = (math.inf, 20e3, 10e3, 5e3, 3e3, 2e3, 1.5e3, 1.2e3, 1e3, 900.0)
LIMIT = 0.25 * DEGREE

OSTRIN = Camera(
    "Ostrin 35", Lens(47.0, 2.8, 0.6), Helicoid(18.0, 6, Turn.COUNTER_CLOCKWISE, 52.0), 0.03
)
CORVANE = Camera(
    "Corvane 6×6",
    Lens(75.0, 3.5, -2.0),
    FrontCell(51.0, 9.0, Turn.COUNTER_CLOCKWISE, 92.0, 36.0),
    0.05,
)


@dataclass(frozen=True)
class Engraver:
    """A group of some focal length on a thread; `behind` is what lies between it and the film."""

    focal_length: float
    behind: float
    lead: float
    zero: float = 0.0

    def angle(self, distance: float) -> float:
        """Where the mark of a distance belongs, found by halving intervals."""
        if math.isinf(distance):
            return self.zero
        out, far_in = self.focal_length, 1e-12
        for _ in range(200):
            middle = (out + far_in) / 2
            if self.focused_at(middle) > distance:
                far_in = middle
            else:
                out = middle
        return self.zero + 2 * math.pi * out / self.lead

    def focused_at(self, moved: float) -> float:
        """The distance from the film that is sharp with the group moved so far out."""
        image = self.focal_length + moved
        return image * self.focal_length / moved + moved + self.behind

    def angles(self, distances: tuple[float, ...] = DISTANCES) -> np.ndarray:
        """Where all marks belong."""
        return np.array([self.angle(distance) for distance in distances])


def engraver(camera: Camera) -> Engraver:
    """The draughtsman with a camera's own figures."""
    focusing = camera.focusing
    if isinstance(focusing, FrontCell):
        return Engraver(focusing.group_focal_length, focusing.cell_to_film, focusing.lead)
    assert isinstance(focusing, Helicoid)
    # The film lies one focal length behind the rear principal plane at infinity.
    return Engraver(
        camera.lens.focal_length, camera.lens.focal_length + camera.lens.hiatus, focusing.lead
    )


def of_other_lens(camera: Camera, focal_length: float) -> Engraver:
    """The same thread with a lens, or front cell, of another focal length."""
    own = engraver(camera)
    whole = not isinstance(camera.focusing, FrontCell)
    behind = own.behind + (focal_length - own.focal_length if whole else 0.0)
    return replace(own, focal_length=focal_length, behind=behind)


def read(angles: np.ndarray, limit: float = LIMIT, seed: int = 0) -> list[list[float]]:
    """One reading of each mark, out by anything up to the limit."""
    noise = np.random.default_rng(seed).uniform(-limit, limit, len(angles))
    return [[float(angle)] for angle in angles + noise]
