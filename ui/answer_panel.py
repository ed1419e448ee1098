"""The answer as the page shows it: every word from the results, every colour from the theme."""

from collections.abc import Iterable
from html import escape

from optics.bench import wording
from optics.bench.cautions import LOCAL_RULES, Caution
from optics.bench.correction import Correction, parallax_advice
from optics.bench.readings import ParallaxReading
from optics.bench.remedies import NotApplicable, Offer, Remedy
from optics.bench.uncertainty import budget
from optics.bench.verdict import Verdict
from ui.figures.focus_drawing import side_view, turn_view

_SIGNS = {Verdict.INSIDE: "✓", Verdict.OUTSIDE: "✕", Verdict.UNSURE: "?"}


def answer_html(correction: Correction) -> str:
    """Headline, drawing and what would be seen."""
    turn = next(iter(filter(None, map(turn_view, correction.remedies))), "")
    return (
        f'<section class="answer" aria-live="polite">{_headline(correction)}'
        f'<div class="pictures">{side_view(correction)}{turn}</div>'
        f"{_sights(correction)}</section>"
    )


def offers_html(correction: Correction) -> str:
    """All remedies side by side."""
    cards = "".join(_offer(offer) for offer in correction.offers)
    advice = escape(wording.advice(correction))
    return (
        f'<h2 class="small">What to do</h2><p class="advice">{advice}</p>'
        f'<div class="offers">{cards}</div>'
    )


def direction_html(reading: ParallaxReading) -> str:
    """What a reading of direction alone says."""
    advice = escape(parallax_advice(reading))
    return f'<section class="answer" aria-live="polite"><p class="headline">{advice}</p></section>'


def waiting_html(problems: Iterable[str]) -> str:
    """What must be entered or mended before there is an answer."""
    items = "".join(f"<li>{escape(p)}</li>" for p in problems)
    return (
        '<section class="answer waiting" aria-live="polite">'
        f"<h2>The answer waits</h2><ul>{items}</ul></section>"
    )


def cautions_html(cautions: Iterable[Caution]) -> str:
    """The cautions that belong to this reading and these remedies."""
    items = "".join(f"<li><b>{escape(c.heading)}.</b> {escape(c.text)}</li>" for c in cautions)
    return (
        '<aside class="care"><h2 class="small">⚠ Take care</h2>'
        f"<ul>{items}<li>{escape(LOCAL_RULES)}</li></ul></aside>"
    )


def budget_html(correction: Correction) -> str:
    """Where the uncertainty of the error comes from."""
    rows = "".join(
        f"<tr><td>{escape(name)}</td><td>{size:.4f} mm</td><td>{share:.0%}</td></tr>"
        for name, size, share in budget(correction.error)
    )
    if not rows:
        return "<p>No limit and no repeats were given, so the figure carries no uncertainty.</p>"
    return (
        "<table><thead><tr><th>Source</th><th>standard uncertainty at the film</th>"
        f"<th>share of the variance</th></tr></thead><tbody>{rows}</tbody></table>"
    )


def _headline(correction: Correction) -> str:
    error = correction.error
    return (
        f'<p class="headline">The lens is <strong>{escape(wording.said_error(error))}</strong>'
        f'<span class="unsure">{escape(wording.said_uncertainty(error))}</span></p>'
        + _judged(correction.verdict, wording.tolerance_line(correction))
    )


def _judged(verdict: Verdict, words: str) -> str:
    """A verdict by sign, word and colour."""
    sign = f'<span aria-hidden="true">{_SIGNS[verdict]}</span>'
    return f'<p class="verdict {verdict.name.lower()}">{sign} {escape(words)}</p>'


def _sights(correction: Correction) -> str:
    rows = "".join(
        f"<tr><th>{escape(wording.mark_name(s.mark))}</th><td>{escape(wording.sharp_where(s))}</td>"
        f"<td>{escape(wording.blur_at(s))}</td></tr>"
        for s in correction.sights
    )
    return (
        "<table><thead><tr><th>Ring at</th><th>what you would see</th><th>the mark itself, wide "
        f"open</th></tr></thead><tbody>{rows}</tbody></table>"
    )


def _offer(offer: Offer) -> str:
    if isinstance(offer, NotApplicable):
        return (
            f'<article class="offer idle"><h3>{escape(offer.title)}</h3>'
            f"<p>Not called for. {escape(offer.reason)}</p></article>"
        )
    return _remedy(offer)


def _remedy(remedy: Remedy) -> str:
    amounts = "".join(
        f"<div><dt>{escape(label)}</dt><dd>{escape(text)}</dd></div>"
        for label, text in remedy.amounts
    )
    notes = "".join(f"<p>{escape(note)}</p>" for note in remedy.notes)
    return (
        f'<article class="offer"><h3>{escape(remedy.title)}</h3><dl>{amounts}</dl>'
        f"<p>{escape(remedy.instruction)}</p>"
        f"{_judged(remedy.verdict, wording.residual_line(remedy))}{notes}</article>"
    )
