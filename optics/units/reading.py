"""Read one typed quantity; each reader answers what it means in core units, or refuses it.

Every refusal is `Unreadable` (no single meaning) or `OutOfRange` (clear, but meaningless for
the quantity), in one sentence with the quantity's words, the text and an example.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from optics.units.numerals import Measure, Question, decimal_number, measure, signed
from optics.units.printing import shortest, trimmed
from optics.units.scales import ANGLES, LENGTHS, Unit

INFINITE = frozenset({"inf", "infinity", "∞"})
_PURE = Unit("", Fraction(1), joint="")
_EXPONENT = re.compile(r"([0-9]+(?:[.,][0-9]+)?|\.[0-9]+)e([+-]?[0-9]+)")
_APERTURE = re.compile(r"(?:1\s*:|[fƒ]\s*[/:]?)?\s*([0-9]+(?:[.,][0-9]+)?)")
_LARGEST_COUNT = 2**53
# No subject a lens is set by is a kilometre off and not at infinity (common practice, no source).
_FAR_FOR_METRES = 1000


@dataclass(frozen=True)
class Understood:
    """What was typed, its value in core units (mm, radians or a plain number), and an echo.

    `is_bare` says that a length was typed without its unit.
    """

    text: str
    value: float
    echo: str
    is_bare: bool = False


def read_length(
    text: str,
    *,
    unit: str = "mm",
    words: str = "length",
    is_small: bool = False,
    any_size: bool = False,
) -> Understood:
    """Read a signed length, in mm; a number without a unit is in `unit`.

    ``0.05``, ``−0,05 mm``, ``1/8 in``, ``3 1/2"``, ``3 ft 6``, ``2 thou``. The inch is 25.4 mm
    exactly (international yard and pound agreement, 1959). A foot or inch sign is ``'`` or
    ``"``, or ``''``. ``44,661`` is refused unless `is_small`: what a gauge reads is never
    thousands of mm. A bare number of a thousand metres or more is refused with the question which
    unit is meant, unless `any_size`. ``mil`` is refused: it means a thousandth of an inch to one
    shop and a millimetre to the next.
    """
    example = f"0.05 mm, 1/8 in or a number of {LENGTHS[unit].sign}"
    question = Question(text, words, example, is_small)
    if text.strip().lower() in INFINITE:
        raise question.outside("must be finite")
    return _length(text, _measured(question, unit, any_size))


def read_distance(
    text: str,
    *,
    unit: str = "m",
    words: str = "distance",
    is_small: bool = False,
    any_size: bool = False,
) -> Understood:
    """Read a distance, in mm: a length greater than zero, or ``inf``, ``infinity`` or ``∞``.

    A bare number of a thousand metres or more is refused with the question which unit is meant,
    unless `any_size`.
    """
    if text.strip().lower() in INFINITE:
        return Understood(text, math.inf, "infinity (∞)")
    question = Question(text, words, "1.2 m, 3 ft 6 in or inf", is_small)
    measured = _measured(question, unit, any_size)
    if measured.amount <= 0:
        raise question.outside(f"must be greater than 0 {measured.unit.sign}")
    return _length(text, measured)


def read_angle(
    text: str, *, unit: str = "deg", words: str = "angle", is_small: bool = False
) -> Understood:
    """Read a signed angle, in radians; a number without a unit is in `unit`.

    ``12.5``, ``12° 30'``, ``3.2'`` (arcminutes), ``12"`` (arcseconds), ``0.5 mrad``,
    ``1/4 turn``. Turns are echoed in degrees too, except where turns are what the field is in.
    """
    question = Question(text, words, "12.5°, 3.2' or 1/4 turn", is_small)
    measured = measure(question, ANGLES, ANGLES[unit])
    value = measured.value
    if measured.written.endswith("°") or unit == measured.unit.sign == "turn":
        return Understood(text, value, _plural(measured))
    return Understood(text, value, f"{_fine(math.degrees(value))}° = {_plural(measured)}")


def read_number(text: str, *, words: str, is_small: bool = False) -> Understood:
    """Read a plain signed number, as ``1.5``, ``1,5``, ``3/4`` or ``1e-3``."""
    question = Question(text, words, "1.5", is_small)
    sign, body = signed(question.tidied())
    match = _EXPONENT.fullmatch(body)
    if match:
        value = sign * _with_exponent(question, *match.groups())
        return Understood(text, value, repr(value).replace("-", "−"))
    measured = measure(question, {}, _PURE)
    is_plain = "/" not in measured.written
    echo = measured.written if is_plain else f"{_fine(measured.value)} = {measured.written}"
    return Understood(text, measured.value, echo)


def read_f_number(text: str, *, words: str = "f-number") -> Understood:
    """Read an f-number, greater than zero: ``3.5``, ``f/3.5``, ``F 3,5`` or ``1:3.5``."""
    question = Question(text, words, "f/3.5")
    match = _APERTURE.fullmatch(question.tidied())
    if not match:
        raise question.refuse("it is not one number, alone or after f/")
    number, numeral = decimal_number(question, match[1])
    if number == 0:
        raise question.outside("must be greater than 0")
    return Understood(text, float(number), f"f/{numeral}")


def read_count(text: str, *, words: str) -> Understood:
    """Read a whole number of things, 0 or more."""
    question = Question(text, words, "3")
    body = question.tidied()
    if not re.fullmatch("[0-9]+", body):
        raise question.refuse("it is not a whole number of 0 or more")
    if int(body) > _LARGEST_COUNT:
        raise question.outside("is too large to count exactly")
    return Understood(text, float(int(body)), str(int(body)))


def _measured(question: Question, unit: str, any_size: bool) -> Measure:
    """A length in the field's unit; a bare number that is absurd in metres is asked about."""
    measured = measure(question, LENGTHS, LENGTHS[unit])
    is_far = unit == "m" and abs(measured.amount) >= _FAR_FOR_METRES
    if measured.is_bare and is_far and not any_size:
        raise question.which_unit("mm", "millimetres")
    return measured


def _length(text: str, measured: Measure) -> Understood:
    value = measured.value
    if measured.unit.sign in ("mm", "m"):
        return Understood(text, value, measured.written, measured.is_bare)
    metric = f"{trimmed(value / 1000, 3)} m" if abs(value) >= 1000 else f"{_fine(value)} mm"
    return Understood(text, value, f"{metric} = {measured.written}", measured.is_bare)


def _fine(value: float) -> str:
    """Print four decimals, or four digits of something smaller, so that nothing reads as 0."""
    small = 0 < abs(value) < 0.001
    return shortest(float(f"{value:.4g}")) if small else trimmed(value, 4)


def _plural(measured: Measure) -> str:
    return measured.written + "s" * (measured.unit.sign == "turn" and abs(measured.amount) > 1)


def _with_exponent(question: Question, mantissa: str, exponent: str) -> float:
    number, _ = decimal_number(question, mantissa)
    value = float(f"{mantissa.replace(',', '.')}e{exponent}")
    if math.isinf(value) or (value == 0) != (number == 0):
        raise question.outside("is outside the range that can be calculated with")
    return value
