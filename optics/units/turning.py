"""Turns of a screw as people write them: an amount, and a sign or a word for the way round."""

import math
import re
from dataclasses import replace

from optics.errors import Unreadable
from optics.units.numerals import quoted
from optics.units.reading import Understood, read_angle

_CLOCKWISE = r"clockwise|cw"
_COUNTER = r"counter[-‑ ]?clockwise|anti[-‑ ]?clockwise|ccw|acw"
# Longest words first, for the one holds the other.
_SENSE = re.compile(rf"(?:^|(?<=[\s\d°]))(?:(?P<back>{_COUNTER})|(?P<on>{_CLOCKWISE}))\b", re.I)


def read_turns(text: str, *, words: str = "turn") -> Understood:
    """Read a turn in whole turns, plus clockwise; a number without a unit is in turns.

    ``1/8``, ``−1/4``, ``1 1/2 turns counter-clockwise``, ``45° cw``, ``0``. A word for the way
    round with a sign beside it is refused: it says the same thing twice, or two things.
    """
    senses = list(_SENSE.finditer(text))
    amount = _SENSE.sub(" ", text) if len(senses) == 1 else text
    turned = read_angle(amount, unit="turn", words=words)
    if senses and (amount.strip()[:1] in "+-−–"):
        raise Unreadable(
            f"The {words} {quoted(text)} cannot be understood: it has a sign and a word for the "
            "way round; write one of them, such as 1/8 counter-clockwise or −1/8.",
            quantity=words,
            value=text,
        )
    turns = turned.value / (2 * math.pi)
    if senses and senses[0]["back"]:
        turns = -turns
    return replace(turned, text=text, value=turns, echo=_echo(turned, turns))


def _echo(turned: Understood, turns: float) -> str:
    """The amount without its sign, and the way round in words."""
    if turns == 0:
        return "not turned"
    amount = turned.echo.rpartition(" = ")[2].replace("−", "")
    return f"↻ {amount} clockwise" if turns > 0 else f"↺ {amount} counter-clockwise"
