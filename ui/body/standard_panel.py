"""What the gauged standard tells, as the page shows it."""

from optics.body.standard import Corner, wording
from optics.body.standard.flatness import Bend
from optics.body.standard.part import StandardAnswer
from optics.measure.verdict import Verdict
from optics.readings.wording import said_error
from optics.units import format_length
from ui.answers.bench_panel import (
    headline_html,
    judged_html,
    lines_html,
    sign_of,
    steps_html,
    table_html,
)
from ui.figures.frame_map import frame_map
from ui.figures.mount_view import mount_view

_BENDS = {
    Bend.BENT: Verdict.OUTSIDE,
    Bend.FLAT: Verdict.INSIDE,
    Bend.THREE_READINGS: Verdict.UNSURE,
    Bend.NOT_STATED: Verdict.UNSURE,
}
_NO_SCREWS = "Enter the mount's screws, and the leaves under each, to have the shims made up."
_SQUARE = "These would square it, as nearly as the leaves at hand allow:"
_FIND_THE_BEND = (
    "First find the bend, or the slip: shims cannot cure it. These are for the plane amid the "
    "readings:"
)


def standard_html(answer: StandardAnswer) -> str:
    """Lean, bend, map of the frame, corners, shims."""
    standard, view, plan = answer.standard, answer.view, answer.plan
    pictures = frame_map(view) + (mount_view(plan) if plan else "")
    corners = table_html(
        ("corner", "in the picture", "out by", "disc", "there"),
        [_corner_row(corner) for corner in view.corners],
    )
    ways = " ".join(wording.said_ways(standard.plane))
    return (
        f'<section class="answer">{headline_html(wording.said_lean(standard.plane))}'
        f"{lines_html([ways, wording.said_mean(standard)])}{_bend(answer)}"
        f'<div class="pictures level">{pictures}</div>{corners}'
        f"{lines_html([_map_line(answer)], 'quiet')}</section>"
        f"{_shims(answer)}"
    )


def _bend(answer: StandardAnswer) -> str:
    flatness = answer.standard.flatness
    verdict = _BENDS[flatness.bend]
    if flatness.bend is Bend.BENT and abs(flatness.deviation.value) <= answer.harmless:
        verdict = Verdict.INSIDE
    return judged_html(verdict, wording.said_flatness(flatness, answer.harmless))


def _corner_row(corner: Corner) -> tuple[str, ...]:
    known = corner.error
    uncertain = f" ± {format_length(known.expanded, places=3)}" if known.standard else ""
    return (
        corner.name,
        corner.picture_name,
        said_error(known) + uncertain,
        format_length(corner.blur, places=3),
        f"{sign_of(corner.verdict)} {corner.verdict.value} the depth of focus"
        if corner.verdict is not Verdict.UNSURE
        else "? too close to tell",
    )


def _map_line(answer: StandardAnswer) -> str:
    view = answer.view
    return (
        f"{wording.said_map(view)} Depth of focus ± {format_length(view.depth, places=3)} at "
        f"{view.stop}. {wording.said_minimax(answer.standard)}"
    )


def _shims(answer: StandardAnswer) -> str:
    plan = answer.plan
    if plan is None:
        said = [*_left_alone(answer), _NO_SCREWS]
        return f'<h2 class="small" id="what-to-do">What to do</h2>{lines_html(said)}'
    return (
        f'<h2 class="small" id="what-to-do">What to do</h2><div class="answer">'
        f"{lines_html(_before_shims(answer))}{steps_html(map(wording.said_shim, plan.shims))}"
        f"{lines_html(wording.plan_notes(plan))}</div>"
    )


def _before_shims(answer: StandardAnswer) -> list[str]:
    """Why it may be better not to touch the shims, if it may."""
    flatness = answer.standard.flatness
    if flatness.bend is Bend.BENT and abs(flatness.deviation.value) > answer.harmless:
        return [_FIND_THE_BEND]
    return [f"{said} {_SQUARE}" for said in _left_alone(answer)]


def _left_alone(answer: StandardAnswer) -> list[str]:
    """That the standard may stay as it is, where every corner is sharp and nothing is bent."""
    flatness = answer.standard.flatness
    is_bent = flatness.bend is Bend.BENT and abs(flatness.deviation.value) > answer.harmless
    is_sharp = all(corner.verdict is Verdict.INSIDE for corner in answer.view.corners)
    return [wording.said_sharp(answer.view, answer.allowed)] if is_sharp and not is_bent else []
