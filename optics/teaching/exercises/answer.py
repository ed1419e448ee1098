"""What an exercise asks for: its figure, how near is near enough, and how it is typed.

The rule for near enough: an answer is right when it differs from the worked one by no more
than half a step of the last digit asked for, and what the figures given leave open besides.
A figure read off an instrument may be out by half its last printed digit; times the partial
derivative of the answer that is its share, and the shares add up. Engraved marks, counts and
the camera's own data are taken as they stand.
"""

import math
import re
from dataclasses import dataclass
from enum import StrEnum

from optics.errors import Unreadable
from optics.units import (
    Understood,
    format_length,
    read_angle,
    read_distance,
    read_length,
    read_number,
)
from optics.units.numerals import quoted
from optics.units.printing import fixed
from optics.units.scales import ANGLES, LENGTHS

# Digits in a group of thousands.
_GROUP = 3


class Reads(StrEnum):
    """How the text of an answer is read."""

    LENGTH = "length"
    DISTANCE = "distance"
    ANGLE = "angle"
    NUMBER = "number"


@dataclass(frozen=True)
class Senses:
    """The two ways an amount can go; `by_sign` says that a bare + or − tells them apart."""

    plus: str
    minus: str
    by_sign: bool
    plus_pattern: str
    minus_pattern: str
    leads: bool = False

    def words(self, value: float) -> str:
        """The way a signed value goes."""
        return self.plus if value > 0 else self.minus

    def taken_from(self, text: str) -> tuple[str, int]:
        """The text without its words for the way, and +1, −1, or 0 where none was said."""
        rest, sense = text, 0
        for pattern, sign in ((self.minus_pattern, -1), (self.plus_pattern, 1)):
            shorter, count = re.subn(rf"(?<![^\W\d_])(?:{pattern})\b", " ", rest, flags=re.I)
            if count > 1 or (count and sense):
                raise Unreadable(
                    f"The answer {quoted(text)} says the way more than once: write "
                    f"“{self.plus}” or “{self.minus}” one time.",
                    quantity="answer",
                    value=text,
                )
            rest, sense = shorter, sense or sign * count
        return rest, sense


FOCUS = Senses("too far out", "too far in", True, r"too\s+far\s+out", r"too\s+far\s+in")
SHIM = Senses("add", "remove", True, r"add(?:ed)?", r"removed?|take\s+out", leads=True)
# As seen from the front; the longer word is looked for first, for it holds the shorter.
TURN = Senses(
    "clockwise",
    "counter-clockwise",
    False,
    "clockwise|cw",
    r"counter[-‑ ]?clockwise|anti[-‑ ]?clockwise|ccw|acw",
)


@dataclass(frozen=True)
class TypedAnswer:
    """What was typed: an amount in core units, the way (0: none was said), and an echo."""

    amount: float
    sense: int
    was_signed: bool
    echo: str


@dataclass(frozen=True)
class Answer:
    """The figure asked for, in mm, rad or as it is; plus goes the way of `senses.plus`.

    `unit` is that of a bare number, `places` the decimals asked for in it, and `left_open`
    what the last digits of the figures given leave open.
    """

    words: str
    value: float
    reads: Reads
    unit: str
    places: int
    left_open: float = 0.0
    senses: Senses | None = None

    @property
    def size(self) -> float:
        """The amount without its way."""
        return abs(self.value)

    @property
    def tolerance(self) -> float:
        """How far a right answer may be from the worked one, in core units."""
        return 0.5 * self.last_digit + self.left_open

    @property
    def last_digit(self) -> float:
        """One step of the last digit asked for, in core units."""
        return float(10.0**-self.places) * self.unit_size

    @property
    def unit_size(self) -> float:
        """The unit asked for in core units."""
        table = ANGLES if self.reads is Reads.ANGLE else LENGTHS
        return float(table[self.unit].size) if self.unit else 1.0

    @property
    def step(self) -> str:
        """The last digit asked for, such as 0.001 mm."""
        return self.amount(self.last_digit)

    @property
    def printed(self) -> str:
        """The answer as it would be written down."""
        return self.with_way(self.amount(self.size), self.value)

    def with_way(self, amount: str, value: float) -> str:
        """An amount with the word for the way a value goes; no way is said for 0."""
        if self.senses is None or not value:
            return amount
        way = self.senses.words(value)
        return f"{way} {amount}" if self.senses.leads else f"{amount} {way}"

    def amount(self, value: float, places: int | None = None) -> str:
        """An amount in the unit asked for."""
        digits = self.places if places is None else places
        if self.reads is Reads.ANGLE:
            return ANGLES[self.unit].printed(fixed(value / self.unit_size, digits))
        if self.reads is Reads.NUMBER:
            return fixed(value, digits)
        return format_length(value, unit=self.unit, places=digits)

    def read(self, text: str) -> TypedAnswer:
        """Understand what was typed; Unreadable or OutOfRange where it has no one meaning."""
        if self.senses is None:
            one = self._understood(text)
            return TypedAnswer(one.value, 0, False, one.echo)
        rest, said = self.senses.taken_from(text)
        one = self._understood(rest)
        sign = _leading_sign(rest)
        if sign and (said or not self.senses.by_sign):
            raise Unreadable(
                f"The {self.words} {quoted(text)} has a sign: write the amount alone, and "
                f"“{self.senses.plus}” or “{self.senses.minus}”.",
                quantity=self.words,
                value=text,
            )
        sense = said or sign
        echo = self.with_way(one.echo.replace("−", ""), sense)
        return TypedAnswer(abs(one.value), sense, bool(sign), echo)

    def _understood(self, text: str) -> Understood:
        # Who is asked for three places writes three: their comma groups no thousands.
        is_small = self.places >= _GROUP
        if self.reads is Reads.NUMBER:
            return read_number(text, words=self.words, is_small=is_small)
        if self.reads is Reads.ANGLE:
            return read_angle(text, unit=self.unit, words=self.words, is_small=is_small)
        read = read_distance if self.reads is Reads.DISTANCE else read_length
        # A factor of a thousand is a slip to be marked, not to be asked about.
        return read(text, unit=self.unit, words=self.words, is_small=is_small, any_size=True)


def _leading_sign(text: str) -> int:
    first = text.strip()[:1]
    return 1 if first == "+" else -1 if first and first in "-−–‐‑" else 0


def is_near(value: float, wanted: float, within: float) -> bool:
    """Whether two amounts agree; what was rounded to the very limit still does."""
    if math.isinf(value) or math.isinf(wanted):
        return value == wanted
    return abs(value - wanted) <= within * (1 + 1e-9)
