"""An account as lines of plain text."""

import textwrap
from collections.abc import Iterable, Iterator

from optics.account import Account, Card, Cards, Role
from optics.account.account import Said
from optics.camera.cautions import LOCAL_RULES

_WIDTH = 76


def account_text(account: Account) -> str:
    """Title, headline and verdict, every part under its heading, notes and cautions."""
    return f"{wrapped(account.title)}\n{in_blocks(_blocks(account))}"


def _blocks(account: Account) -> Iterator[list[str]]:
    yield [account.headline, *filter(None, [account.judged])]
    for part in account.told():
        if part.said:
            yield _lines(part)
    if account.notes:
        yield list(account.notes)
    if account.cautions:
        yield ["Take care", *items(c.text for c in account.cautions), f"- {LOCAL_RULES}"]


def _lines(part: Said) -> list[str]:
    if not part.heading or part.role is Role.WORKING:
        return [*filter(None, [part.heading]), *part.said]
    if isinstance(part, Cards):
        cards = (line for card in part.cards for line in _card(card, part.in_order))
        return [part.heading, *part.first, *cards, *part.last]
    return [part.heading, *items(part.said)]


def _card(card: Card, is_step: bool) -> list[str]:
    """One of several ways in one go; a step, with what belongs to it below."""
    if not is_step:
        return items([f"{card.title}: {card.said}"])
    care = (f"{caution.heading}: {caution.text}" for caution in card.cautions)
    return [f"{card.title} ({card.aside}). {card.words}", *items((*card.notes, *care))]


def items(lines: Iterable[str]) -> list[str]:
    """Each line as an item of a list."""
    return [f"- {line}" for line in lines]


def in_blocks(blocks: Iterable[Iterable[str]]) -> str:
    """Blocks of lines, wrapped, a free line between blocks."""
    return "\n\n".join("\n".join(map(wrapped, block)) for block in blocks)


def wrapped(line: str) -> str:
    """A line folded to the terminal's width."""
    indent = "  " if line.startswith("- ") else ""
    # A sense broken at its hyphen would end a line in "counter-".
    return textwrap.fill(
        line, _WIDTH, subsequent_indent=indent, break_on_hyphens=False, break_long_words=False
    )
