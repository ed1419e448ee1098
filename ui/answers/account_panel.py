"""An account as the page shows it: the words are all its own, the looks are decided here."""

import re
from dataclasses import replace
from html import escape

from optics.account import Account, Block, Card, Cards, Figure, Role, Table, TableRow
from optics.account.account import Part, Said
from ui.answers.bench_panel import (
    SIGNS,
    heading_html,
    judged_html,
    lines_html,
    list_html,
    steps_html,
    wide_html,
)
from ui.answers.drawn import drawn, layout_of

# A headline of more letters is set smaller.
_LONG = 100
# The longest bar beside a figure, in rem.
_LONGEST = 4


def account_html(account: Account) -> str:
    """Headline, how it stands to its tolerance, and every part in order."""
    return (
        f'<section class="answer">{_headline(account)}'
        f"{judged_html(account.verdict, account.judged)}"
        f"{''.join(map(_part, account.parts))}{lines_html(account.notes, 'quiet')}</section>"
    )


def _headline(account: Account) -> str:
    """The words that answer large, then a ± beside them or whatever else follows below."""
    words, at, said = account.headline, 0, ""
    sign = "" if account.judged or account.verdict is None else f"{SIGNS[account.verdict]} "
    for large in account.large or (_first_clause(words),):
        start = words.index(large, at)
        said += f"{escape(words[at:start])}<strong>{escape(sign + _unbroken(large))}</strong>"
        at, sign = start + len(large), ""
    rest = words[at:].lstrip(" ,:;.")
    if len(account.large) > 1:
        said, rest = said + escape(words[at:]), ""
    elif rest.startswith("±"):
        said, rest = f'{said} <span class="unsure">{escape(rest)}</span>', ""
    below = f"<p>{escape(rest[:1].upper() + rest[1:])}</p>" if rest else ""
    size = " two" if len(account.large) > 1 else " long" * (len(words) > _LONG)
    return (
        f'<p class="headline bench{size}" role="status">{said}{_jump(account)}</p>'
        f'<div id="rest">{below}</div>'
    )


def _jump(account: Account) -> str:
    """On a telephone the headline stays in sight and leads to what is to be done."""
    to_do = next(filter(_is_led_to, account.told()), None)
    words, place = ("More", "rest") if to_do is None else (to_do.heading, "what-to-do")
    return f'<a class="jump" href="#{place}">{escape(words)} ↓</a>'


def _first_clause(sentence: str) -> str:
    cut = min((at for at in map(sentence.find, ":;") if at > 0), default=len(sentence))
    return sentence[:cut].rstrip(".")


def _unbroken(words: str) -> str:
    """A figure keeps its sign and unit on one line of the large type."""
    return re.sub(r"(?<=\d) (?=m?m\b|%)|(?<=±) ", "\u00a0", words)


def _part(part: Part) -> str:
    if not isinstance(part, Figure) and part.role is Role.ASIDE:
        folded = _part(replace(part, heading="", role=Role.BENCH))
        return f"<details><summary>{escape(part.heading)}</summary>{folded}</details>"
    match part:
        case Block():
            return _block(part)
        case Table():
            return _table(part)
        case Cards():
            return _cards(part)
        case Figure():
            return _figure(part)


def _block(block: Block) -> str:
    if block.role is Role.WORKING:
        return ""
    if block.role is Role.TO_DO:
        is_one = len(block.lines) == 1
        said = lines_html(block.lines) if is_one else steps_html(block.lines)
        return f'<div class="steps">{_heading(block)}{said}</div>'
    if block.verdict is not None:
        return "".join(judged_html(block.verdict, line) for line in block.lines)
    if block.heading:
        return _heading(block) + list_html(block.lines)
    return lines_html(block.lines, "quiet" if block.role is Role.QUIET else "")


def _heading(part: Said) -> str:
    return heading_html(part.heading, "what-to-do" if _is_led_to(part) else "")


def _is_led_to(part: Said) -> bool:
    """Whether the headline leads to it: what is to be done, but for what comes before all else."""
    is_before = isinstance(part, Block) and part.verdict is not None
    return part.role is Role.TO_DO and not is_before


def _table(table: Table) -> str:
    heads = "".join(f"<th>{escape(words)}</th>" for words in table.heads)
    head = f"<thead><tr>{heads}</tr></thead>" if heads else ""
    rows = "".join(_row(row, table.bar_at) for row in table.rows)
    named = table.heading or f"Table: {', '.join(filter(None, table.heads))}"
    if not head:
        # Rows that say what they are in words run on below each other on a telephone.
        return f'{_heading(table)}<table class="told"><tbody>{rows}</tbody></table>'
    # Cells of two lines stand close, for there are many beside each other.
    is_stacked = any("\n" in cell for row in table.rows for cell in row.cells)
    kind = ' class="stacked"' if is_stacked else ""
    return _heading(table) + wide_html(f"<table{kind}>{head}<tbody>{rows}</tbody></table>", named)


def _row(row: TableRow, bar_at: int) -> str:
    *most, last = row.cells
    signed = last if row.verdict is None else f"{SIGNS[row.verdict]} {last}"
    cells = []
    for at, cell in enumerate((*most, signed)):
        kind = f' class="{"weight" if cell else "bar"}"' if row.bar and at == bar_at else ""
        bar = _bar(row, bool(cell)) if kind else ""
        tag = "td" if at or kind else "th"
        cells.append(f"<{tag}{kind}>{bar}{_lines(cell)}</{tag}>")
    return f"<tr>{''.join(cells)}</tr>"


def _lines(cell: str) -> str:
    return escape(cell).replace("\n", "<br>")


def _bar(row: TableRow, is_beside_words: bool) -> str:
    """What is sure solid, what may be besides hatched, what is allowed in outline."""
    solid = "allowed" if row.is_limit else ""
    sizes = (f"{_LONGEST * s:.2f}rem" if is_beside_words else f"{s:.1%}" for s in row.bar)
    drawn_bars = zip((solid, "give"), sizes, strict=False)
    return "".join(f'<i class="{kind}" style="width:{size}"></i>' for kind, size in drawn_bars)


def _cards(cards: Cards) -> str:
    kind = "plan" if cards.in_order else "offers"
    called = "" if cards.is_called_for else " uncalled"
    first = "".join(f'<p class="advice">{escape(line)}</p>' for line in cards.first)
    return (
        f"{_heading(cards)}{first}"
        f'<div class="{kind}{called}">{"".join(map(_card, cards.cards))}</div>'
        f"{lines_html(cards.last, 'quiet')}"
    )


def _card(card: Card) -> str:
    amounts = "".join(
        f"<div><dt>{escape(label)}</dt><dd>{escape(text)}</dd></div>"
        for label, text in card.amounts
    )
    care = (f"⚠ {caution.heading}: {caution.text}" for caution in card.cautions)
    listed = f"<dl>{amounts}</dl>" if amounts else ""
    aside = f' <span class="quiet">{escape(card.aside)}</span>' if card.aside else ""
    return (
        f'<article class="offer{" idle" if card.is_idle else ""}">'
        f"<h3>{escape(card.title)}{aside}</h3>{listed}<p>{escape(card.words)}</p>"
        f"{judged_html(card.verdict, card.judged)}{lines_html(card.notes, 'quiet')}"
        f"{lines_html(care, 'quiet')}</article>"
    )


def _figure(figure: Figure) -> str:
    pictures = "".join(map(drawn, figure.drawn))
    beside = "".join(map(_block, figure.beside))
    if not pictures:
        return beside
    layout = layout_of(figure.drawn[0])
    return f'<div class="pictures {layout}">{pictures}{beside}</div>'
