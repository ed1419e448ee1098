"""The whole camera's diagnosis and plan as the page shows them."""

from collections.abc import Iterable, Iterator
from html import escape

from optics.finding.diagnosis import Diagnosis
from optics.finding.diagnosis import reading_wording as readings
from optics.finding.diagnosis import wording as said
from optics.finding.diagnosis.what_if import WouldShow
from optics.finding.plan import Plan, Step
from optics.finding.plan import wording as plan_said
from optics.finding.whole import WholeCamera
from optics.measure.verdict import Verdict
from optics.readings.wording import said_half_width, said_offset
from ui.answers.bench_panel import judged_html, lines_html, table_html
from ui.figures.foretold_plot import foretold_plot

# Causes less probable than this share one line.
_UNLIKELY = 0.01


def verdict_html(whole: WholeCamera) -> str:
    """What it most probably is, what the plan promises, and what to do before anything else."""
    found, plan = whole.diagnosis, whole.plan
    is_sure = plan.will_conform and not plan_said.is_unsettled(plan)
    verdict = Verdict.INSIDE if is_sure else Verdict.UNSURE
    return (
        f'<section class="answer">{_headline(found)}'
        f"{judged_html(verdict, plan_said.promise_line(plan))}{_first(whole)}"
        f'<div class="pictures foretold">{foretold_plot(found)}</div></section>'
    )


def _headline(found: Diagnosis) -> str:
    lead, rest = said.headline_parts(found)
    return (
        f'<p class="headline bench whole-camera" role="status">{escape(lead)} '
        f"<strong>{escape(_unbroken(rest))}</strong>"
        '<a class="jump" href="#what-to-do">Plan ↓</a></p>'
    )


def _unbroken(words: str) -> str:
    """A figure keeps its sign and unit on one line of the large type."""
    return words.replace(" mm", "\u00a0mm").replace("± ", "±\u00a0").replace(" %", "\u00a0%")


def _first(whole: WholeCamera) -> str:
    """What is to be read before anything is moved, so that it is not overlooked."""
    line = plan_said.first_line(whole.plan)
    if not line:
        return ""
    return (
        '<article class="offer first"><h3>Before anything is moved</h3>'
        f"<p>{escape(line)}</p></article>"
    )


def causes_html(whole: WholeCamera) -> str:
    """Every cause with its weight and evidence, then what cannot be told."""
    found = whole.diagnosis
    ranked = said.ranked(found)
    likely = [(cause, chance) for cause, chance in ranked if chance >= _UNLIKELY]
    rows = "".join(
        f"<tr><th>{escape(cause.words)}</th>"
        f'<td class="weight"><i style="width:{chance:.0%}"></i>{escape(said.percent(chance))}</td>'
        f"<td>{escape(said.evidence(found, cause))}</td></tr>"
        for cause, chance in likely
    )
    rest = [cause.words for cause, chance in ranked if chance < _UNLIKELY]
    more = [f"Less than 1 % each: {said.joined(rest)}."] if rest else []
    return (
        '<section class="answer"><h2 class="small">Possible causes</h2>'
        f'<table class="causes"><tbody>{rows}</tbody></table>'
        f"{lines_html(more, 'quiet')}{_open(whole)}</section>"
    )


def _open(whole: WholeCamera) -> str:
    lines = [*plan_said.further_lines(whole.plan), *whole.left_out]
    if not lines:
        return ""
    items = "".join(f"<li>{escape(line)}</li>" for line in lines)
    return f'<h2 class="small">What cannot be told</h2><ul class="open">{items}</ul>'


def plan_html(plan: Plan) -> str:
    """The steps in the order of the bench, what stands in the way, and what comes last."""
    jumped = plan_said.jumped_line(plan)
    steps = "".join(map(_step, plan.steps)) or _nothing(plan)
    blocked = [one.reason for one in plan.blocked]
    return (
        '<section class="answer"><h2 class="small" id="what-to-do">Plan</h2>'
        f"{lines_html([jumped] if jumped else [], 'quiet')}"
        f'<div class="plan">{steps}</div>{lines_html(blocked)}'
        f"{lines_html([plan_said.LAST], 'quiet')}</section>"
    )


def _nothing(plan: Plan) -> str:
    return f"<p>{escape(plan_said.nothing_line(plan))}</p>"


def _step(step: Step) -> str:
    """One step: its amounts large, then the words, tool, notes and what is left after it."""
    done = step.adjustment
    amounts = "".join(
        f"<div><dt>{escape(label)}</dt><dd>{escape(text)}</dd></div>"
        for label, text in done.amounts
    )
    cautions = (f"⚠ {caution.heading}: {caution.text}" for caution in done.cautions)
    lines = [f"Tool: {done.tool}.", *done.notes, *cautions, plan_said.after_line(step)]
    return (
        f'<article class="offer"><h3>{step.number}. {escape(done.title)} '
        f'<span class="quiet">step {int(step.bench_step)} of the bench’s order</span></h3>'
        f"<dl>{amounts}</dl><p>{escape(done.instruction)}</p>{lines_html(lines, 'quiet')}</article>"
    )


def ways_html(plan: Plan) -> str:
    """Other ways, each with its price."""
    return lines_html(map(plan_said.alternative_line, plan.alternatives))


def what_if_html(found: Diagnosis, would: Iterable[WouldShow]) -> str:
    """A row for each reading: what it would show as things are, and once the fault is moved."""
    cells = (readings.would_show_cells(one, found.camera) for one in would)
    heads = ("reading", "expected now", "expected then", "at the film")
    return table_html(heads, cells)


def supposed_html(found: Diagnosis) -> str:
    """What the chances rest on."""
    lines = [*said.assumption_lines(found), *readings.supposed_lines(found.priors)]
    return f'<div class="meaning">{lines_html(lines)}</div>'


def read_html(whole: WholeCamera) -> str:
    """Every reading's error, beside what the causes make of it, as a table."""
    heads = ("reading", "shows", "± at 95 %", "expected")
    return table_html(heads, _read_rows(whole.diagnosis))


def _read_rows(found: Diagnosis) -> Iterator[tuple[str, str, str, str]]:
    rows = zip(found.seen.readings, found.seen.errors, found.foretold, strict=True)
    for reading, error, told in rows:
        yield (
            readings.placed_words(reading),
            said_offset(error.value),
            said_half_width(error.expanded),
            said_offset(float(told)),
        )
