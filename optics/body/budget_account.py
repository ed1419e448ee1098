"""What the error budget comes to, for whoever tells it."""

from optics.account import Account, Block, Role, Table, TableRow
from optics.body import budget as said
from optics.body.budget import Budget, Share
from optics.body.budget_part import BudgetPart
from optics.measure.uncertainty import Estimate
from optics.units import format_length


def budget_account(found: Budget) -> Account:
    """The whole camera, what to work on next, and its parts as bars beside the depth of focus."""
    longest = max([found.depth, found.reach, *(s.term.reach for s in found.shares)])
    depth = f"± {format_length(found.depth, places=3)}"
    rows = (
        *(_share(share, found, longest) for share in found.shares),
        _row("together", found.combined, longest, ""),
        TableRow(("depth of focus", "", depth, ""), bar=(found.depth / longest,), is_limit=True),
    )
    return Account(
        title=BudgetPart.title,
        plain="the camera taken as a whole",
        headline=said.said_whole(found),
        large=(said.said_mean(found),),
        verdict=found.verdict,
        judged=said.said_held(found),
        parts=(
            Block((said.said_next(found),), Role.TO_DO, "What to do"),
            Table(_HEADS, rows, "Its parts", bar_at=1),
            Block((said.said_worst(found),), Role.FOUND),
        ),
    )


_HEADS = ("part", "at the film: error, and its ± at 95 %", "in figures", "of the spread")


def _share(share: Share, found: Budget, longest: float) -> TableRow:
    name = share.term.name + (" ← next" if found.next is share else "")
    row = _row(name, share.term.error, longest, said.said_part(share))
    return TableRow(row.cells, said.said_share(share), bar=row.bar)


def _row(name: str, error: Estimate, longest: float, part: str) -> TableRow:
    bar = (abs(error.value) / longest, error.expanded / longest)
    return TableRow((name, "", said.said_term(error), part), bar=bar)
