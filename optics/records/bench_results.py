"""Film gate, thread starts and error budget as parts of a result document; in mm and rad."""

from typing import Annotated

from pydantic import Field

from optics.body import budget as budgets
from optics.body.budget import Budget, Share
from optics.body.budget_account import budget_account
from optics.body.gate import GateResult
from optics.body.gate import wording as gate_wording
from optics.body.witness import Combination, Ranking, RankingFinding
from optics.body.witness import wording as witness_wording
from optics.typed.result_parts import FigureOut, Out


class GateOut(Out):
    """Play of the film, depth of the emulsion behind the rails, and the focus error from it."""

    words: str
    tolerance_words: str
    verdict: str
    play: FigureOut
    depth: FigureOut
    error: FigureOut
    largest: Annotated[float, Field(description="largest error the play allows, either way")]
    tolerance_left: Annotated[float, Field(description="minus: the gate takes more than all")]
    working: tuple[str, ...]


def gate_out(found: GateResult | None, allowed: float) -> GateOut | None:
    """The gate as JSON can hold it; `allowed` is the camera's tolerance."""
    if found is None:
        return None
    return GateOut(
        words=gate_wording.said_gate_error(found),
        tolerance_words=gate_wording.said_tolerance(found, allowed),
        verdict=found.verdict(allowed),
        play=FigureOut.of(found.play),
        depth=FigureOut.of(found.depth),
        error=FigureOut.of(found.error),
        largest=found.largest,
        tolerance_left=found.tolerance_left(allowed),
        working=tuple(line for step in found.steps for line in step.working_text()),
    )


class CombinationOut(Out):
    """A mark with a start; `starts_moved` is plus farther out, `ring_turn` plus extends."""

    mark: str
    starts_moved: int
    ring_turn: Annotated[float, Field(description="rad from the mark in use")]
    error: FigureOut
    probability: float
    words: str

    @classmethod
    def of(cls, ranking: Ranking, combination: Combination) -> "CombinationOut":
        """The combination as JSON can hold it."""
        return cls(
            mark=combination.mark.name,
            starts_moved=combination.starts_moved,
            ring_turn=combination.ring_turn,
            error=FigureOut.of(combination.error),
            probability=combination.probability,
            words=witness_wording.said_combination(ranking, combination),
        )


class WitnessOut(Out):
    """All combinations, the likeliest first, and whether the first can be relied on."""

    words: str
    finding: Annotated[str, Field(description="told, cannot tell, or none fits")]
    allowed: Annotated[float, Field(description="how far out the right one may be, mm")]
    what_to_do: Annotated[
        tuple[str, ...], Field(description="to reach the first; empty unless it can be told")
    ]
    combinations: tuple[CombinationOut, ...]


def witness_out(ranking: Ranking | None) -> WitnessOut | None:
    """The ranking as JSON can hold it."""
    if ranking is None:
        return None
    told = ranking.finding is RankingFinding.TOLD
    return WitnessOut(
        words=witness_wording.verdict_line(ranking),
        finding=ranking.finding,
        allowed=ranking.allowed,
        what_to_do=witness_wording.instructions(ranking) if told else (),
        combinations=tuple(CombinationOut.of(ranking, one) for one in ranking.combinations),
    )


class ShareOut(Out):
    """One part of the camera, its share of the variance, and what putting it right gains."""

    key: str
    words: str
    error: FigureOut
    share: float
    gain: float
    is_curable: bool

    @classmethod
    def of(cls, share: Share) -> "ShareOut":
        """The share as JSON can hold it."""
        return cls(
            key=share.term.key,
            words=budgets.said_share(share),
            error=FigureOut.of(share.term.error),
            share=share.share,
            gain=share.gain,
            is_curable=share.term.is_curable,
        )


class BudgetOut(Out):
    """The whole camera against its depth of focus, and which part to work on next."""

    words: str
    next_words: str
    next: Annotated[str | None, Field(description="key of the part to work on next")]
    combined: FigureOut
    worst: Annotated[float, Field(description="everything at its limit the same way")]
    depth_of_focus: float
    verdict: str
    terms: tuple[ShareOut, ...]


def budget_out(found: Budget | None) -> BudgetOut | None:
    """The budget as JSON can hold it."""
    if found is None:
        return None
    account = budget_account(found)
    return BudgetOut(
        words=" ".join(account.said),
        next_words=budgets.said_next(found),
        next=found.next.term.key if found.next else None,
        combined=FigureOut.of(found.combined),
        worst=found.worst,
        depth_of_focus=found.depth,
        verdict=found.verdict,
        terms=tuple(map(ShareOut.of, found.shares)),
    )
