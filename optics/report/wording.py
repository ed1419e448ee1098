"""What a whole job comes to, in the words that page, terminal and sheets share."""

from optics.account import Account
from optics.measure.decision import said_decision, said_probability
from optics.measure.verdict import Verdict
from optics.readings.correction import Correction
from optics.readings.wording import headline
from optics.report.job_report import JobReport, TakenReading


def said_result(report: JobReport) -> str:
    """The verdict on the readings of the lens as left, in one line; of no more than was read."""
    if report.verdict is None:
        return "Not yet read as left"
    said = f"Lens focus as left: {report.verdict.words}"
    if report.verdict is not Verdict.INSIDE:
        return said
    read = [one.title for one in report.left if one.decision is not None]
    if len(read) > 1:
        return f"{said} (all {len(read)} readings)"
    return f"{said} ({read[0][:1].lower()}{read[0][1:]} alone)"


def said_taken(taken: TakenReading) -> str:
    """What a reading came to and how that was decided; of parallax the advice."""
    if not isinstance(taken.answer, Correction):
        return taken.answer.advice
    assert taken.decision is not None
    decided = f"{said_decision(taken.decision)} {said_probability(taken.decision)}"
    return f"{headline(taken.answer)} {decided}"


def said_open(report: JobReport) -> tuple[str, ...]:
    """What else was measured and is not proved right: the verdict on the lens is not on these."""
    return tuple(f"{one.title}, as last measured: {_stands(one)}" for one in report.open_checks)


def _stands(one: Account) -> str:
    return "outside tolerance" if one.verdict is Verdict.OUTSIDE else "cannot be told"
