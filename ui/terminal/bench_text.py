"""Lens standard, film gate, starts and marks, and the error budget, as lines of plain text."""

from collections.abc import Iterable, Iterator
from typing import TypeAlias

from optics.body import budget as budgets
from optics.body.budget import Budget
from optics.body.budget_part import BudgetPart
from optics.body.gate import GateResult
from optics.body.gate import wording as gate_wording
from optics.body.gate.part import GatePart
from optics.body.standard import wording as standard_wording
from optics.body.standard.cautions import CAUTIONS
from optics.body.standard.part import StandardAnswer, StandardPart
from optics.body.witness import Ranking
from optics.body.witness import wording as witness_wording
from optics.body.witness.part import WitnessPart
from optics.camera.cautions import LOCAL_RULES, Caution
from optics.records.bench_results import what_to_do
from optics.records.solve import Solution

Blocks: TypeAlias = list[list[str]]
_MOST_COMBINATIONS = 12


def bench_blocks(solution: Solution) -> Iterator[tuple[str, Blocks]]:
    """The title and the blocks of lines of each part that the job has."""
    if solution.standard is not None:
        yield StandardPart.title, standard_blocks(solution.standard)
    if solution.gate is not None:
        yield GatePart.title, gate_blocks(solution.gate, solution.camera.allowed_error)
    if solution.witness is not None:
        yield WitnessPart.title, witness_blocks(solution.witness)
    if solution.budget is not None:
        yield BudgetPart.title, budget_blocks(solution.budget)


def standard_blocks(answer: StandardAnswer) -> Blocks:
    """Lean, bend, corners of the picture, shims, cautions."""
    standard, view = answer.standard, answer.view
    plane = [
        standard_wording.said_lean(standard.plane),
        *standard_wording.said_ways(standard.plane),
        standard_wording.said_mean(standard),
        standard_wording.said_flatness(standard.flatness, answer.harmless),
        standard_wording.said_minimax(standard),
    ]
    corners = _items(standard_wording.said_corner(corner, view) for corner in view.corners)
    blocks = [plane, ["In the picture", standard_wording.said_map(view), *corners]]
    if answer.plan is not None:
        shims = _items(map(standard_wording.said_shim, answer.plan.shims))
        blocks.append(["What to do", *shims, *standard_wording.plan_notes(answer.plan)])
    return [*blocks, _care(CAUTIONS)]


def gate_blocks(found: GateResult, allowed: float) -> Blocks:
    """Play, emulsion, focus error, what is left of the tolerance, and the working."""
    said = [
        gate_wording.said_gate_error(found),
        gate_wording.said_play(found),
        gate_wording.said_emulsion(found),
        gate_wording.said_tolerance(found, allowed),
    ]
    working = [line for step in found.steps for line in step.working_text()]
    return [said, ["Working", *working], [gate_wording.GROUND_SIDE, gate_wording.FLAT_FILM]]


def witness_blocks(ranking: Ranking) -> Blocks:
    """Verdict, what to do where it can be told, combinations by probability, cautions."""
    blocks = [[witness_wording.verdict_line(ranking)]]
    steps = what_to_do(ranking)
    if steps:
        blocks.append(["What to do", *_items(steps)])
    first = ranking.combinations[:_MOST_COMBINATIONS]
    listed = _items(witness_wording.said_combination(ranking, one) for one in first)
    rest = len(ranking.combinations) - len(first)
    more = [f"and {rest} more, each less likely."] if rest else []
    return [
        *blocks,
        ["Every mark with every start", *listed, *more, witness_wording.PRIOR],
        ["Before stripping", *_items(witness_wording.BEFORE_STRIPPING)],
        _care(witness_wording.CAUTIONS),
    ]


def budget_blocks(found: Budget) -> Blocks:
    """The whole camera, its parts, and which to work on next."""
    return [
        [budgets.said_whole(found), budgets.said_next(found)],
        ["Its parts", *_items(map(budgets.said_share, found.shares))],
    ]


def _items(lines: Iterable[str]) -> list[str]:
    return [f"- {line}" for line in lines]


def _care(cautions: Iterable[Caution]) -> list[str]:
    return ["Take care", *_items(caution.text for caution in cautions), f"- {LOCAL_RULES}"]
