"""What the gauged standard tells, for whoever tells it."""

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.body.standard import Corner, wording
from optics.body.standard.cautions import CAUTIONS
from optics.body.standard.part import StandardAnswer, StandardPart
from optics.measure.verdict import Verdict
from optics.readings.wording import said_error
from optics.units import format_length

_HEADS = ("corner", "in the picture", "out by", "disc", "there")


def standard_account(answer: StandardAnswer) -> Account:
    """Lean, worst corner, bend, map of the frame with its corners, shims."""
    standard, view, plan = answer.standard, answer.view, answer.plan
    worst = answer.worst_corner
    corners = tuple(_row(answer, corner) for corner in view.corners)
    drawn = (view,) if plan is None else (view, plan)
    return Account(
        title=StandardPart.title,
        plain="how squarely the lens stands",
        headline=wording.said_lean(standard.plane),
        verdict=worst.verdict,
        judged=wording.said_corner(worst, view),
        parts=(
            Block((wording.said_mean(standard), wording.said_map(view)), Role.FOUND),
            Block((" ".join(wording.said_ways(standard.plane)),)),
            Block(
                (wording.said_flatness(standard.flatness, answer.harmless),), verdict=answer.bend
            ),
            Figure(drawn),
            Table(_HEADS, corners, "In the picture"),
            Block((wording.said_depth(view), wording.said_minimax(standard)), Role.QUIET),
            Block(what_to_do(answer), Role.TO_DO, "What to do"),
            *([] if plan is None else [Block(wording.plan_notes(plan))]),
        ),
        cautions=CAUTIONS,
    )


def what_to_do(answer: StandardAnswer) -> tuple[str, ...]:
    """What each screw gets, and before it why it may be better not to touch the shims."""
    stays = [wording.said_sharp(answer.view, answer.allowed)] if answer.may_stay else []
    if answer.plan is None:
        return (*stays, wording.NO_SCREWS)
    before = [wording.FIND_THE_BEND] if answer.is_bent else [f"{s} {wording.SQUARE}" for s in stays]
    return (*before, *map(wording.said_shim, answer.plan.shims))


def _row(answer: StandardAnswer, corner: Corner) -> TableRow:
    known = corner.error
    uncertain = f" ± {format_length(known.expanded, places=3)}" if known.standard else ""
    cells = (
        corner.name,
        corner.picture_name,
        said_error(known) + uncertain,
        format_length(corner.blur, places=3),
        "too close to tell"
        if corner.verdict is Verdict.UNSURE
        else f"{corner.verdict.value} the depth of focus",
    )
    return TableRow(cells, wording.said_corner(corner, answer.view), corner.verdict)
