"""The cameras of the invented workshop as they stand on the practice bench."""

from dataclasses import replace

from optics.moves import AdjustingScrew, AtHand
from optics.records.job import CameraPart
from optics.records.lantern_street import CAMERAS, RANGEFINDERS, WORKSHOP
from optics.records.to_bench import camera_of, workshop_of
from optics.teaching.practice.stand import Finder, Stand
from optics.typed import fields

# Under each seat lie shims that can come out; the screws' effects were learnt by trial turns.
_WORKSHOP = replace(workshop_of(WORKSHOP), fitted=((0.2, 1), (0.1, 2)))
_AT_HAND = AtHand(_WORKSHOP, zero_screw=AdjustingScrew(0.2), gain_screw=AdjustingScrew(0.02))


def _stand(part: CameraPart) -> Stand:
    known = RANGEFINDERS.get(part.name)
    if known is None:
        return Stand(camera_of(part), replace(_AT_HAND, zero_screw=None, gain_screw=None))
    base = fields.RANGEFINDER_BASE.read(known.base).value
    magnification = fields.MAGNIFICATION.read(known.magnification).value
    return Stand(camera_of(part), _AT_HAND, Finder(base, magnification))


SHELF: dict[str, Stand] = {part.name: _stand(part) for part in CAMERAS}
"""Every practice camera by its name."""
