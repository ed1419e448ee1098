"""The infinity lath: two upright marks one base apart that stand for infinity close at hand.

Held square to the lines of sight, at any distance, the two marks must fall together in a
rangefinder that is right at infinity. What the paper, the hand and the eye leave is worked out
here.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate
from optics.theory import lens, rangefinder
from optics.units import fine_mm, format_distance

# The eye's working acuity, one minute of arc (common practice, no source).
WORKING_ACUITY = math.radians(1 / 60)


@dataclass(frozen=True)
class Lath:
    """A lath for a camera's base, stood `distance` mm in front of the base line.

    `base` and `base_to_film` in mm; `magnification` of the rangefinder and the eye's `acuity`
    (rad) say what misalignment can be seen at all.
    Errors: OutOfRange for a base or distance that is not above zero and finite.
    """

    camera: Camera
    base: float
    distance: float
    base_to_film: float = 0.0
    magnification: float = 1.0
    acuity: float = WORKING_ACUITY

    def __post_init__(self) -> None:
        """Refuse what no lath could be made for."""
        rangefinder.base.check(self.base)
        rangefinder.lath_distance.check(self.distance)
        rangefinder.finder_magnification.check(self.magnification)
        rangefinder.eye_acuity.check(self.acuity)
        if math.isinf(self.distance) or math.isinf(self.base):
            raise OutOfRange(
                "The lath's distance and base must be finite: got infinity; at infinity no "
                "lath is needed.",
                quantity="lath_distance",
                value=math.inf,
            )

    @cached_property
    def film_tolerance(self) -> float:
        """The error of spacing in mm that alone uses up the tolerance at the film.

        Equation: Δb = b·Λ/(D − k), D where the lens is sharp when so far out.
        """
        formula, constants = self.camera.mark_error_formula(lens.sharp_distance)
        sharp = formula.value(
            mark_distance=math.inf, focus_error=self.camera.allowed_error, **constants
        )
        return abs(
            rangefinder.infinity_lath.solve_for(rangefinder.spacing_error).value(
                false_infinity=sharp - self.base_to_film,
                base=self.base,
                lath_distance=self.distance,
            )
        )

    @property
    def eye_tolerance(self) -> float:
        """The error of spacing in mm that the eye cannot see at this distance, ε·Λ/M."""
        return self.acuity * self.distance / self.magnification

    @property
    def tolerance(self) -> float:
        """How true the spacing must be: a quarter of what the film forgives.

        Four to one between a gauge and what it sets is common practice, no source.
        """
        return self.film_tolerance / 4

    @property
    def squareness(self) -> float:
        """How far (rad) the lath may stand askew before it looks too narrow by the tolerance."""
        return math.acos(max(1 - self.tolerance / self.base, 0.0))

    def false_infinity(self, spacing_error: float) -> float:
        """Distance in mm from the film that then passes for infinity; minus: beyond it.

        `spacing_error` in mm, plus when the marks stand too wide apart; none gives infinity.
        """
        from_base = rangefinder.infinity_lath.solve_for(rangefinder.false_infinity).value(
            base=self.base, lath_distance=self.distance, spacing_error=spacing_error
        )
        return from_base + self.base_to_film

    def leaves(self, spacing_error: Estimate) -> Estimate:
        """The focus error in mm at the film once the rangefinder is set by such a lath.

        Plus is too far out: marks too wide apart make it so, at every distance alike.
        Limits: errors of spacing small against the base.
        """
        slope = self.camera.allowed_error / self.film_tolerance
        parts = {source: slope * part for source, part in spacing_error.parts.items()}
        return Estimate(slope * spacing_error.value, parts)


def said_tolerance(lath: Lath) -> str:
    """The tolerance on the spacing in one sentence."""
    return (
        f"Marks {fine_mm(lath.base)} ± {fine_mm(lath.tolerance)} apart (a quarter of what the film "
        f"forgives) for use {format_distance(lath.distance)} from the windows."
    )


def said_leaves(lath: Lath, spacing_error: float) -> str:
    """What an error of the spacing leaves, which way round."""
    left = abs(lath.leaves(Estimate(spacing_error)).value)
    wide = "wide" if spacing_error > 0 else "narrow"
    sense = "out" if spacing_error > 0 else "in"
    false = lath.false_infinity(spacing_error)
    where = "a point beyond infinity" if false < 0 else format_distance(false)
    return (
        f"Too {wide} by {fine_mm(abs(spacing_error))}: {where} passes for infinity, and the lens "
        f"is set {fine_mm(left)} too far {sense} at every distance."
    )


def said_eye(lath: Lath) -> str:
    """What the eye can see of the spacing at this distance."""
    seen = lath.eye_tolerance
    line = f"At {format_distance(lath.distance)} the eye sees {fine_mm(seen)} of spacing"
    if seen <= lath.film_tolerance:
        return f"{line}, finer than the {fine_mm(lath.film_tolerance)} that the film forgives."
    return (
        f"{line} only, coarser than the {fine_mm(lath.film_tolerance)} that the film forgives: set "
        "it several times and take the middle."
    )


def said_use(lath: Lath) -> str:
    """How the lath is stood up."""
    return (
        f"Stand the lath {format_distance(lath.distance)} in front of the windows, its marks "
        "upright and at the windows' height, square to the line of sight within "
        f"{math.degrees(lath.squareness):.1f}°. Lens at infinity: of the four marks seen, the two "
        "in the middle, the left one through the left window and the right one through the "
        "right, must fall together."
    )
