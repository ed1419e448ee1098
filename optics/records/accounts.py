"""Everything that a solved job says, topic by topic: one list for terminal, paper and JSON."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from optics.account import Account
from optics.body.budget_account import budget_account
from optics.body.gate.account import gate_account
from optics.body.standard.account import standard_account
from optics.body.witness.account import witness_account
from optics.finding.account import whole_account
from optics.rangefinder.account import base_account, near_account, set_up_account
from optics.rangefinder.cam_account import cam_account
from optics.rangefinder.set_up import near_advice
from optics.readings.account import reading_account
from optics.readings.correction import Correction
from optics.readings.directions import Direction
from optics.readings.first_answer import FirstAnswer
from optics.records.job import JobDocument
from optics.records.solve import Solution, solve
from optics.scales.account import scale_account


def accounts_of(solution: Solution) -> Iterator[Account]:
    """Each reading by itself, or all of them weighed together, and each part that the job has."""
    if solution.whole is None:
        yield from reading_accounts(solution.job, solution.answers)
    else:
        yield whole_account(solution.whole)
    yield from _of_parts(solution)


def reading_accounts(
    job: JobDocument, answers: Sequence[Correction | FirstAnswer | Direction]
) -> Iterator[Account]:
    """The account of each reading by itself."""
    for part, answer in zip(job.readings, answers, strict=True):
        yield reading_account(part.said_in_full, answer)


def _of_parts(solution: Solution) -> Iterator[Account]:
    if solution.scale is not None:
        yield scale_account(solution.scale, solution.confusion, solution.conventions)
    yield from _of_body(solution)
    yield from _of_rangefinder(solution)


def _of_body(solution: Solution) -> Iterator[Account]:
    job = solution.job
    if solution.standard is not None:
        yield standard_account(solution.standard)
    if solution.gate is not None:
        yield gate_account(solution.gate, solution.camera.allowed_error)
    if solution.witness is not None and job.witness is not None:
        yield witness_account(job.witness, solution.witness)
    if solution.budget is not None:
        yield budget_account(solution.budget)


def _of_rangefinder(solution: Solution) -> Iterator[Account]:
    bench, found = solution.rangefinder, solution.set_up
    if bench is None:
        return
    if found is not None:
        yield set_up_account(found, solution.lens_out)
    yield near_account(near_advice(bench) if found is None else found.where)
    yield base_account(bench)
    if solution.cam is not None:
        yield cam_account(solution.cam)


def checks_of(job: JobDocument) -> tuple[Account, ...]:
    """What the job measured besides its focus readings, for its record.

    Errors: as `solve`, for figures that cannot be.
    """
    parts = (job.scale, job.rangefinder, job.standard, job.gate, job.witness, job.budget)
    if not any(parts) and job.diagnosis is None:
        return ()
    solution = solve(job)
    found = tuple(account for account in _of_parts(solution) if account.is_finding)
    if solution.whole is None:
        return found
    # What the plan promises is for the bench, before the work; a record tells what was found.
    whole = whole_account(solution.whole)
    return (replace(whole, verdict=None, judged="", parts=()), *found)
