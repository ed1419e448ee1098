"""A lens in its mount: where its image falls, and what must move for a subject to be sharp.

Distances of subjects are from the film's rails, `math.inf` exact. The focus error is how far the
lens stands too far out of the film, traced through its glass: mm at the film, plus is too far out.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache

from optics.errors import NoAnswer
from optics.world.glass import Glass
from optics.world.trace import Seen, best_focus, stop_radius

_CLOSE = 1e-10
_TRIES = 40


@dataclass(frozen=True)
class Stand:
    """How far the whole lens, and its front cell, stand beyond home (mm towards the subject)."""

    lens: float = 0.0
    cell: float = 0.0

    def moved(self, lens: float = 0.0, cell: float = 0.0) -> "Stand":
        """The same farther out."""
        return Stand(self.lens + lens, self.cell + cell)


@dataclass(frozen=True)
class Lens:
    """Glass of its true focal length, its full aperture, and whether its front cell focuses.

    At home a far subject is sharp on the rails, seen through the full aperture by the least spot.
    """

    glass: Glass
    full_aperture: float
    front_cell: bool = False

    @property
    def wide_open(self) -> Seen:
        """As the works set it: full aperture, least spot."""
        return Seen(self.full_aperture)

    @cached_property
    def home(self) -> float:
        """From the film's rails to the last face of a lens that stands at home."""
        return self.image(0.0, 0.0, self.wide_open)

    @property
    def cell_effect(self) -> float:
        """What 1 mm of the front cell does at the film, (f/f₁)², near the axis."""
        return (self.glass.focal_length / self.glass.cell_focal_length) ** 2

    def image(self, vergence: float, cell: float, seen: Seen) -> float:
        """How far behind the last face a subject is sharp, by its vergence at the first face."""
        glass = _unscrewed(self.glass, cell)
        radius = stop_radius(self.glass, seen.f_number)
        found = best_focus(glass, vergence, radius)
        return found if seen.lines is None else found + _criterion(self.glass, radius, seen.lines)

    def first_face(self, stand: Stand) -> float:
        """From the film's rails to the first face."""
        return self.home + stand.lens + self.glass.length + stand.cell

    def defocus(
        self, distance: float, stand: Stand, behind: float = 0.0, seen: Seen | None = None
    ) -> float:
        """The focus error on a surface so far behind the rails, for a subject at a distance."""
        vergence = 1.0 / (distance - self.first_face(stand))
        image = self.image(vergence, stand.cell, seen or self.wide_open)
        return self.home + stand.lens + behind - image

    def vergence_at(self, stand: Stand, behind: float = 0.0, seen: Seen | None = None) -> float:
        """The vergence at the first face of what is sharp on a surface; 0 is infinitely far."""
        wanted, judged = self.home + stand.lens + behind, seen or self.wide_open
        slope = self.glass.focal_length**2
        return _root(lambda v: self.image(v, stand.cell, judged) - wanted, 0.0, slope)

    def sharp_at(self, stand: Stand, behind: float = 0.0, seen: Seen | None = None) -> float:
        """The distance that is sharp on a surface.

        Errors: NoAnswer where the lens is inside its infinity focus, so that none is.
        """
        vergence = self.vergence_at(stand, behind, seen)
        if vergence < -_CLOSE:
            raise NoAnswer(
                "Nothing is sharp with the lens inside its infinity focus.", quantity="sharp_at"
            )
        return math.inf if vergence <= _CLOSE else 1.0 / vergence + self.first_face(stand)

    def needs(
        self,
        distance: float,
        at: Stand | None = None,
        behind: float = 0.0,
        seen: Seen | None = None,
    ) -> float:
        """How far what focuses must go out (mm of lens, or of cell) for a subject to be sharp."""
        if math.isinf(distance) and at is None:
            return 0.0
        start = at or Stand()
        per_mm = self.cell_effect if self.front_cell else 1.0

        def miss(out: float) -> float:
            stand = start.moved(cell=out) if self.front_cell else start.moved(lens=out)
            return self.defocus(distance, stand, behind, seen)

        return _root(miss, 0.0, per_mm)

    def magnification(self, distance: float) -> float:
        """The size of the image for the subject's, near the axis; 0 for a far one."""
        front, _ = self.glass.principal_planes
        return self.glass.focal_length / (
            distance - self.first_face(Stand()) + front - self.glass.focal_length
        )


@lru_cache(maxsize=4096)
def _unscrewed(glass: Glass, cell: float) -> Glass:
    return glass.unscrewed(cell) if cell else glass


@lru_cache(maxsize=4096)
def _criterion(glass: Glass, radius: float, lines: float) -> float:
    """How far most contrast lies behind the least spot, for a far subject."""
    return best_focus(glass, 0.0, radius, lines) - best_focus(glass, 0.0, radius)


def _root(miss: Callable[[float], float], start: float, slope: float) -> float:
    """Where a nearly straight function is 0, by secants; `slope` is what it is about."""
    at, off = start, miss(start)
    for _ in range(_TRIES):
        if abs(off) < _CLOSE:
            return at
        nxt = at - off / slope
        found = miss(nxt)
        if nxt != at and found != off:
            slope = (found - off) / (nxt - at)
        at, off = nxt, found
    raise NoAnswer("The rays found no place that is sharp.", quantity="sharp_at")
