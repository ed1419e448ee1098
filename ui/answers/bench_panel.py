"""What the panels share."""

from collections.abc import Iterable, Sequence
from html import escape

from optics.measure.verdict import Verdict
from optics.teaching.captions import CAPTIONS

SIGNS = {Verdict.INSIDE: "✓", Verdict.OUTSIDE: "✕", Verdict.UNSURE: "?", Verdict.NOT_STATED: "?"}


def heading_html(words: str, anchor: str = "") -> str:
    """A heading between the parts of an answer; none without words."""
    named = f' id="{anchor}"' if anchor else ""
    return f'<h2 class="small"{named}>{escape(words)}</h2>' if words else ""


def judged_html(verdict: Verdict | None, words: str) -> str:
    """A finding by sign, word and colour; without a verdict in words alone."""
    if not words or verdict is None:
        return lines_html([words] if words else [])
    return (
        f'<p class="verdict {verdict.name.lower()}"><span aria-hidden="true">{SIGNS[verdict]}'
        f"</span> {escape(words)}</p>"
    )


def lines_html(lines: Iterable[str], kind: str = "") -> str:
    """A paragraph a line."""
    named = f' class="{kind}"' if kind else ""
    return "".join(f"<p{named}>{escape(line)}</p>" for line in lines)


def list_html(lines: Iterable[str]) -> str:
    """An item a line."""
    return f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>"


def steps_html(lines: Iterable[str]) -> str:
    """Steps in their order."""
    return f"<ol>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ol>"


def wide_html(table: str, words: str) -> str:
    """A table that may be wider than the window: it scrolls, by the keyboard too."""
    return f'<div class="wide" role="group" aria-label="{escape(words)}" tabindex="0">{table}</div>'


def table_html(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table of texts; what is first in a row names it."""
    head = "".join(f"<th>{escape(words)}</th>" for words in heads)
    body = "".join(_row(row) for row in rows)
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    return wide_html(table, f"Table: {', '.join(filter(None, heads))}")


def _row(row: Sequence[str]) -> str:
    first, *rest = map(escape, row)
    return f"<tr><th>{first}</th>{''.join(f'<td>{cell}</td>' for cell in rest)}</tr>"


def captions_html(topic: str) -> str:
    """What the words of a topic mean, for who learns."""
    said = (text for key, text in CAPTIONS.items() if key.startswith(f"{topic}."))
    return f'<div class="meaning">{lines_html(said)}</div>'
