"""What an engraved scale's marks tell, for whoever tells it."""

from collections.abc import Sequence
from dataclasses import dataclass

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.camera.confusion import Convention
from optics.measure.verdict import Verdict
from optics.scales import scale_wording as wording
from optics.scales.depth_marks import ConfusionFound
from optics.scales.explanations import ScaleFault
from optics.scales.scale_check import ScaleCheck
from optics.scales.scale_fit import ZERO, MarkCheck, arc_of, threaded
from optics.units import format_distance, format_length

TITLE = "Engraved scale against the camera"
_HEADS = ("mark", "off by", "along the edge", "at the film", "this camera")


@dataclass(frozen=True)
class RingTurn:
    """A turn of the ring to draw: its angle (rad), which way round, and mm along its edge."""

    angle: float
    sense: str
    arc: float | None


def scale_account(
    check: ScaleCheck, confusion: ConfusionFound | None, conventions: Sequence[Convention]
) -> Account:
    """What is wrong and what to do, what could explain it, the marks, the maker's circle."""
    to_do = wording.order_lines(check)
    orders = (Block(to_do, Role.TO_DO, "What to do"),) if to_do else ()
    causes = tuple(
        TableRow(
            (wording.said_weight(one), wording.said_explanation(check, one)),
            wording.explanation_line(check, one),
            bar=(one.weight,),
        )
        for one in check.explanations
    )
    return Account(
        title=TITLE,
        plain="the engraved distances",
        headline=wording.found_line(check),
        verdict=check.judged,
        parts=(
            Figure(_turns(check), orders),
            Table((), causes, wording.EXPLANATIONS, Role.WEIGHED),
            Table(_HEADS, tuple(map(_mark, check.as_it_stands.marks)), wording.MARKS),
            Block((wording.PLUS,), Role.QUIET),
            Block(tuple(wording.fitted_lines(check)), Role.WEIGHED, wording.FITTED),
            *([] if confusion is None else _depth_marks(confusion, conventions)),
        ),
    )


def _turns(check: ScaleCheck) -> tuple[RingTurn, ...]:
    """The turn that puts a slipped ring back."""
    found = check.verdict
    if found is None or found.cause is not ScaleFault.SLIPPED:
        return ()
    zero, diameter = found.found[ZERO].value, threaded(check.camera).ring_diameter
    arc = None if diameter is None else arc_of(abs(zero), diameter)
    return (RingTurn(zero, wording.turn_back(check, zero), arc),)


def _mark(mark: MarkCheck) -> TableRow:
    is_tested = mark.standardised is not None
    verdict = Verdict.OUTSIDE if mark.disagrees else Verdict.INSIDE
    agrees = "disagrees" if mark.disagrees else "agrees"
    cells = (
        format_distance(mark.distance),
        wording.said_turn(mark.residual),
        "" if mark.arc is None else format_length(mark.arc),
        format_length(mark.at_film, places=3),
        agrees if is_tested else "not tested",
    )
    return TableRow(cells, wording.mark_line(mark), verdict if is_tested else None)


def _depth_marks(found: ConfusionFound, conventions: Sequence[Convention]) -> tuple[Block, Block]:
    """What the maker's depth marks were made for, and each pair of them."""
    maker = wording.confusion_line(found, conventions)
    return (
        Block((maker,), Role.FOUND, wording.DEPTH_MARKS),
        Block(tuple(map(wording.depth_mark_line, found.marks)), heading="Each pair of them"),
    )
