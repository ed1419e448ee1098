"""What a whole job comes to, in the words that page, terminal and sheets share."""

from optics.bench.report import Checked, JobReport
from optics.bench.verdict import Verdict


def said_result(report: JobReport) -> str:
    """The verdict on all readings of the lens as left, in one line."""
    if report.verdict is None:
        return "Not yet read as left"
    count = len(report.corrections_left)
    many = f" (all {count} readings)" if count > 1 and report.verdict is Verdict.INSIDE else ""
    return f"Lens focus as left: {report.verdict.words}{many}"


def said_open(report: JobReport) -> tuple[str, ...]:
    """What else was measured and is not proved right: the verdict on the lens is not on these."""
    return tuple(f"{one.title}, as last measured: {_stands(one)}" for one in report.open_checks)


def _stands(one: Checked) -> str:
    return "outside tolerance" if one.verdict is Verdict.OUTSIDE else "cannot be told"
