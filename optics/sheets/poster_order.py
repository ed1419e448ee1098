"""Poster: the order of work, with the cautions where they belong."""

from datetime import date

from optics.camera.cautions import FLASH, LOCAL_RULES, OLD_GLASS, SOLVENTS, SPRINGS, SUN, Caution
from optics.drawing.page import DARK, MID, PALE, Sheet
from optics.sheets.bench_sheet import ORDER_OF_WORK
from optics.sheets.poster_board import HEAD, LEAST, LEFT, RIGHT, TEXT, WIDTH, Board, board

TITLE = "The order of work"
_LINE = (
    "Each step presumes the ones before it. Going back to one means doing again all that follow."
)
# Before which step a caution is first needed (common practice, no source).
CARE_AT: dict[int, tuple[Caution, ...]] = {
    1: (FLASH, SOLVENTS, OLD_GLASS),
    2: (SPRINGS,),
    3: (SUN,),
    7: (SUN,),
    10: (FLASH,),
}
_CARED = (SUN, SPRINGS, SOLVENTS, FLASH, OLD_GLASS)
_HEADINGS = 66.0
_PRACTICE = "The order itself is common practice, no source."
_FIRST, _STEP = 86.0, 14.6


def poster_order(*, made: date, page_size: str = "A3") -> Sheet:
    """Ten steps one under the other with their cautions beside, and what the cautions say."""
    drawn = board(TITLE, _LINE, made=made, page_size=page_size)
    for number, words in enumerate(ORDER_OF_WORK, start=1):
        _row(drawn, number, words)
    y = _FIRST + _STEP * len(ORDER_OF_WORK) + 8
    drawn.text(LEFT, y, "⚠ Take care", HEAD, bold=True)
    y += 11
    for caution in _CARED:
        head = drawn.paragraph((LEFT, y), _HEADINGS - 4, caution.heading, LEAST, bold=True)
        y = drawn.paragraph((LEFT + _HEADINGS, y), WIDTH - _HEADINGS, caution.text, LEAST)
        y = max(y, head) + 2.2
    drawn.paragraph((LEFT, y), WIDTH, f"{LOCAL_RULES} {_PRACTICE}", LEAST, bold=True)
    return drawn


def _row(drawn: Board, number: int, words: str) -> None:
    y = _FIRST + _STEP * (number - 1)
    if number < len(ORDER_OF_WORK):
        drawn.line((LEFT + 6, y), (LEFT + 6, y + _STEP - 2.6), width=1.6, ink=MID)
    drawn.number((LEFT + 6, y - 2.6), number)
    drawn.text(LEFT + 17, y, words, TEXT, bold=True)
    cares = CARE_AT.get(number, ())
    if cares:
        said = ", ".join(_short(c) for c in cares)
        drawn.text(RIGHT, y, f"⚠ {said}", LEAST, ink=DARK, align="right")
    if number < len(ORDER_OF_WORK):
        drawn.line((LEFT + 17, y + 4.2), (RIGHT, y + 4.2), width=0.35, ink=PALE)


def _short(caution: Caution) -> str:
    """A caution by the first words of its heading: solvents, old glass, the Sun."""
    name = caution.heading.partition(" and ")[0]
    return name if caution is SUN else name.lower()
