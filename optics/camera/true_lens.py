"""What moves when a camera is focused, and the lens as it is whatever is engraved on it."""

import math
from dataclasses import dataclass
from typing import Final

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.errors import NoAnswer
from optics.theory import helicoid, lens

MOST_FOCAL: Final = 0.2
"""No lens that came on a camera is off by more than this part of its focal length."""
# So near to infinity focus (mm) it is the arithmetic that differs, not the lens.
_ROUNDING = 1e-9


def pitch_of(camera: Camera) -> float:
    """The shift of the lens (mm) by one thread start; 0 where there is no other start."""
    thread = camera.focusing
    if not isinstance(thread, Helicoid) or thread.starts < 2:
        return 0.0
    return helicoid.thread_lead.solve_for(helicoid.pitch).value(
        lead=thread.lead, starts=float(thread.starts)
    )


def marked_focal(camera: Camera) -> float:
    """The engraved focal length (mm) of what moves: of the lens, or of its front group."""
    focusing = camera.focusing
    if isinstance(focusing, FrontCell):
        return focusing.group_focal_length
    return camera.lens.focal_length


def film_factor(camera: Camera) -> float:
    """How far the focus goes at the film when the focusing part moves 1 mm: 1, or (f/f₁)²."""
    return (camera.lens.focal_length / marked_focal(camera)) ** 2


@dataclass(frozen=True)
class TrueLens:
    """The lens as it is, whatever is engraved on it."""

    camera: Camera
    focal: float

    @property
    def constants(self) -> dict[str, float]:
        """The inputs of the focusing formula with the true focal length.

        A front group of another focal length is set farther out by as much when infinity is
        put right, for the groups behind it look for its image at the same place.
        """
        constants = dict(self.camera.constants)
        for name in constants:
            if name != "hiatus":
                constants[name] += self.focal
        return constants

    @property
    def stretch(self) -> float:
        """True over marked focal length of the whole lens."""
        return 1 + self.focal / marked_focal(self.camera)

    def needs(self, distance: float) -> float:
        """How far beyond infinity focus (mm at the film) a subject calls for."""
        moved = self.camera.focusing_formula.value(film_distance=distance, **self.constants)
        return film_factor(self.camera) * moved

    def sharp_at(self, stands: float) -> float:
        """The distance that is sharp with the lens so far (mm at the film) beyond infinity."""
        if abs(stands) < _ROUNDING:
            return math.inf
        if stands < 0:
            raise NoAnswer(
                f"Nothing is sharp with the lens inside its infinity focus: got {-stands:.3f} mm "
                "too far in; take a reading by rotation, collimator or gauge.",
                quantity="sharp_distance",
                value=stands,
                limit=0.0,
            )
        formula = self.camera.focusing_formula
        moved = {formula.form.unknown.name: stands / film_factor(self.camera)}
        return formula.relation.solve_for(lens.film_distance).value(**moved, **self.constants)
