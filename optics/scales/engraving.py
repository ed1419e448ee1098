"""What is engraved on a focusing scale: units, figures, and the distances usually chosen."""

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from optics.units.printing import fixed, trimmed

_FOOT = 304.8
_QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}


class ScaleUnit(StrEnum):
    """The unit in which a scale is engraved."""

    METRES = "m"
    FEET = "ft"

    @property
    def size(self) -> float:
        """The unit in mm."""
        return 1000.0 if self is ScaleUnit.METRES else _FOOT

    @property
    def words(self) -> str:
        """The unit in words."""
        return "metres" if self is ScaleUnit.METRES else "feet"


@dataclass(frozen=True)
class Series:
    """Distances as scales have them, in the scale's unit, the ones most wanted first."""

    ranks: tuple[tuple[float, ...], ...]
    nearest: tuple[float, ...]


SERIES: dict[ScaleUnit, Series] = {
    ScaleUnit.METRES: Series(
        (
            (0.5, 1, 2, 5, 10, 20, 50),
            (0.3, 0.7, 1.5, 3, 7, 30, 100),
            (0.4, 0.6, 0.8, 1.2, 2.5, 4, 15),
            (0.35, 0.45, 0.9, 1.1, 1.3, 1.7, 6, 8, 12),
        ),
        (0.3, 0.4, 0.5, 0.7, 1, 1.2, 1.5, 2, 3, 5),
    ),
    ScaleUnit.FEET: Series(
        (
            (1, 2, 3, 5, 10, 20, 50),
            (1.5, 2.5, 4, 7, 15, 30, 100),
            (3.5, 6, 8, 12, 25),
            (1.25, 1.75, 2.25, 2.75, 4.5, 9, 40),
        ),
        (1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 7, 10, 15),
    ),
}
"""Common practice, no source."""

NEAREST_IN_FOCAL_LENGTHS = 18
"""How near an everyday lens focuses, over its focal length; from memory."""


def figure_of(distance: float, unit: ScaleUnit) -> str:
    """A distance in mm as it is engraved, without its unit: ``1.2``, ``3½``, ``3′4″``, ``∞``.

    Never rounded away: a distance that is no quarter foot is given in feet and inches, or in
    decimals.
    """
    if math.isinf(distance):
        return "∞"
    if unit is ScaleUnit.METRES:
        return trimmed(Fraction(distance) / 1000, 4)
    quarters = distance / _FOOT * 4
    if _is_whole(quarters):
        feet, rest = divmod(round(quarters), 4)
        return f"{feet or ''}{_QUARTERS[rest]}"
    inches = distance / 25.4
    if _is_whole(inches):
        feet, rest = divmod(round(inches), 12)
        return f"{feet}′{rest}″" if feet else f"{rest}″"
    return trimmed(Fraction(distance) / Fraction(_FOOT), 4)


def stop_figure(f_number: float) -> str:
    """An f-number as it is engraved on a depth scale."""
    return trimmed(Fraction(f_number), 2)


def usual_nearest(focal_length: float, unit: ScaleUnit) -> float:
    """The nearest distance an everyday scale has for a focal length; both in mm."""
    wanted = NEAREST_IN_FOCAL_LENGTHS * focal_length / unit.size
    series = SERIES[unit].nearest
    return unit.size * next((value for value in series if value >= wanted), wanted)


def usual_distances(nearest: float, unit: ScaleUnit) -> tuple[float, ...]:
    """Every distance of the usual series from the nearest on, in mm, the nearest itself too."""
    series = {value * unit.size for rank in SERIES[unit].ranks for value in rank}
    return tuple(sorted({nearest} | {value for value in series if value > nearest}))


def rank_of(distance: float, unit: ScaleUnit) -> int:
    """How much a distance is wanted on a scale: 0 most."""
    for rank, values in enumerate(SERIES[unit].ranks):
        if any(math.isclose(distance, value * unit.size) for value in values):
            return rank
    return len(SERIES[unit].ranks)


def _is_whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6 and round(value) > 0


def table_figure(distance: float, unit: ScaleUnit) -> str:
    """A distance in mm rounded as a pocket table has it, without its unit.

    Metres: to 1 mm below 50 cm, 1 cm below 10 m, 10 cm below 100 m. Feet: to 1/4 in below 10 ft,
    1 in below 30 ft, then whole feet.
    """
    if math.isinf(distance):
        return "∞"
    if unit is ScaleUnit.METRES:
        places = 3 if distance < 499.5 else 2 if distance < 9995 else 1 if distance < 99950 else 0
        return fixed(Fraction(distance) / 1000, places)
    return _feet_and_inches(distance / 25.4)


def _feet_and_inches(inches: float) -> str:
    parts = 4 if inches < 120 - 1 / 8 else 1 if inches < 360 - 1 / 2 else 0
    if not parts:
        return f"{round(inches / 12)}′"
    feet, rest = divmod(round(inches * parts), 12 * parts)
    whole, quarters = divmod(rest, parts)
    tail = f"{whole}{_QUARTERS[quarters]}"
    return (f"{feet}′" if feet else "") + (f"{tail}″" if rest or not feet else "")
