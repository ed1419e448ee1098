"""Where the emulsion lies, as the page shows it."""

from optics.body.gate import GateResult, wording
from optics.measure.verdict import Verdict
from ui.answers.bench_panel import headline_html, judged_html, lines_html
from ui.figures.gate_view import gate_view


def gate_html(found: GateResult, allowed: float) -> str:
    """Focus error, section through the gate, play, and what is left of the tolerance."""
    said = [wording.said_play(found), wording.said_emulsion(found)]
    left = found.tolerance_left(allowed)
    verdict = Verdict.INSIDE if left > 0 else Verdict.OUTSIDE
    share = found.largest / allowed
    taken = f"{100 * share:.0f} % of the tolerance can go to the gate."
    return (
        f'<section class="answer">{_headline(found)}'
        f"{judged_html(verdict, wording.said_tolerance(found, allowed))}"
        f'<div class="whole"><i style="width:{min(share, 1):.0%}"></i></div>'
        f"{lines_html([taken], 'quiet')}"
        f'<div class="pictures">{gate_view(found)}</div>{lines_html(said)}'
        f"{lines_html([wording.GROUND_SIDE, wording.FLAT_FILM], 'quiet')}</section>"
    )


def _headline(found: GateResult) -> str:
    lead = "A lens set on this ground glass is "
    return headline_html(wording.said_gate_error(found), ends=":,", lead=lead)
