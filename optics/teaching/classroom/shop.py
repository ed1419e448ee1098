"""A quantity's figure as a shop says it and types it.

Core units stay mm and rad; here they become metres for subjects, thousandths beside small
lengths, and degrees for angles.
"""

import math
from functools import cache, partial

from optics import units
from optics.relation import Quantity
from optics.theory import CATALOGUE
from optics.typed import fields
from optics.typed.fields import Typed

QUANTITIES: dict[str, Quantity] = {
    quantity.name: quantity for relation in CATALOGUE.values() for quantity in relation.quantities
}
"""Every quantity of the catalogue by its name."""

# Below this a length would be said as 0.0 thou.
_TENTH_THOU = 0.0013
_DIGITS = 9


@cache
def field_of(quantity: Quantity) -> Typed:
    """How a quantity is typed."""
    return fields.of(quantity)


def said(quantity: Quantity, value: float) -> str:
    """The figure in shop units, rounded to what a shop reads off."""
    if math.isinf(value):
        return "∞" if value > 0 else "−∞"
    if quantity.typed_in == "m":
        return units.format_distance(value)
    if quantity.unit == "mm":
        return _length(value)
    if quantity.unit == "rad":
        return units.format_angle(value)
    if quantity.typed_in == "f/":
        return f"f/{value:.4g}"
    return f"{_number(value, 4)} {quantity.unit}".strip()


def _length(mm: float) -> str:
    """Four digits, and thousandths of an inch beside what a shim could be."""
    size = abs(mm)
    if size >= 10_000:
        return units.format_length(mm, unit="m", places=2)
    if 0 < size < 0.0005:
        return f"{_number(mm * 1000, 3)} µm"
    text = f"{_number(mm, 4)} mm"
    is_shim = _TENTH_THOU <= size < 1
    return f"{text} ({units.format_length(mm, unit='thou', places=1)})" if is_shim else text


def _number(value: float, figures: int) -> str:
    return f"{value:.{figures}g}".replace("-", "−")


def typed(quantity: Quantity, value: float) -> str:
    """The figure as text that reads back as the same number to nine digits."""
    if math.isinf(value):
        return "∞" if value > 0 else "−∞"
    if quantity.typed_in == "m":
        return f"{_plain(value / 1000)} m"
    if quantity.unit == "rad":
        return f"{_plain(math.degrees(value))}°"
    return f"{_plain(value)} {quantity.unit}".strip()


def _plain(value: float) -> str:
    """Nine significant digits without an exponent, which lengths are not typed with."""
    if value == 0:
        return "0"
    places = max(0, _DIGITS - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def range_of(quantity: Quantity) -> str:
    """Between which figures the quantity has a meaning, in words and core units."""
    return ", ".join(quantity.range.ends(partial(_bound, quantity))) or "any, plus or minus"


def _bound(quantity: Quantity, limit: float) -> str:
    if limit and quantity.unit == "rad":
        return units.format_angle(limit)
    if limit >= 10_000 and quantity.unit == "mm":
        return units.format_distance(limit)
    return f"{_number(limit, 6)} {quantity.unit}".strip()
