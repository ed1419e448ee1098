"""What a job measured besides its focus readings, each told in a few sentences."""

from collections.abc import Iterator

from optics.bench import budget, cam_wording, scale_wording
from optics.bench.diagnosis import wording as diagnosis_wording
from optics.bench.gate import wording as gate_wording
from optics.bench.rangefinder import set_up_wording, wording
from optics.bench.report import Checked
from optics.bench.standard import wording as standard_wording
from optics.bench.witness import wording as witness_wording
from optics.records.budget import BudgetPart
from optics.records.cam import CamPart
from optics.records.diagnosis import DiagnosisPart
from optics.records.gate import GatePart
from optics.records.job import JobDocument, ScalePart
from optics.records.rangefinder import RangefinderPart
from optics.records.solve import Solution, solve
from optics.records.standard import StandardPart
from optics.records.witness import WitnessPart


def checks_of(job: JobDocument) -> tuple[Checked, ...]:
    """Diagnosis, scale, rangefinder, cam, standard, gate, marks and budget, as the job has them.

    Errors: as `solve`, for figures that cannot be.
    """
    parts = (job.scale, job.rangefinder, job.standard, job.gate, job.witness, job.budget)
    if not any(parts) and job.diagnosis is None:
        return ()
    return tuple(_told(solve(job)))


def _told(solution: Solution) -> Iterator[Checked]:
    if solution.whole is not None:
        # What the plan promises is for the bench, before the work; a record tells what was found.
        headline = diagnosis_wording.headline(solution.whole.diagnosis)
        yield Checked(DiagnosisPart.title, (headline,))
    if solution.scale is not None:
        yield Checked(ScalePart.title, _scale(solution))
    if solution.set_up is not None:
        verdict = set_up_wording.verdict(solution.set_up)
        goal = wording.goal_line(solution.set_up.bench.goal, verdict)
        yield Checked(RangefinderPart.title, (set_up_wording.headline(solution.set_up), goal))
    if solution.cam is not None and solution.cam.stoning is not None:
        yield Checked(CamPart.title, cam_wording.lines(solution.cam.stoning))
    if solution.standard is not None:
        standard, view = solution.standard.standard, solution.standard.view
        lean = standard_wording.said_lean(standard.plane)
        mean = standard_wording.said_mean(standard)
        yield Checked(StandardPart.title, (lean, mean, standard_wording.said_map(view)))
    if solution.gate is not None:
        found = solution.gate
        play, error = gate_wording.said_play(found), gate_wording.said_gate_error(found)
        left = gate_wording.said_tolerance(found, solution.camera.allowed_error)
        yield Checked(GatePart.title, (play, error, left))
    if solution.witness is not None:
        yield Checked(WitnessPart.title, (witness_wording.verdict_line(solution.witness),))
    if solution.budget is not None:
        whole, rest = budget.said_whole(solution.budget), budget.said_next(solution.budget)
        yield Checked(BudgetPart.title, (whole, rest))


def _scale(solution: Solution) -> tuple[str, ...]:
    assert solution.scale is not None
    said = scale_wording.scale_headline(solution.scale)
    if solution.confusion is None:
        return (said,)
    return said, scale_wording.confusion_line(solution.confusion, solution.conventions)
