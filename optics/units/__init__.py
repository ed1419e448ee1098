"""Lengths, distances, angles and counts as people write them, and back to text.

Reading is strict: text either has one meaning or is refused with an example, and what was
understood is echoed. General unit libraries were not used because they read ``3 ft 6`` as
18 ft and ``1,2 m`` as 12 m.

The decimal mark is a point or a comma. A comma is refused as ambiguous only when exactly three
digits follow it and one to three digits not starting with 0 stand before it (``1,200`` is 1.2 to
one reader and 1200 to the next); ``1,20``, ``0,200`` and ``1234,567`` can only be decimals. A
point is always a decimal point, because readings such as ``1.234 mm`` are everyday. Spaces never
group digits. Between two figures stands a semicolon and nothing else, and a unit at the end rules
all figures before it that have none.
"""

from optics.units.lists import Leaves, format_leaves, read_leaves, read_list, with_unit_at_end
from optics.units.printing import (
    fine_mm,
    format_angle,
    format_distance,
    format_length,
    format_signed,
    format_uncertainty,
)
from optics.units.reading import (
    Understood,
    read_angle,
    read_count,
    read_distance,
    read_f_number,
    read_length,
    read_number,
)
from optics.units.turning import read_turns

__all__ = [
    "Leaves",
    "Understood",
    "fine_mm",
    "format_angle",
    "format_distance",
    "format_leaves",
    "format_length",
    "format_signed",
    "format_uncertainty",
    "read_angle",
    "read_count",
    "read_distance",
    "read_f_number",
    "read_leaves",
    "read_length",
    "read_list",
    "read_number",
    "read_turns",
    "with_unit_at_end",
]
