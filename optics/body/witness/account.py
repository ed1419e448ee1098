"""Which start and which mark belong together, for whoever tells it."""

from dataclasses import dataclass

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.body.witness import BarrelDrawing, Combination, Ranking, RankingFinding, wording
from optics.body.witness.part import WitnessPart, drawing_of
from optics.measure.verdict import Verdict
from optics.readings.wording import said_error
from optics.units import format_length

_MOST_ROWS = 12
# One that is told is told, whether the barrel stands at it or not.
_VERDICTS = {
    RankingFinding.TOLD: None,
    RankingFinding.CANNOT_TELL: Verdict.UNSURE,
    RankingFinding.NONE_FITS: Verdict.OUTSIDE,
}


@dataclass(frozen=True)
class Barrel:
    """The barrel's face to draw: nothing as the right one unless `is_told`.

    `is_noted` is whether the place where the threads part is known.
    """

    drawing: BarrelDrawing
    is_told: bool
    is_noted: bool


def witness_account(part: WitnessPart, ranking: Ranking) -> Account:
    """Verdict, barrel, what to do, and every combination by its probability."""
    barrel = Barrel(
        drawing_of(part, ranking),
        ranking.finding is RankingFinding.TOLD,
        part.parted_at is not None,
    )
    shown = ranking.combinations[:_MOST_ROWS]
    rest = len(ranking.combinations) - len(shown)
    more = (f"And {rest} more, each less likely.",) if rest else ()
    return Account(
        title=WitnessPart.title,
        plain="how the lens is screwed together",
        headline=wording.found_line(ranking),
        verdict=_VERDICTS[ranking.finding],
        parts=(
            Figure((barrel,), (Block(what_to_do(ranking), Role.TO_DO, "What to do"),)),
            Table(_HEADS, tuple(_row(ranking, one) for one in shown), _EVERY),
            Block((*more, wording.PRIOR), Role.QUIET),
            Block(wording.BEFORE_STRIPPING, Role.ASIDE, "Before a barrel comes apart"),
        ),
        cautions=wording.CAUTIONS,
    )


_EVERY = "Every mark with every start"
_HEADS = ("probability", "mark", "start", "lens at ∞ would be")


def what_to_do(ranking: Ranking) -> tuple[str, ...]:
    """The steps to the right combination, or what to do while it cannot be told."""
    if ranking.finding is RankingFinding.TOLD:
        return wording.instructions(ranking)
    return (" ".join((*wording.order_lines(ranking), wording.UNTOLD)),)


def _row(ranking: Ranking, one: Combination) -> TableRow:
    known = f" ± {format_length(one.error.expanded, places=3)}" if one.error.standard else ""
    cells = (
        wording.said_weight(ranking, one).removeprefix("probability "),
        one.mark.name,
        wording.said_start(one.starts_moved) + (" (now)" if one.is_present else ""),
        said_error(one.error) + known,
    )
    fits = ranking.finding is not RankingFinding.NONE_FITS
    bar = (one.probability,) if fits else ()
    return TableRow(cells, wording.said_combination(ranking, one), bar=bar)
