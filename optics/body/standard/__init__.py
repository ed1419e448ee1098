"""The lens standard: gauged, judged, and put square to the film with shims.

Places are in mm from the middle of the frame as seen from the front, x plus to the right
and y plus upwards; heights in mm from the film rails, or from a dial's zero.
"""

from optics.body.standard.defocus import Corner, DefocusMap, Frame, Tilted, View, defocus_map
from optics.body.standard.flatness import Bend, Flatness
from optics.body.standard.measured import Standard, measure_standard
from optics.body.standard.minimax import Minimax
from optics.measure.places import DepthReading, depth_readings

__all__ = [
    "Bend",
    "Corner",
    "DefocusMap",
    "DepthReading",
    "Flatness",
    "Frame",
    "Minimax",
    "Standard",
    "Tilted",
    "View",
    "defocus_map",
    "depth_readings",
    "measure_standard",
]
