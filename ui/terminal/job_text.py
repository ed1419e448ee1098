"""Jobs as plain text for the terminal, where no foreign text may give orders."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from optics.measure.decision import said_rule
from optics.report.job_report import JobReport, TakenReading
from optics.report.wording import said_open, said_result, said_taken
from ui.terminal.account_text import in_blocks

if TYPE_CHECKING:
    from optics.records.store import JobLine


def job_lines(lines: Sequence["JobLine"], count: int) -> str:
    """One line for each job, and how many there are in all."""
    if not lines:
        return "No job found."
    rows = [
        f"{line.number:>5}  {line.changed[:10]}  {_cut(line.state, 13)}  {_cut(line.camera, 18)}  "
        f"{_cut(line.serial, 12)}  {_cut(line.customer or line.title, 24).rstrip()}"
        for line in lines
    ]
    more = f" of {count}" if count > len(lines) else ""
    return "\n".join([*rows, f"{len(lines)}{more} {'job' if count == 1 else 'jobs'}."])


def _cut(text: str, width: int) -> str:
    safe = printable(text)
    return f"{safe:<{width}}" if len(safe) <= width else f"{safe[: width - 1]}…"


def printable(text: str) -> str:
    """Text on one line without signs that a terminal would take for orders."""
    return "".join(c if c.isprintable() else "�" for c in " ".join(text.split()))


def report_text(report: JobReport, number: int) -> str:
    """A job from end to end, in words."""
    title = " — ".join(t for t in (report.title, report.camera_name) if t.strip())
    who = " · ".join(t for t in (report.customer, report.reference) if t.strip())
    facts = [("For", who), *report.identity, *report.dates, ("Asked for", report.wanted)]
    trays = [
        " · ".join(t for t in (r.tray, r.part, r.quantity, r.screw, r.place, r.note) if t.strip())
        for r in report.trays
    ]
    blocks = [
        [f"Job {number}: {title}" if title else f"Job {number}", f"State: {report.state}."]
        + [f"{label}: {text}" for label, text in facts if text.strip()],
        ["As found", *map(_taken, report.found), *(f"- {a}: {b}" for a, b in report.condition)],
        ["Trays", *(f"- {tray}" for tray in trays)],
        ["Photos", *(f"- {name}: {note}" for name, note in report.photos)],
        ["Done", *(f"- {_dotted(w.day, w.done, w.quantity)}" for w in report.work)],
        ["As left", *map(_taken, report.left)],
        ["Also checked", *(f"- {c.title}: {' '.join(c.at_bench)}" for c in report.checked)],
        ["Decision", *_decision(report)],
    ]
    return in_blocks(map(printable, block) for block in blocks if len(block) > 1)


def _dotted(*texts: str) -> str:
    return " · ".join(text for text in texts if text.strip())


def _taken(taken: TakenReading) -> str:
    about = _dotted(taken.day, taken.instrument, taken.note)
    head = f"- {taken.in_full}" + (f" ({about})" if about else "")
    return f"{head}: {said_taken(taken)}"


def _decision(report: JobReport) -> list[str]:
    if report.verdict is None:
        return []
    by = _dotted(report.decided_by, report.decided_on)
    said = (said_result(report), *said_open(report))
    lines = [*(f"{line}." for line in said), said_rule(report.guard)]
    lines += [report.decision_note] if report.decision_note.strip() else []
    lines += [f"Decided by {by}."] if by else []
    return lines + ([f"Next service: {report.next_service}"] if report.next_service else [])
