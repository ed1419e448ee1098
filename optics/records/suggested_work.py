"""What a job's readings ask to be done, as work that can be noted as done.

Weighed together, they ask for one plan; each alone asks for any one of its remedies.
"""

from dataclasses import dataclass

from optics.finding.diagnosis.wording import headline
from optics.finding.disagreement import disagreement_line
from optics.finding.plan.wording import first_line, nothing_line, promise_line
from optics.finding.whole import WholeCamera
from optics.readings import wording
from optics.readings.correction import Correction
from optics.records.job import JobDocument
from optics.records.solve import solve

_ONE_BY_ONE = (
    "These readings are answered one by one, and what puts one of them right moves the others "
    "too: weigh them together on the page Whole camera before anything is moved."
)


@dataclass(frozen=True)
class Work:
    """One thing to do, and how."""

    title: str
    instruction: str


@dataclass(frozen=True)
class AskedWork:
    """What the readings say, and the work that they ask for."""

    said: str
    work: tuple[Work, ...] = ()


def work_asked(job: JobDocument) -> list[AskedWork]:
    """What is asked for by the readings being worked with; a reading inside tolerance asks nothing.

    Errors: as `solve`, for figures that cannot be.
    """
    if not job.readings or job.camera is None:
        return []
    solution = solve(job)
    if solution.whole is not None:
        return [_planned(solution.whole)]
    first = [AskedWork(disagreement_line(pair)) for pair in solution.disagreements]
    answers = [answer for answer in solution.answers if isinstance(answer, Correction)]
    each = [_asked(answer) for answer in answers]
    # Two readings of one thing are named as such already; of several things, none is moved alone.
    things = {answer.reading.thing for answer in answers}
    if len(things) > 1 and any(one.work for one in each):
        first.append(AskedWork(_ONE_BY_ONE))
    return [*first, *each]


def _planned(whole: WholeCamera) -> AskedWork:
    plan = whole.plan
    nothing = nothing_line(plan)
    first = "" if nothing else first_line(plan)
    said = (headline(whole.diagnosis), first, promise_line(plan), nothing)
    blocked = (one.reason for one in plan.blocked)
    steps = (step.adjustment for step in plan.steps)
    return AskedWork(
        " ".join(filter(None, (*said, *blocked))),
        tuple(Work(s.title, s.instruction) for s in steps),
    )


def _asked(found: Correction) -> AskedWork:
    said = wording.headline(found)
    if found.is_right:
        return AskedWork(f"{said} Inside tolerance: nothing need be done.")
    if found.is_bare:
        said = f"{said} {wording.advice(found)}"
        if not found.calls_for_work:
            return AskedWork(said)
    return AskedWork(said, tuple(Work(one.title, one.instruction) for one in found.remedies))
