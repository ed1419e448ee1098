"""What the practice bench offers to read, and how ring or pointer stand to the scale."""

from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.errors import NoAnswer
from optics.moves.turning import film_per_degree
from optics.readings.readings import Moved, Reading

FAR, MIDDLE, NEAR = 200.0, 60.0, 25.0
"""How far targets stand, in focal lengths."""
# Marks that rings usually bear (m), of which two near ones and a far target are chosen.
_ENGRAVED = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0)


@dataclass(frozen=True)
class Offered:
    """A reading the bench offers; `moved` is None where an instrument alone shows a figure.

    `order` is its place on the bench.
    """

    name: str
    reading: Reading
    moved: Moved | None = None
    order: int = 0


def engraved(camera: Camera, times: float) -> float:
    """The mark (mm) usually engraved nearest to so many focal lengths."""
    wanted = times * camera.lens.focal_length
    marks = np.array(_ENGRAVED) * 1000
    return float(marks[np.argmin(np.abs(np.log(marks / wanted)))])


def scale_at(camera: Camera, moved: Moved | None, amount: float) -> float:
    """The distance (mm) that the scale reads with ring or pointer so far from its ∞ mark.

    Errors: NoAnswer inside the ∞ mark, where the scale has no figures.
    """
    if amount < 0:
        raise no_figure_inside(moved, amount)
    per = film_per_degree(camera) if moved is Moved.RING else 1.0
    return TrueLens(camera, 0.0).sharp_at(per * amount)


def no_figure_inside(moved: Moved | None, amount: float) -> NoAnswer:
    """The refusal of a place at or inside the ∞ mark, where a scale says no distance."""
    unit = "°" if moved is Moved.RING else " mm"
    got = f"{-amount:g}{unit} inside it" if amount < 0 else "the ∞ mark"
    return NoAnswer(
        f"The scale has figures only short of its ∞ mark: got {got}; set the {moved} farther out, "
        "and where the images do not meet there, take another reading.",
        quantity="set_to",
        value=amount,
        limit=0.0,
    )


def scale_place(camera: Camera, moved: Moved | None, distance: float) -> float:
    """How far from the ∞ mark the scale reads a distance (mm), in degrees or mm."""
    per = film_per_degree(camera) if moved is Moved.RING else 1.0
    return TrueLens(camera, 0.0).needs(distance) / per
