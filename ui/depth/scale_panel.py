"""What the measured scale tells, as the page shows it."""

from html import escape

from optics.records.solve import Solution
from optics.scales import scale_wording as wording
from optics.scales.explanations import Cause
from optics.scales.scale_check import ScaleCheck
from optics.scales.scale_fit import ZERO, MarkCheck, arc_of, threaded
from optics.units import format_distance, format_length
from ui.answers.bench_panel import heading_html, lines_html
from ui.figures.focus_drawing import turn_drawing


def scale_html(solution: Solution) -> str:
    """Verdict, explanations by weight, marks, and the maker's circle of confusion."""
    check = solution.scale
    assert check is not None
    return (
        f'<section class="answer">{_headline(check)}{_explanations(check)}'
        f"{_marks(check)}{heading_html(wording.FITTED)}{lines_html(wording.fitted_lines(check))}"
        f"{_confusion(solution)}</section>"
    )


def _headline(check: ScaleCheck) -> str:
    """What is wrong; then what to do, with the turn drawn where one is called for."""
    found, stop, rest = wording.scale_headline(check).partition(". ")
    return (
        f'<p class="headline scale" role="status">{escape(found)}{stop.strip()}'
        '<a class="jump" href="#marks">Marks ↓</a></p>'
        f'<div class="pictures"><p>{escape(rest)}</p>{_turn_back(check)}</div>'
    )


def _turn_back(check: ScaleCheck) -> str:
    found = check.verdict
    if found is None or found.cause is not Cause.SLIPPED:
        return ""
    zero, diameter = found.found[ZERO].value, threaded(check.camera).ring_diameter
    arc = None if diameter is None else arc_of(abs(zero), diameter)
    return turn_drawing(zero, wording.turn_back(check, zero), arc)


def _explanations(check: ScaleCheck) -> str:
    rows = "".join(
        f'<tr><td class="weight"><i style="width:{e.weight:.0%}"></i></td>'
        f"<td>{escape(wording.explanation_line(check, e))}</td></tr>"
        for e in check.explanations
    )
    return f"{heading_html(wording.EXPLANATIONS)}<table><tbody>{rows}</tbody></table>"


def _marks(check: ScaleCheck) -> str:
    rows = "".join(map(_mark, check.as_it_stands.marks))
    return (
        f'<h2 class="small" id="marks">{wording.MARKS}</h2>'
        "<table><thead><tr><th>mark</th><th>off by</th><th>along the edge</th>"
        f"<th>at the film</th><th>this camera</th></tr></thead><tbody>{rows}</tbody></table>"
        '<p class="quiet">Plus: towards the near end of the scale; set there, the lens is too far '
        "out.</p>"
    )


def _mark(mark: MarkCheck) -> str:
    verdict = "▲ disagrees" if mark.disagrees else "✓ agrees"
    if mark.standardised is None:
        verdict = "not tested"
    edge = "" if mark.arc is None else format_length(mark.arc)
    return (
        f"<tr><th>{format_distance(mark.distance)}</th><td>{wording.said_turn(mark.residual)}</td>"
        f"<td>{edge}</td><td>{format_length(mark.at_film, places=3)}</td><td>{verdict}</td></tr>"
    )


def _confusion(solution: Solution) -> str:
    found = solution.confusion
    if found is None:
        return ""
    lines = map(wording.depth_mark_line, found.marks)
    maker = wording.confusion_line(found, solution.conventions)
    return heading_html(wording.DEPTH_MARKS) + lines_html([maker, *lines])
