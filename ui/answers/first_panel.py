"""A first answer as the page shows it: every word from the results."""

from collections.abc import Iterable
from html import escape

from optics.readings import first_wording as wording
from optics.readings.first_answer import FirstAnswer
from ui.answers.bench_panel import judged_html


def first_html(answer: FirstAnswer) -> str:
    """Headline, what to do, and what each further figure would add."""
    return (
        f'<section class="answer"><p class="headline" role="status">'
        f"<strong>{escape(wording.found(answer))}</strong> "
        f'<span class="unsure">{escape(wording.known(answer))}</span></p>'
        f"{judged_html(wording.judged(answer), wording.verdict_line(answer))}</section>"
        f"{_to_do(answer)}{_listed(wording.STILL_NEEDED, map(wording.wait_line, answer.waits))}"
        f"{_listed('Supposed', wording.supposed_lines(answer))}"
    )


def _to_do(answer: FirstAnswer) -> str:
    if not answer.to_do:
        return ""
    cards = "".join(
        f'<article class="offer"><h3>{escape(title)}</h3><p>{escape(words)}</p></article>'
        for title, words in answer.to_do
    )
    first = wording.advice(answer)
    said = f"<p>{escape(first)}</p>" if first else ""
    return (
        f'<h2 class="small" id="what-to-do">What to do</h2>{said}<div class="offers">{cards}</div>'
    )


def _listed(heading: str, lines: Iterable[str]) -> str:
    items = "".join(f"<li>{escape(line)}</li>" for line in lines)
    if not items:
        return ""
    return f'<h2 class="small">{escape(heading)}</h2><ul class="needed">{items}</ul>'
