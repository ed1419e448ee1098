"""What is engraved on a focusing ring, and the law of a scale that is ordered anew."""

import math
from dataclasses import dataclass
from typing import Protocol

from optics.world.lens import Lens, Stand


class Scale(Protocol):
    """How far what focuses stands beyond the ∞ mark at a mark, and which mark that is."""

    def out(self, mark: float) -> float:
        """How far out (mm of lens, or of cell) the mark is."""

    def mark_at(self, out: float) -> float:
        """Which distance is engraved so far out."""


@dataclass(frozen=True)
class WorksScale:
    """Cut at the works for its usual lens, whatever this one is."""

    lens: Lens

    def out(self, mark: float) -> float:
        """As rays through the usual lens ask."""
        return self.lens.needs(mark)

    def mark_at(self, out: float) -> float:
        """What the usual lens would show sharp."""
        return self.lens.sharp_at(Stand(cell=out) if self.lens.front_cell else Stand(lens=out))


@dataclass(frozen=True)
class NewScale:
    """Cut for a lens of stated focal length and hiatus that moves as a whole.

    Equation: x = (a − √(a² − 4f²))/2 with a = D − h − 2f; D = a + h + 2f.
    """

    focal_length: float
    hiatus: float

    def out(self, mark: float) -> float:
        """The extension, in the form that stays exact at infinity."""
        f = self.focal_length
        a = mark - self.hiatus - 2 * f
        return 0.0 if math.isinf(a) else 2 * f**2 / (a + math.sqrt(a**2 - 4 * f**2))

    def mark_at(self, out: float) -> float:
        """The distance whose extension this is."""
        f = self.focal_length
        return math.inf if out == 0 else 2 * f + self.hiatus + out + f**2 / out


@dataclass(frozen=True)
class NewCellScale:
    """Cut for a front cell of stated focal length, so far from the film at infinity.

    Equation: t = f₁²/(u − f₁), u from the cell's front principal plane where it then stands.
    """

    focal_length: float
    to_film: float

    def out(self, mark: float) -> float:
        """The cell's movement: the less root of t² − (D − K − f₁)·t + f₁² = 0."""
        f = self.focal_length
        a = mark - self.to_film - f
        return 0.0 if math.isinf(a) else 2 * f**2 / (a + math.sqrt(a**2 - 4 * f**2))

    def mark_at(self, out: float) -> float:
        """The distance whose movement this is."""
        f = self.focal_length
        return math.inf if out == 0 else self.to_film + out + f + f**2 / out
