"""What a job measured besides its focus readings, each told in a few sentences."""

from collections.abc import Iterator

from optics.account.report import Checked
from optics.body import budget
from optics.body.budget import Budget
from optics.body.budget_part import BudgetPart
from optics.body.gate import GateResult
from optics.body.gate import wording as gate_wording
from optics.body.gate.part import GatePart
from optics.body.standard import wording as standard_wording
from optics.body.standard.part import StandardAnswer, StandardPart
from optics.body.witness import Finding, Ranking
from optics.body.witness import wording as witness_wording
from optics.body.witness.part import WitnessPart
from optics.finding.diagnosis import wording as diagnosis_wording
from optics.finding.part import DiagnosisPart
from optics.measure.verdict import Verdict, worst_of
from optics.rangefinder import cam_wording, set_up_wording, wording
from optics.rangefinder.cam_part import CamPart
from optics.rangefinder.part import RangefinderPart
from optics.rangefinder.set_up import SetUp
from optics.rangefinder.stoning import StoningMap
from optics.records.job import JobDocument, ScalePart
from optics.records.solve import Solution, solve
from optics.scales import scale_wording
from optics.scales.explanations import Cause
from optics.scales.scale_check import ScaleCheck

_FINDINGS = {
    Finding.TOLD: None,
    Finding.CANNOT_TELL: Verdict.UNSURE,
    Finding.NONE_FITS: Verdict.OUTSIDE,
}


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
        yield _scale(solution, solution.scale)
    if solution.set_up is not None:
        yield _rangefinder(solution.set_up)
    if solution.cam is not None and solution.cam.stoning is not None:
        stoning = solution.cam.stoning
        yield _cam(stoning)
    if solution.standard is not None:
        yield _standard(solution.standard)
    if solution.gate is not None:
        yield _gate(solution.gate, solution.camera.allowed_error)
    if solution.witness is not None:
        yield _witness(solution.witness)
    if solution.budget is not None:
        yield _budget(solution.budget)


def _scale(solution: Solution, check: ScaleCheck) -> Checked:
    said = [scale_wording.found_line(check)]
    if solution.confusion is not None:
        said.append(scale_wording.confusion_line(solution.confusion, solution.conventions))
    found = check.verdict
    told = Verdict.INSIDE if found is not None and found.cause is Cause.RIGHT else Verdict.OUTSIDE
    verdict = Verdict.UNSURE if found is None else told
    causes = (scale_wording.explanation_line(check, cause) for cause in check.explanations)
    weighed = (*causes, *scale_wording.fitted_lines(check))
    to_do = scale_wording.order_lines(check)
    return Checked(ScalePart.title, tuple(said), verdict, to_do, "the engraved distances", weighed)


def _rangefinder(found: SetUp) -> Checked:
    verdict = set_up_wording.verdict(found)
    goal = wording.goal_line(found.bench.goal, verdict)
    said, turn = (set_up_wording.headline(found), goal), set_up_wording.next_lines(found)
    return Checked(RangefinderPart.title, said, verdict, turn, "the rangefinder")


def _cam(found: StoningMap) -> Checked:
    now, after = cam_wording.before_and_after(found)
    said, to_do = (now, cam_wording.said_allowed(found)), (*cam_wording.order_lines(found), after)
    metal = f"Metal to come off: {'; '.join(cam_wording.cut_lines(found))}."
    listed = (metal,) if found.cut.any() else ()
    return Checked(
        CamPart.title, said, found.before.verdict, to_do, "the rangefinder's cam", listed
    )


def _standard(found: StandardAnswer) -> Checked:
    standard, view = found.standard, found.view
    lean, mean = standard_wording.said_lean(standard.plane), standard_wording.said_mean(standard)
    verdict = worst_of(corner.verdict for corner in view.corners)
    worst_off = [corner for corner in view.corners if corner.verdict is verdict]
    corner = max(worst_off, key=lambda corner: abs(corner.error.value))
    at_worst = standard_wording.said_corner(corner, view)
    said = (lean, mean, standard_wording.said_map(view), at_worst)
    return Checked(StandardPart.title, said, verdict, plain="how squarely the lens stands")


def _gate(found: GateResult, allowed: float) -> Checked:
    play, error = gate_wording.said_play(found), gate_wording.said_gate_error(found)
    left, to_do = gate_wording.said_left(found, allowed), gate_wording.order_lines(found, allowed)
    verdict = found.verdict(allowed)
    return Checked(GatePart.title, (play, error, left), verdict, to_do, "how the film lies")


def _budget(found: Budget) -> Checked:
    said, to_do = (budget.said_whole(found),), (budget.said_next(found),)
    return Checked(BudgetPart.title, said, found.verdict, to_do, "the camera taken as a whole")


def _witness(found: Ranking) -> Checked:
    said, to_do = (witness_wording.found_line(found),), witness_wording.order_lines(found)
    verdict = _FINDINGS[found.finding]
    return Checked(WitnessPart.title, said, verdict, to_do, "how the lens is screwed together")
