"""Which start and which mark belong together, as the page shows it."""

from html import escape

from optics.body.witness import BarrelDrawing, Combination, Finding, Ranking, wording
from optics.measure.verdict import Verdict
from optics.readings.wording import said_error
from optics.records.bench_results import what_to_do
from optics.units import format_length
from ui.answers.bench_panel import headline_html, lines_html, sign_of, steps_html, wide_html
from ui.figures.barrel_view import barrel_view

_MOST_ROWS = 8
_VERDICTS = {
    Finding.TOLD: Verdict.INSIDE,
    Finding.CANNOT_TELL: Verdict.UNSURE,
    Finding.NONE_FITS: Verdict.OUTSIDE,
}
_UNTOLD = (
    "Nothing yet: part no thread and move no mark on the strength of this reading. Take it again, "
    "finer or oftener, and gauge the register beside it."
)


def witness_html(ranking: Ranking, drawn: BarrelDrawing, is_noted: bool) -> str:
    """Verdict, barrel, what to do, and every combination by its probability."""
    is_told = ranking.finding is Finding.TOLD
    picture = barrel_view(drawn, is_told, is_noted)
    steps = what_to_do(ranking)
    steps_or_wait = steps_html(steps) if steps else lines_html([_UNTOLD])
    return (
        f'<section class="answer">{headline_html(_signed(ranking))}'
        f'<div class="pictures level">{picture}<div class="steps">'
        f'<h2 class="small" id="what-to-do">What to do</h2>{steps_or_wait}</div></div>'
        f"{_table(ranking)}</section>"
    )


def _signed(ranking: Ranking) -> str:
    return f"{sign_of(_VERDICTS[ranking.finding])} {wording.verdict_line(ranking)}"


def _table(ranking: Ranking) -> str:
    shown = ranking.combinations[:_MOST_ROWS]
    rest = len(ranking.combinations) - len(shown)
    more = [f"{rest} more, each less likely."] if rest else []
    rows = "".join(_row(ranking, one) for one in shown)
    table = (
        '<table class="marks"><thead><tr><th>probability</th><th>mark</th><th>start</th>'
        f"<th>lens at ∞ would be</th></tr></thead><tbody>{rows}</tbody></table>"
    )
    return (
        f"{wide_html(table, 'Marks and starts, the likeliest first')}"
        f"{lines_html([*more, wording.PRIOR], 'quiet')}"
    )


def _row(ranking: Ranking, combination: Combination) -> str:
    error = combination.error
    known = f" ± {format_length(error.expanded, places=3)}" if error.standard else ""
    now = " (now)" if combination.is_present else ""
    return (
        f'<tr><td class="weight">{_weight(ranking, combination)}</td>'
        f"<td>{escape(combination.mark.name)}</td>"
        f"<td>{escape(wording.said_start(combination.starts_moved))}{now}</td>"
        f"<td>{escape(said_error(error) + known)}</td></tr>"
    )


def _weight(ranking: Ranking, combination: Combination) -> str:
    said = wording.said_weight(ranking, combination).removeprefix("probability ")
    if ranking.finding is Finding.NONE_FITS:
        return escape(said)
    return f'<i style="width:{4 * combination.probability:.2f}rem"></i>{escape(said)}'


def before_html() -> str:
    """What to mark and note before a barrel comes apart."""
    return f'<div class="meaning">{steps_html(wording.BEFORE_STRIPPING)}</div>'
