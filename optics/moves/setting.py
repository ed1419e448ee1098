"""How nearly a hand sets, and how near is near enough; what several moves share."""

import math
from dataclasses import dataclass
from typing import Final

from optics.camera.camera import Bed, Camera
from optics.measure.uncertainty import within
from optics.moves.record import Case, Outcome
from optics.units import format_length

FEELER: Final = 0.01
"""What a feeler, a leaf or a slide can be set to (mm); common practice, no source."""
THICKER: Final = ("thicker", "thinner")
"""The two ways of a pack."""
ALONG: Final = ("away from the film", "towards the film")
"""The two ways along a bed."""
# A quarter of the tolerance: the usual four to one between a part and what it must hold
# (common practice, no source).
_NEAR_ENOUGH = 0.25


def near_enough(camera: Camera) -> float:
    """How far (mm at the film) a rounded amount may leave the lens from where it should be."""
    return camera.allowed_error * _NEAR_ENOUGH


def on_bed(camera: Camera) -> bool:
    """Whether the lens slides on a bed or struts."""
    return isinstance(camera.focusing, Bed)


@dataclass(frozen=True)
class Slide:
    """How a part is slid along by whole hundredths of a millimetre.

    `words` is the instruction with {said} and {way} to be filled in, `leave` why it is left,
    `setting` the source of what is missed, at most `limit` (mm) either way.
    """

    words: str
    leave: str
    setting: str
    limit: float = FEELER / 2

    def __call__(self, case: Case) -> Outcome:
        """The part slid by the change that is wanted."""
        amount = round(abs(case.change) / FEELER) * FEELER
        if not amount:
            return case.refused(self.leave)
        (control,) = case.controls
        (effect,) = control.effects.values()
        change = math.copysign(amount, case.change)
        way = control.ways[0] if change * effect > 0 else control.ways[1]
        said = format_length(amount)
        return case.made(
            self.words.format(said=said, way=way),
            round(change, 2) * effect,
            within(change, self.limit, self.setting),
            amounts=(("Move", f"{said} {way}"),),
        )
