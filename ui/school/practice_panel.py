"""The practice bench's log and debrief, as the page shows them."""

from html import escape

from optics.readings.practised import Offered
from optics.readings.readings import Judged
from optics.teaching.practice import wording
from optics.teaching.practice.debrief import Debrief
from optics.teaching.practice.score import RULES
from optics.teaching.practice.sight import glass_at, patch_at
from optics.teaching.practice.sitting import Sitting
from ui.answers.bench_panel import heading_html, lines_html, steps_html, table_html
from ui.figures.loupe_view import (
    FIELD,
    PX_PER_MINUTE,
    PX_PER_MM,
    finder_view,
    loupe_view,
)

_LOG = ("no.", "what was done", "what it showed", "which says")
_PLACES = ("place", "allowed", "as found", "as left", "verdict")
_REMARKS = ("reading", "likeliest then", "best next reading then", "your eye")


def headline_html(sitting: Sitting, refusal: str, points: str = "") -> str:
    """Which camera lies on the bench, or the points; how much was done, or why it was refused."""
    name = sitting.stand.camera.name
    title = points or f"{name}, level {int(sitting.level)}, seed {sitting.seed}"
    refused = refusal_html(refusal) if refusal else ""
    return (
        f'<section class="answer"><p class="headline bench" role="status">'
        f"<strong>{escape(title)}</strong> "
        f'<span class="unsure">{escape(wording.tally_words(sitting))}</span></p>{refused}</section>'
    )


def refusal_html(refusal: str) -> str:
    """Why something cannot be done."""
    return f'<p class="verdict outside" role="alert">✕ {escape(refusal)}</p>'


def view_html(sitting: Sitting, offered: Offered, amount: float) -> str:
    """The loupe or the finder, as the eye sees it.

    Errors: ShimwrightError where what is moved can not stand there.
    """
    state = sitting.state
    if offered.reading.judged is Judged.BY_RANGEFINDER:
        picture = finder_view(patch_at(sitting.stand, state, offered, amount))
    else:
        glass = glass_at(state, sitting.level, offered, amount)
        picture = loupe_view(glass, sitting.level.is_worn)
    return f'<div class="eye">{picture}</div>'


def scale_html(offered: Offered) -> str:
    """What is looked at, and how large it is drawn."""
    if offered.reading.judged is Judged.BY_RANGEFINDER:
        scale = wording.finder_scale_words(PX_PER_MINUTE)
    else:
        scale = wording.loupe_scale_words(FIELD, PX_PER_MM)
    return f'<p class="note">{escape(offered.reading.looked_at)} {escape(scale)}</p>'


def instrument_html(offered: Offered) -> str:
    """What is said of a reading that only an instrument shows."""
    return lines_html([f"{wording.offered_words(offered)}: the instrument shows a figure."])


def log_html(sitting: Sitting) -> str:
    """Everything done so far, a row each."""
    if not sitting.entries:
        return lines_html(wording.begin_lines(sitting))
    rows = []
    for entry in sitting.entries:
        shown = said = ""
        if entry.reading is not None:
            shown = entry.reading.said_as_read(sitting.stand.camera)
            said = wording.meaning_words(entry)
        rows.append((str(entry.number), wording.done_words(sitting, entry), shown, said))
    return f'<section class="answer">{table_html(_LOG, rows)}</section>'


def facts_html(sitting: Sitting) -> str:
    """What instruments and eye are good for, and the old lines on the camera."""
    marks = [wording.old_mark_line(sitting, mark) for mark in sitting.old_marks]
    known = [*wording.bench_lines(sitting), wording.OLD_MARKS, *marks]
    return (
        f'<div class="meaning facts">{lines_html([*known, wording.BRACKET, wording.HONEST])}</div>'
    )


def debrief_html(sitting: Sitting, found: Debrief) -> str:
    """Score, places, what was hidden, every reading looked back on, and the plan."""
    score = found.score
    verdict = "inside" if score.is_right else "outside"
    sign = "✓ Every place is inside." if score.is_right else "✕ Not every place is inside."
    parts = [
        f'<p class="verdict {verdict}">{sign}</p>',
        lines_html([wording.score_line(score)]),
        table_html(_PLACES, map(wording.place_words, score.places)),
        heading_html("What was hidden"),
        lines_html(wording.hidden_lines(sitting)),
        heading_html("What your readings said as they came"),
        _remarks(sitting, found),
        heading_html("Plan from those readings"),
        _plan(found),
        heading_html("How the score is made"),
        lines_html(RULES, "quiet"),
    ]
    return f'<section class="answer debrief">{"".join(parts)}</section>'


def _remarks(sitting: Sitting, found: Debrief) -> str:
    if not found.remarks:
        return lines_html(["No reading was taken."])
    rows = (wording.remark_words(sitting, remark) for remark in found.remarks)
    table = f'<div class="remarks">{table_html(_REMARKS, rows)}</div>'
    return table + lines_html([wording.AFRESH], "quiet")


def _plan(found: Debrief) -> str:
    heading, steps = wording.plan_heading(found), wording.plan_lines(found)
    notes = lines_html(wording.plan_notes(found), "quiet")
    return lines_html([heading]) + (steps_html(steps) if steps else "") + notes
