"""The rangefinder's answers as the page shows them."""

from collections.abc import Iterable
from html import escape

from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict
from optics.rangefinder import set_up_wording as words
from optics.rangefinder import wording
from optics.rangefinder.acuity import film_uncertainty, range_limits
from optics.rangefinder.curve import FarTarget
from optics.rangefinder.near_setting import NearAdvice
from optics.rangefinder.set_up import Bench, SetUp, next_turns
from optics.units import format_distance, format_length
from ui.answers.bench_panel import judged_html
from ui.figures.screw_drawing import screw_view
from ui.figures.triangle_drawing import true_view, wrong_view


def set_up_html(found: SetUp) -> str:
    """Where the rangefinder leads the lens now, and the triangle."""
    change = found.correction
    drawn = (
        wrong_view(found, found.far),
        wrong_view(found, found.near),
        true_view(found.bench, found.near),
    )
    return (
        '<section class="answer"><p class="headline two" role="status">When the images meet, the '
        f"lens is {_end(change.far, found.far)}, {_end(change.near, found.near)}"
        '<a class="jump" href="#what-to-do">Next ↓</a></p>'
        f"{judged_html(words.verdict(found), _goal(found))}"
        f'<div class="pictures even">{"".join(drawn)}</div></section>'
    )


def _end(error: Estimate, distance: float) -> str:
    known = f"± {format_length(error.expanded, places=3)}" if error.standard else ""
    value = wording.said_state_error(Estimate(error.value))
    return (
        f"<strong>{escape(value)}</strong> at {format_distance(distance)} "
        f'<span class="unsure">{known}</span>'
    )


def _goal(found: SetUp) -> str:
    goal = found.bench.goal
    allowed = format_length(goal.error, places=3)
    ends = words.verdict(found).words
    return f"{ends.capitalize()}: far and near within ± {allowed}, {goal.reason}."


def next_html(found: SetUp) -> str:
    """What to turn next, the rounds so far, and what is to change."""
    first, *rest = words.next_lines(found) or ("",)
    lines = "".join(f"<p>{escape(line)}</p>" for line in rest)
    is_done = words.verdict(found) is Verdict.INSIDE
    return (
        '<h2 class="small" id="what-to-do">Next</h2>'
        f'<div class="offers one{" uncalled" if is_done else ""}"><article class="offer">'
        f"<div><h3>{escape(first)}</h3>{lines}</div>{_screws(found)}</article></div>"
        f"{_rounds(found)}"
        f"{_found(found)}"
    )


def _screws(found: SetUp) -> str:
    """Each adjuster to be turned, drawn; none where something else is to be looked for first."""
    if found.correction.is_gain_far_out or words.contradicting(found):
        return ""
    rangefinder = found.bench.rangefinder
    return "".join(
        screw_view(adjuster.name, turns)
        for adjuster, turns in zip(
            (rangefinder.zero_adjuster, rangefinder.gain_adjuster),
            next_turns(found.advice),
            strict=True,
        )
        if turns
    )


def _rounds(found: SetUp) -> str:
    if not found.rounds:
        return ""
    said = ["as found", *(words.said_round(found, one) for one in found.rounds)]
    rows = "".join(
        f"<tr><th>{number}</th><td>{escape(turned)}</td>"
        f"<td>{_plain(state.far)}</td><td>{_plain(state.near)}</td></tr>"
        for number, (turned, state) in enumerate(zip(said, found.states, strict=True))
    )
    return (
        '<section class="answer"><table class="rounds"><thead><tr><th>round</th><th>turned</th>'
        f"<th>far, {format_distance(found.far)}</th><th>near, {format_distance(found.near)}</th>"
        f"</tr></thead><tbody>{rows}</tbody></table></section>"
    )


def _plain(error: float) -> str:
    return escape(wording.said_state_error(Estimate(error)))


def _found(found: SetUp) -> str:
    return (
        '<section class="answer found"><h2 class="small">Zero and gain</h2>'
        f"{_list(words.found_lines(found))}"
        f'<p class="quiet">{escape(wording.CONVENTIONS)} {escape(words.STOP)} '
        f"{escape(words.SCALE_FIRST)}</p></section>"
    )


def near_html(advice: NearAdvice) -> str:
    """Where to set near, beside the usual way."""
    settings = {
        "usual": advice.usual,
        "best near mark": advice.best_near,
        "best pair": advice.best_pair,
    }
    rows = "".join(
        f"<tr><th>{name}</th>"
        + "".join(f"<td>{escape(cell)}</td>" for cell in words.setting_row(setting))
        + "</tr>"
        for name, setting in settings.items()
    )
    return (
        '<section class="answer"><p class="headline scale" role="status">'
        f"{escape(words.near_headline(advice))}</p>"
        "<table><thead><tr><th>setting</th><th>exact at</th><th>worst, at the film</th>"
        "<th>where</th></tr></thead>"
        f'<tbody>{rows}</tbody></table><p class="quiet">From {format_distance(advice.far)} to '
        f"{format_distance(advice.near)}. The best pair gives up the exact infinity for less "
        "error everywhere else.</p></section>"
    )


def base_html(bench: Bench, distances: Iterable[float], far: FarTarget, height: str) -> str:
    """What the base can tell, at each distance and at the film."""
    error = film_uncertainty(bench.camera, bench.rangefinder, bench.acuity)
    limits = [range_limits(bench.rangefinder, bench.acuity, d) for d in distances]
    rows = "".join(
        f"<tr><th>{format_distance(one.film_distance)}</th><td>{format_distance(one.nearest)}</td>"
        f"<td>{format_distance(one.farthest)}</td></tr>"
        for one in limits
    )
    nearest = min(one.film_distance for one in limits)
    drawn = f'<div class="pictures">{true_view(bench, nearest)}</div>' if nearest < 1e9 else ""
    return (
        '<section class="answer"><p class="headline scale" role="status">The eye leaves ± '
        f"{format_length(error, places=3)} at the film, the same at every distance.</p>"
        f'<p class="quiet">Eye: {escape(wording.said_acuity(bench.acuity))}.</p>'
        f"{_list([*words.base_lines(bench)[1:], wording.far_target_line(far), height])}"
        '<div class="beside"><table><thead><tr><th>subject at</th><th>looks the same from</th>'
        f"<th>to</th></tr></thead><tbody>{rows}</tbody></table>{drawn}</div></section>"
    )


def _list(lines: Iterable[str]) -> str:
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in lines) + "</ul>"
