"""Values back to text: rounded once from the exact value, with a real minus and never −0.00."""

import math
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from optics.units.scales import ANGLES, LENGTHS

_DEGREES_PER_RADIAN = Fraction(180 / math.pi)
_INCH = Fraction(254, 10)
_TEN_FEET_IN_INCHES = 120


def fixed(value: Fraction | float, places: int) -> str:
    """Print a number with so many decimals (rounded half to even), or to tens if negative."""
    if isinstance(value, float) and math.isinf(value):
        return "∞" if value > 0 else "−∞"
    exact = Fraction(value)
    rounded = round(abs(exact), places)
    digits = str(int(rounded * 10 ** max(places, 0))).zfill(max(places, 0) + 1)
    sign = "−" if exact < 0 < rounded else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places > 0 else sign + digits


def trimmed(value: Fraction | float, places: int) -> str:
    """Print a number with at most so many decimals, without trailing zeros."""
    text = fixed(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def shortest(value: float) -> str:
    """Print the fewest digits that read back as the same number, never with an exponent."""
    text = format(Decimal(repr(value)), "f").removesuffix(".0").replace("-", "−")
    return text if value else "0"


def format_length(mm: float, *, unit: str = "mm", places: int = 2) -> str:
    """Print a length in mm in the `unit` named, such as ``0.05 mm`` or ``−2.0 thou``."""
    if math.isinf(mm):
        return fixed(mm, 0)
    named = LENGTHS[unit]
    return named.printed(fixed(Fraction(mm) / Fraction(named.size), places))


def fine_mm(mm: float) -> str:
    """Print a length in mm to a thousandth, the finest that a shop's instruments show."""
    return format_length(mm, places=3)


def format_signed(mm: float, *, unit: str = "mm", places: int = 2) -> str:
    """Print a correction or focus error in mm with its sign, ``+0.05 mm``; zero has none."""
    text = format_length(mm, unit=unit, places=places)
    is_zero = not any(mark in text for mark in "123456789∞")
    return text if is_zero or text.startswith("−") else f"+{text}"


def format_distance(mm: float, *, system: Literal["metric", "imperial"] = "metric") -> str:
    """Print a distance in mm as a repairer says it; infinity is ``∞``.

    Metric: four significant digits in cm below 1 m, in m, or in km from 10 km. Imperial: feet
    and inches to the nearest 1/8 in below 10 ft, to the nearest 1/4 in beyond.
    """
    if math.isinf(mm):
        return fixed(mm, 0)
    return {"metric": _metric, "imperial": _feet_and_inches}[system](mm)


def _metric(mm: float) -> str:
    exact = Fraction(mm)
    if exact == 0:
        return "0 cm"
    # Rounding comes first so that 999.96 mm is 1 m and not 100 cm; 0.001 mm is the finest digit.
    rounded = round(exact, min(3, 3 - _exponent(abs(exact))))
    size = abs(rounded)
    unit, scale = ("cm", 10) if size < 1000 else ("m", 1000) if size < 10_000_000 else ("km", 10**6)
    return f"{trimmed(rounded / scale, 6)} {unit}"


def _feet_and_inches(mm: float) -> str:
    inches = Fraction(mm) / _INCH
    pieces = 8 if abs(inches) < _TEN_FEET_IN_INCHES else 4
    count = round(abs(inches) * pieces)
    feet, rest = divmod(count, 12 * pieces)
    words = [f"{feet} ft"] if feet else []
    words += [f"{_mixed(Fraction(rest, pieces))} in"] if rest or not feet else []
    return "−" * (mm < 0 < count) + " ".join(words)


def format_angle(rad: float) -> str:
    """Print an angle in degrees; below 1° in arcminutes, below 1′ in arcseconds.

    One decimal, and two from 1° to 10°, so that three digits are shown where they matter.
    """
    if math.isinf(rad):
        return fixed(rad, 0)
    degrees = Fraction(rad) * _DEGREES_PER_RADIAN
    if abs(degrees) >= Fraction(5999, 6000):  # what rounds to 60.0′ is 1°
        return ANGLES["deg"].printed(fixed(degrees, 1 if abs(degrees) >= 10 else 2))
    if abs(degrees) * 60 >= Fraction(1199, 1200):  # what rounds to 60.0″ is 1′
        return ANGLES["arcmin"].printed(fixed(degrees * 60, 1))
    seconds = fixed(degrees * 3600, 1)
    return "0°" if seconds == "0.0" else ANGLES["arcsec"].printed(seconds)


def format_uncertainty(value: float, uncertainty: float, unit: str) -> str:
    """Print ``0.123 mm ± 0.031 mm``: the uncertainty to two digits, the value to its last place.

    Both are already in `unit`, which is only written. Source: GUM (JCGM 100:2008) 7.2.6. With
    no uncertainty, or an infinite one, the value is printed in full.
    """
    size = abs(uncertainty)
    if math.isinf(value) or math.isinf(size) or size == 0:
        whole = fixed(value, 0) if math.isinf(value) else shortest(value)
        return f"{whole} {unit} ± {trimmed(size, 0)} {unit}"
    exact = Fraction(size)
    # Rounding 0.0996 carries to 0.10, so the second digit is sought in the rounded figure.
    places = 1 - _exponent(round(exact, 1 - _exponent(exact)))
    return f"{fixed(value, places)} {unit} ± {fixed(exact, places)} {unit}"


def _exponent(positive: Fraction) -> int:
    """Return the power of ten of the leading digit, exactly."""
    guess = len(str(positive.numerator)) - len(str(positive.denominator))
    return guess if positive >= Fraction(10) ** guess else guess - 1


def _mixed(value: Fraction) -> str:
    """Print a fraction as a whole number and a proper fraction."""
    whole, rest = divmod(abs(value), 1)
    words = [str(whole)] if whole or not rest else []
    words += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    return "−" * (value < 0) + " ".join(words)
