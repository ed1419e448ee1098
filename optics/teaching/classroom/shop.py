"""A quantity's figure as a shop says it and types it.

Core units stay mm and rad; here they become metres for subjects, thousandths beside small
lengths, and degrees for angles.
"""

import math
from collections.abc import Callable
from functools import partial

from optics import units
from optics.relation import Quantity
from optics.theory import CATALOGUE
from optics.units import Understood

QUANTITIES: dict[str, Quantity] = {
    quantity.name: quantity for relation in CATALOGUE.values() for quantity in relation.quantities
}
"""Every quantity of the catalogue by its name."""

# Lengths that reach from the camera to the subject: typed in metres, and infinity is one of them.
DISTANCES = frozenset(
    (
        "aim_distance",
        "equivalent_distance",
        "false_infinity",
        "far_edge",
        "far_from_film",
        "far_limit",
        "film_distance",
        "focus_between",
        "group_distance",
        "hinge_distance",
        "hyperfocal",
        "indicated_distance",
        "infinity_target_distance",
        "lath_distance",
        "limit_from_film",
        "limit_from_lens",
        "mark_distance",
        "near_edge",
        "near_from_film",
        "near_limit",
        "object_distance",
        "range_distance",
        "range_far",
        "range_near",
        "sharp_distance",
        "subject_from_focus",
        "viewing_distance",
        "wanted_distance",
    )
)
_ENDLESS = frozenset({"inf", "infinity", "∞"})
# Below this a length would be said as 0.0 thou.
_TENTH_THOU = 0.0013
_DIGITS = 9


def name_of(quantity: Quantity) -> str:
    """The meaning without what stands in brackets, as a label says it."""
    return quantity.meaning.partition(" (")[0]


def unit_of(quantity: Quantity) -> str:
    """The unit that a bare number has when it is typed."""
    if quantity.name in DISTANCES:
        return "m"
    return "°" if quantity.unit == "rad" else quantity.unit


def read(quantity: Quantity, text: str) -> Understood:
    """What was typed for a quantity, in core units.

    Errors: Unreadable for what has no single meaning, OutOfRange outside the quantity's range.
    """
    found = _reader(quantity)(text)
    quantity.check(found.value)
    return found


def _reader(quantity: Quantity) -> Callable[[str], Understood]:
    words = name_of(quantity)
    if quantity.name in DISTANCES:
        return lambda text: _read_distance(text, words)
    if quantity.name == "f_number":
        return lambda text: units.read_f_number(text, words=words)
    if quantity.unit == "mm":
        return lambda text: units.read_length(text, words=words)
    if quantity.unit == "rad":
        return lambda text: units.read_angle(text, words=words)
    return lambda text: _read_number(text, quantity)


def _read_distance(text: str, words: str) -> Understood:
    """A distance, which may lie behind the lens: a virtual image counts as minus."""
    if text.strip().lower() in _ENDLESS:
        return units.read_distance(text, words=words)
    return units.read_length(text, unit="m", words=words)


def _read_number(text: str, quantity: Quantity) -> Understood:
    """A number, with the quantity's own unit behind it or without."""
    bare = text.strip().removesuffix(quantity.unit) if quantity.unit else text
    found = units.read_number(bare, words=name_of(quantity))
    return Understood(text, found.value, f"{found.echo} {quantity.unit}".strip())


def said(quantity: Quantity, value: float) -> str:
    """The figure in shop units, rounded to what a shop reads off."""
    if math.isinf(value):
        return "∞" if value > 0 else "−∞"
    if quantity.name in DISTANCES:
        return units.format_distance(value)
    if quantity.unit == "mm":
        return _length(value)
    if quantity.unit == "rad":
        return units.format_angle(value)
    if quantity.name == "f_number":
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
    if quantity.name in DISTANCES:
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
