"""A rangefinder coupled to the lens: by a straight lever, or by a cam cut for one lens.

What the follower rides on says how far the lens stands out when the images meet.
"""

import math
from dataclasses import dataclass
from typing import Literal

from optics.world.lens import Lens


@dataclass(frozen=True)
class Coupling:
    """The finder's base, its way before the film, and how it is joined to the lens.

    A lever was set right at infinity and at `near`; a cam is cut for the lens it came with.
    `follows` is the lens itself with whatever shims it, or the carriage that the lens is seated
    on.
    """

    base: float
    before_film: float
    magnification: float
    near: float
    joined: Literal["lever", "cam"] = "lever"
    follows: Literal["lens", "carriage"] = "lens"

    def angle(self, distance: float) -> float:
        """The angle between the finder's two lines to a subject: atan(b/(D − k))."""
        return math.atan(self.base / (distance - self.before_film))

    def out(self, works: Lens, distance: float, cut_for: Lens | None = None) -> float:
        """How far out the follower is when the images of a subject meet, as it left the works.

        The mirror turns by half the angle and a straight lever turns it in proportion, so that
        between its two settings the lens stands too far out: the lever's bow.
        """
        if self.joined == "cam":
            return (cut_for or works).needs(distance)
        return works.needs(self.near) * self.angle(distance) / self.angle(self.near)
