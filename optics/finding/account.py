"""The whole camera's diagnosis and plan, for whoever tells it."""

from collections.abc import Iterator

from optics.account import Account, Block, Card, Cards, Figure, Role, Table, TableRow
from optics.finding.diagnosis import Diagnosis
from optics.finding.diagnosis import reading_wording as readings
from optics.finding.diagnosis import wording as said
from optics.finding.part import DiagnosisPart
from optics.finding.plan import Plan, PlanStep
from optics.finding.plan import wording as plan_said
from optics.finding.whole import WholeCamera
from optics.readings.wording import said_half_width, said_offset

# Causes less probable than this share one line.
_UNLIKELY = 0.01
_BEFORE = "Before anything is moved"
_READ = ("reading", "shows", "± at 95 %", "expected")


def whole_account(whole: WholeCamera) -> Account:
    """Verdict, what comes first, causes, what cannot be told, the plan, what it all rests on."""
    found, plan = whole.diagnosis, whole.plan
    first = plan_said.first_line(plan)
    left_open = (*plan_said.further_lines(plan), *whole.left_out)
    ways = tuple(map(plan_said.alternative_line, plan.alternatives))
    supposed = (*said.assumption_lines(found), *readings.supposed_lines(found.priors))
    parts = (
        *([Block((first,), Role.TO_DO, _BEFORE, plan.verdict)] if first else []),
        Figure((found,)),
        *_causes(found),
        *([Block(left_open, heading="What cannot be told")] if left_open else []),
        _plan(plan),
        *([Block(ways, Role.ASIDE, "Alternatives, and their price")] if ways else []),
        Table(_READ, tuple(_read(found)), "What was read", Role.ASIDE),
        Block(supposed, Role.ASIDE, "Assumptions"),
    )
    return Account(
        title=DiagnosisPart.title,
        headline=said.headline(found),
        large=(said.headline_parts(found)[1],),
        verdict=plan.verdict,
        judged=plan_said.promise_line(plan),
        parts=parts,
        notes=(ALONE,),
    )


ALONE = (
    "What each reading would ask for by itself is left out here: the plan allows for all of them."
)


def _causes(found: Diagnosis) -> Iterator[Table | Block]:
    ranked = said.ranked(found)
    yield Table(
        (),
        tuple(
            TableRow(
                (cause.words, said.percent(chance), said.evidence(found, cause)),
                said.chance_line(found, cause),
                bar=(chance,),
            )
            for cause, chance in ranked
            if chance >= _UNLIKELY
        ),
        "Possible causes",
        bar_at=1,
    )
    rest = [cause.words for cause, chance in ranked if chance < _UNLIKELY]
    if rest:
        yield Block((f"Less than 1 % each: {said.joined(rest)}.",), Role.QUIET)


def _plan(plan: Plan) -> Cards:
    """The steps in the order of the bench, what stands in the way, and what comes last."""
    before = (plan_said.jumped_line(plan), plan_said.nothing_line(plan))
    return Cards(
        first=tuple(filter(None, before)),
        cards=tuple(map(_step, plan.steps)),
        heading="Plan",
        last=(*(one.reason for one in plan.blocked), plan_said.LAST),
        in_order=True,
    )


def _step(step: PlanStep) -> Card:
    done = step.adjustment
    return Card(
        f"{step.number}. {done.title}",
        done.instruction,
        done.amounts,
        aside=plan_said.order_words(step),
        notes=(f"Tool: {done.tool}.", *done.notes, plan_said.after_line(step)),
        cautions=done.cautions,
    )


def _read(found: Diagnosis) -> Iterator[TableRow]:
    seen = found.seen
    rows = zip(seen.readings, seen.errors, found.foretold, readings.read_lines(found), strict=True)
    for reading, error, told, line in rows:
        cells = (
            readings.placed_words(reading),
            said_offset(error.value),
            said_half_width(error.expanded),
            said_offset(float(told)),
        )
        yield TableRow(cells, line)
