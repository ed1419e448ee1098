"""The rangefinder as the repairer describes it, and its compensator's own movement.

Lengths in mm, angles in rad. Nothing is looked up; all figures are what the user states.
"""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.camera.camera import Turn
from optics.moves import Control
from optics.moves.screws import by_turns
from optics.relation import Array, Given
from optics.theory import rangefinder as theory


@dataclass(frozen=True)
class Mirror:
    """One mirror turns about an upright axis."""


@dataclass(frozen=True)
class SwungLens:
    """A lens is swung sideways before a fixed one of equal and opposite power."""

    focal_length: float


@dataclass(frozen=True)
class CounterWedges:
    """Two equal glass wedges turn against each other."""

    index: float
    wedge_angle: float


@dataclass(frozen=True)
class SlidingWedge:
    """A wedge of fixed deviation slides along the beam that a lens brings together."""

    deviation: float
    focal_length: float


Compensator: TypeAlias = Mirror | SwungLens | CounterWedges | SlidingWedge


@dataclass(frozen=True)
class Adjuster:
    """A screw or eccentric that sets the rangefinder, by the name the repairer gives it.

    `brings_in` is the way of turning after which the lens stands farther in, nearer the film,
    when the two images meet; None where that is not known, and a trial turn will tell.
    """

    name: str
    brings_in: Turn | None = None
    is_eccentric: bool = False

    @property
    def control(self) -> Control:
        """How a hand turns it, whose effect is still to be learned."""
        return by_turns(self.name)


ZERO = Adjuster("infinity adjuster")
GAIN = Adjuster("near adjuster")


@dataclass(frozen=True)
class Rangefinder:
    """Base, its place, magnification, compensator and the two adjusters.

    `base_to_film` is how far the base line lies in front of the film plane.
    """

    base: float
    base_to_film: float = 0.0
    magnification: float = 1.0
    compensator: Compensator = Mirror()
    zero_adjuster: Adjuster = ZERO
    gain_adjuster: Adjuster = GAIN

    def __post_init__(self) -> None:
        """Refuse at once what no formula could use."""
        theory.base.check(float(self.base))
        theory.base_to_film.check(float(self.base_to_film))
        theory.finder_magnification.check(float(self.magnification))

    @property
    def effective_base(self) -> float:
        """The base as the eye sees it, b·M."""
        return theory.virtual_base.solve_for(theory.effective_base).value(
            base=self.base, finder_magnification=self.magnification
        )

    def convergence(self, film_distance: float) -> float:
        """The angle (rad) between the lines of sight to a subject; 0 for infinity."""
        return float(self.convergences(np.float64(film_distance)))

    def convergences(self, film_distances: Given) -> Array:
        """The same for many distances at once."""
        return np.asarray(
            theory.triangle.solve_for(theory.convergence).value(
                base=self.base, base_to_film=self.base_to_film, film_distance=film_distances
            )
        )

    def compensator_movement(self, convergence: float) -> float:
        """What the compensator does for a convergence.

        Mirror and counter-turning wedges: their turn in rad. Swung lens and sliding wedge:
        their travel in mm.
        """
        match self.compensator:
            case Mirror():
                formula = theory.turning_mirror.solve_for(theory.mirror_turn)
                return formula.value(convergence=convergence)
            case SwungLens(focal_length):
                return theory.swung_lens.solve_for(theory.compensator_shift).value(
                    convergence=convergence, compensator_focal_length=focal_length
                )
            case CounterWedges(index, angle):
                return theory.counter_wedges.solve_for(theory.wedge_turn).value(
                    convergence=convergence, wedge_index=index, wedge_angle=angle
                )
            case SlidingWedge(deviation, focal_length):
                return theory.sliding_wedge.solve_for(theory.wedge_travel).value(
                    convergence=convergence,
                    deviation=deviation,
                    compensator_focal_length=focal_length,
                )
