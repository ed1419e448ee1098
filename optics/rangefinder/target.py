"""A plain focusing target: which line widths a loupe can show on the ground glass."""

import math
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.rangefinder.lath import WORKING_ACUITY

# The distance at which a loupe's magnification is stated (an optical convention).
NEAR_POINT = 250.0
# Widths in steps of the square root of two, in mm on the target.
LINE_WIDTHS = (5.6, 4.0, 2.8, 2.0, 1.4, 1.0, 0.7, 0.5, 0.35, 0.25)


@dataclass(frozen=True)
class FocusingTarget:
    """A target `distance` mm from the film, looked at on ground glass through a loupe.

    `loupe`: its magnification (1: the naked eye at 250 mm). `acuity` in rad.
    Errors: OutOfRange for a loupe or acuity that is not above zero, or a target at infinity.
    Limits: a sharp lens and fine glass; the grain of ground glass often hides more.
    """

    camera: Camera
    distance: float
    loupe: float
    acuity: float = WORKING_ACUITY

    def __post_init__(self) -> None:
        """Refuse what shows nothing."""
        for name, value in (("loupe's magnification", self.loupe), ("acuity", self.acuity)):
            if not value > 0:
                raise OutOfRange(
                    f"The {name} must be more than 0: got {value:g}; enter it again.",
                    quantity=name,
                    value=value,
                    limit=0.0,
                )
        if math.isinf(self.distance):
            raise OutOfRange(
                "The target's distance must be finite: got infinity; enter how far from the film "
                "it is pinned up.",
                quantity="distance",
                value=math.inf,
            )

    @property
    def finest_on_glass(self) -> float:
        """The narrowest line on the ground glass that the loupe shows, 250 mm·ε/M."""
        return NEAR_POINT * self.acuity / self.loupe

    @property
    def finest_on_target(self) -> float:
        """The same line's width on the target, in mm."""
        return self.finest_on_glass / self.camera.magnification_at(self.distance)

    @property
    def best_width(self) -> float | None:
        """The narrowest width in `LINE_WIDTHS` that can be seen; None if all are too fine."""
        seen = [w for w in LINE_WIDTHS if w >= self.finest_on_target]
        return min(seen, default=None)
