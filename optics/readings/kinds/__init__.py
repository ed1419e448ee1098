"""The kinds of reading, one file each, found by being here.

A kind's file holds the reading as it is typed (a `ReadingPart`), the reading as it is understood
(a `Reading`, or a `Direction` that tells the way only), and the `Kind` that joins the two.
"""

from optics.readings.kinds.record import Kind
from optics.readings.kinds.registry import ALL, ByKind, find

__all__ = ["ALL", "ByKind", "Kind"]

find(__name__, list(__path__))
