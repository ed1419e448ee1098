"""The error budget as bars with figures."""

from html import escape

from optics.body import budget as budgets
from optics.body.budget import Budget, Share
from optics.measure.uncertainty import Estimate
from optics.readings.readings import Sense
from optics.readings.wording import said_error
from optics.units import format_length
from ui.answers.bench_panel import headline_html, judged_html, lines_html, wide_html


def budget_html(found: Budget) -> str:
    """The whole camera, its parts as bars against the depth of focus, and what to do next."""
    whole, _, worst = budgets.said_whole(found).partition(". ")
    longest = max([found.depth, found.reach, *(s.term.reach for s in found.shares)])
    rows = "".join(_row(share, found, longest) for share in found.shares)
    table = (
        '<table class="bars"><thead><tr><th>part</th><th>at the film: error, and its ± at 95 %</th>'
        f"<th>in figures</th><th>of the spread</th></tr></thead><tbody>{rows}"
        f"{_whole_row(found, longest)}{_depth_row(found, longest)}</tbody></table>"
    )
    return (
        f'<section class="answer">{headline_html(whole, ends=",", lead="The whole camera is ")}'
        f'<div class="next">{judged_html(found.verdict, budgets.said_next(found))}</div>'
        f"{wide_html(table, 'Parts of the error')}"
        f"{lines_html([worst], 'quiet')}</section>"
    )


def _row(share: Share, found: Budget, longest: float) -> str:
    next_up = found.next is share
    name = share.term.name + (" ← next" if next_up else "")
    part = budgets.said_share(share).rpartition("; ")[2].removesuffix(" of the spread.")
    return _bar(name, share.term.error, longest, part)


def _whole_row(found: Budget, longest: float) -> str:
    return _bar("together", found.combined, longest, "", "whole-row")


def _depth_row(found: Budget, longest: float) -> str:
    width = found.depth / longest
    said = f"± {format_length(found.depth, places=3)}"
    return (
        f'<tr class="whole-row"><th>depth of focus</th><td class="bar"><i class="allowed" '
        f'style="width:{width:.1%}"></i></td><td>{said}</td><td></td></tr>'
    )


def _bar(name: str, error: Estimate, longest: float, share: str, kind: str = "") -> str:
    solid, open_ = (size / longest for size in (abs(error.value), error.expanded))
    mean = "" if Sense.of(error.value) is Sense.RIGHT else f"{said_error(error)}, "
    said = f"{mean}± {format_length(error.expanded, places=3)}"
    return (
        f'<tr class="{kind}"><th>{escape(name)}</th><td class="bar">'
        f'<i style="width:{solid:.1%}"></i><i class="give" style="width:{open_:.1%}"></i></td>'
        f"<td>{escape(said)}</td><td>{escape(share)}</td></tr>"
    )
