"""The answer as the page shows it: every word from the results, every colour from the theme."""

from collections.abc import Iterable
from html import escape

from optics.camera.cautions import LOCAL_RULES, Caution
from optics.camera.supposed import supposed_lines
from optics.measure.uncertainty import budget
from optics.readings import wording
from optics.readings.correction import Correction
from optics.readings.directions import Direction
from optics.readings.remedies import NotApplicable, Offer, Remedy
from ui.answers.bench_panel import judged_html
from ui.figures.focus_drawing import side_view, turn_view

HOW_TO_TYPE = (
    "Type figures as you would write them: 18,7 m, 3 ft 6, 1/8 in, 2 thou, ∞; several tries as "
    "18; 18.7; 19.5. Distances are from the film plane."
)


def answer_html(correction: Correction) -> str:
    """Headline, drawing and what would be seen; a turn is drawn only where one is called for."""
    turns = map(turn_view, correction.remedies) if correction.calls_for_work else ()
    turn = next(filter(None, turns), "")
    supposed = "".join(f"<p>{escape(s)}</p>" for s in supposed_lines(correction.camera))
    return (
        f'<section class="answer">{_headline(correction)}{supposed}'
        f'<div class="pictures">{side_view(correction)}{turn}</div>'
        f"{_sights(correction)}</section>"
    )


def offers_html(correction: Correction) -> str:
    """All remedies side by side; quiet where the advice is to leave the lens alone."""
    cards = "".join(_offer(offer) for offer in correction.offers)
    advice = escape(wording.advice(correction))
    kind = "offers" if correction.calls_for_work else "offers uncalled"
    return (
        f'<h2 class="small" id="what-to-do">What to do</h2><p class="advice">{advice}</p>'
        f'<div class="{kind}">{cards}</div>'
    )


def direction_html(reading: Direction) -> str:
    """What a reading of direction alone says."""
    found, stop, rest = reading.advice.partition(". ")
    return (
        f'<section class="answer"><p class="headline" role="status"><strong>{escape(found + stop)}'
        f"</strong></p><p>{escape(rest)}</p></section>"
    )


def waiting_html(problems: Iterable[str]) -> str:
    """What must be entered or mended before there is an answer."""
    items = "".join(f"<li>{escape(p)}</li>" for p in problems)
    return (
        '<section class="answer waiting"><div class="headline" role="status">'
        '<h2>Still needed</h2><a class="jump" href="#still-needed">List ↓</a></div>'
        f'<ul id="still-needed">{items}</ul><p>{HOW_TO_TYPE}</p></section>'
    )


def group_html(words: str) -> str:
    """The heading of a group of fields."""
    return f'<h2 class="group">{escape(words)}</h2>'


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
        f"<tr><td>{escape(name)}</td><td>{_fine(size)}</td><td>{share:.0%}</td></tr>"
        for name, size, share in budget(correction.error)
    )
    if not rows:
        return "<p>No limit and no repeats were given, so the figure carries no uncertainty.</p>"
    return (
        "<table><thead><tr><th>Source</th><th>Standard uncertainty at the film</th>"
        f"<th>Share of the variance</th></tr></thead><tbody>{rows}</tbody></table>"
    )


def _fine(mm: float) -> str:
    """A contribution to four places; one that would print as nothing says so."""
    return f"{mm:.4f} mm" if mm >= 0.00005 else "less than 0.0001 mm"


def _headline(correction: Correction) -> str:
    error = correction.error
    return (
        f'<p class="headline" role="status">The lens is '
        f"<strong>{escape(wording.said_error(error))}</strong> "
        f'<span class="unsure">{escape(wording.said_uncertainty(error))}</span>'
        '<a class="jump" href="#what-to-do">What to do ↓</a></p>'
        + judged_html(correction.verdict, wording.tolerance_line(correction))
    )


def _sights(correction: Correction) -> str:
    rows = "".join(
        f"<tr><th>{escape(wording.mark_name(s.mark))}</th><td>{escape(wording.sharp_where(s))}</td>"
        f"<td>{escape(wording.blur_at(s))}</td></tr>"
        for s in correction.sights
    )
    return (
        "<table><thead><tr><th>Ring at</th><th>What you would see</th><th>Wide open"
        f"</th></tr></thead><tbody>{rows}</tbody></table>"
    )


def _offer(offer: Offer) -> str:
    if isinstance(offer, NotApplicable):
        return (
            f'<article class="offer idle"><h3>{escape(offer.title)}</h3>'
            f"<p>{escape(offer.reason)}</p></article>"
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
        f"{judged_html(remedy.verdict, wording.residual_line(remedy))}{notes}</article>"
    )
