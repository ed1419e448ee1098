"""From typed characters to exact numbers with units; nothing here knows what is measured."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple, TypeVar

from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.units.scales import Unit

LONGEST = 64
VULGAR = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
# The spaces around a vulgar fraction keep 3½ from becoming 31/2 and ½3 from becoming 1/23.
_PLAIN = str.maketrans(
    {
        **{mark: f" {spelled} " for mark, spelled in VULGAR.items()},
        **dict.fromkeys("−–‐‑", "-"),
        **dict.fromkeys("′’‘", "'"),
        **dict.fromkeys("″”“", '"'),
        "⁄": "/",
        "º": "°",
        "μ": "µ",
    }
)
# A point straight after a unit may end an abbreviation or start a decimal (3 ft.6): not taken.
_TERM = re.compile(
    r"""\s*(?:(?:([0-9]+)\s+)?([0-9]+)/([0-9]+)|([0-9]+(?:[.,][0-9]+)?|(?<!\S)\.[0-9]+))
        \s*(''|["'°]|[a-zµ]+(?:\.(?![0-9]))?)?""",
    re.VERBOSE,
)
_GROUPED = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_Refusal = TypeVar("_Refusal", bound=ShimwrightError)


@dataclass(frozen=True)
class Question:
    """What was asked for, what was typed, and what could have been typed instead.

    `is_small` says that thousands cannot be meant, so that a comma is a decimal mark.
    """

    text: str
    words: str
    example: str
    is_small: bool = False

    def refuse(self, why: str, example: str = "") -> Unreadable:
        """Build the refusal of text that cannot be understood."""
        return self._error(Unreadable, f"cannot be understood because {why}", example)

    def outside(self, limit: str) -> OutOfRange:
        """Build the refusal of a value that is clear but has no meaning here."""
        return self._error(OutOfRange, limit)

    def which_unit(self, sign: str, name: str) -> Unreadable:
        """Build the question whether a bare number is in metres or in a smaller unit."""
        typed = " ".join(self.text.split())
        return Unreadable(
            f"The {self.words} {quoted(self.text)} has no unit and is far off in metres: metres or "
            f"{name}? To say it, type for example {typed} {sign} or {typed} m.",
            quantity=self.words,
            value=self.text,
        )

    def _error(self, kind: type[_Refusal], why: str, example: str = "") -> _Refusal:
        asked = f"type for example {example or self.example}"
        message = f"The {self.words} {quoted(self.text)} {why}: {asked}."
        general = "" if example else self.example
        return kind(message, quantity=self.words, value=self.text, general=general)

    def tidied(self, longest: int = LONGEST) -> str:
        """Return the text in lower case with plain signs; refuse it if empty or overlong."""
        body = self.text.strip()
        if not body:
            asked = f"The {self.words} is empty: type for example {self.example}."
            raise Unreadable(asked, quantity=self.words, value=self.text, general=self.example)
        if len(body) > longest:
            raise self.refuse(f"it is longer than {longest} characters")
        if len(body.splitlines()) > 1:
            raise self.refuse("a line ends in the middle of it; a semicolon parts two figures")
        return body.translate(_PLAIN).strip().lower()


def quoted(text: str) -> str:
    """Quote text on one line, shortened if overlong, with invisible characters spelled out."""
    line = " ".join(text.split())
    visible = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in line)
    return f"“{visible}”" if len(visible) <= LONGEST else f"“{visible[: LONGEST - 24]}…”"


def signed(body: str) -> tuple[int, str]:
    """Split one leading sign from tidied text."""
    if body[0] in "+-":
        return (-1 if body[0] == "-" else 1), body[1:].lstrip()
    return 1, body


class NumberTerm(NamedTuple):
    """One number with its unit, if one was written."""

    number: Fraction
    numeral: str
    unit: Unit | None


class Measure(NamedTuple):
    """What was typed: an exact signed amount of its leading unit, and how it reads.

    `is_bare` says that no unit was written, so that `unit` is the field's.
    """

    amount: Fraction
    unit: Unit
    written: str
    is_bare: bool

    @property
    def value(self) -> float:
        """The measure in mm or radians, rounded once."""
        return float(self.amount * self.unit.size)


def measure(question: Question, units: Mapping[str, Unit], bare: Unit) -> Measure:
    """Read a signed number of one unit, or of a unit and its smaller one (3 ft 6 in).

    A number without a unit takes `bare`, or after a larger unit that unit's smaller one.
    """
    sign, body = signed(question.tidied())
    terms = _terms(question, body, units)
    unit = _leading(question, terms, bare)
    amount, part, above = terms[0].number, Fraction(1), unit
    written = [unit.printed(terms[0].numeral)]
    for before, term in pairwise(terms):
        below = _following(question, before, above, term, units)
        part, above = part / above.per, below
        amount += term.number * part
        written.append(below.printed(term.numeral))
    text = "−" * (sign < 0 < amount) + " ".join(written)
    return Measure(sign * amount, unit, text, terms[0].unit is None)


def _terms(question: Question, body: str, units: Mapping[str, Unit]) -> list[NumberTerm]:
    terms: list[NumberTerm] = []
    at = 0
    while at < len(body) or not terms:
        match = _TERM.match(body, at)
        if match is None:
            rest = body[at:].strip()
            if terms and re.match(r",\s+[0-9]", rest):
                raise question.refuse("a space follows the comma", re.sub(r"\s*,\s+", ".", body))
            where = f"{quoted(rest)} is not a number" if rest else "a number is missing"
            raise question.refuse(where)
        terms.append(_term(question, match, units))
        at = match.end()
    return terms


def _term(question: Question, match: re.Match[str], units: Mapping[str, Unit]) -> NumberTerm:
    whole, top, bottom, decimal, spelling = match.groups()
    if decimal:
        number, numeral = decimal_number(question, decimal)
    else:
        number, numeral = _fraction(question, whole, top, bottom)
    if spelling is None:
        return NumberTerm(number, numeral, None)
    unit = units.get(spelling.removesuffix("."))
    if unit is None:
        known = "is not one of its units" if units else "is a unit and this is a plain number"
        raise question.refuse(f"{quoted(spelling)} {known}")
    return NumberTerm(number, numeral, unit)


def decimal_number(question: Question, decimal: str) -> tuple[Fraction, str]:
    """Read digits with at most one decimal mark; refuse a comma that may group thousands."""
    if _GROUPED.fullmatch(decimal) and not question.is_small:
        point, none = decimal.replace(",", "."), decimal.replace(",", "")
        why = f"the comma in {quoted(decimal)} may be a decimal mark or group thousands"
        raise question.refuse(why, f"{point} or {none}")
    whole, _, digits = decimal.replace(",", ".").partition(".")
    number = Fraction(int(whole + digits), 10 ** len(digits))
    return number, f"{int(whole or '0')}{'.' * bool(digits)}{digits}"


def _fraction(question: Question, whole: str | None, top: str, bottom: str) -> tuple[Fraction, str]:
    upper, lower = int(top), int(bottom)
    if lower == 0:
        raise question.refuse("a fraction cannot have 0 below the line")
    if whole is not None and upper >= lower:
        raise question.refuse(f"{quoted(f'{upper}/{lower}')} beside a whole number is not below 1")
    if whole is None and upper >= lower:
        _refuse_lost_space(question, top, lower)
    text = f"{upper}/{lower}" if whole is None else f"{int(whole)} {upper}/{lower}"
    return int(whole or "0") + Fraction(upper, lower), text


def _refuse_lost_space(question: Question, top: str, lower: int) -> None:
    """Refuse 31/2, which a slip of the space bar makes of 3 1/2; 5/4 can only be itself."""
    for cut in range(1, len(top)):
        if 0 < int(top[cut:]) < lower and top[cut] != "0":
            mixed = f"{top[:cut]} {top[cut:]}/{lower}"
            why = f"a space may be missing in {quoted(f'{top}/{lower}')}"
            raise question.refuse(why, f"{mixed} or a decimal")


def _leading(question: Question, terms: list[NumberTerm], bare: Unit) -> Unit:
    if terms[0].unit is not None:
        return terms[0].unit
    if len(terms) > 1:
        why = "two numbers stand side by side with no unit between them"
        raise question.refuse(why, _without_groups(terms))
    return bare


def _without_groups(terms: list[NumberTerm]) -> str:
    """Digits grouped by spaces as one number, where they may be that; else nothing."""
    first, *rest = (term.numeral for term in terms)
    if not re.fullmatch("[1-9][0-9]{0,2}", first) or not all(
        re.fullmatch(r"[0-9]{3}(\.[0-9]+)?", numeral) for numeral in rest
    ):
        return ""
    unit, number = terms[-1].unit, "".join([first, *rest])
    return number if unit is None else unit.printed(number)


def _following(
    question: Question, before: NumberTerm, above: Unit, term: NumberTerm, units: Mapping[str, Unit]
) -> Unit:
    """Return the unit of a number that follows `above`, if it may follow it."""
    below = units.get(above.smaller)
    if below is None or term.unit not in (None, below):
        after = quoted(term.numeral if term.unit is None else term.unit.printed(term.numeral))
        raise question.refuse(f"{after} cannot follow {above.sign}")
    if before.number.denominator != 1 or "." in before.numeral:
        raise question.refuse(f"a broken number of {above.sign} has {below.sign} after it")
    if term.number >= above.per:
        raise question.refuse(
            f"after {above.sign} there must be less than {above.per} {below.sign}"
        )
    return below
