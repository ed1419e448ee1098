"""The record as the page shows it: decision, readings, what was done, what earlier jobs teach."""

from collections.abc import Iterable, Sequence
from html import escape

from optics.records.store import ShopFigure
from optics.report.job_report import JobReport
from optics.report.wording import said_open, said_result, said_taken
from optics.units import format_length
from ui.answers.bench_panel import lines_html
from ui.job.record_changes import Collision


def record_html(report: JobReport) -> str:
    """The decision first, then the readings and the work."""
    verdict = report.verdict.name.lower() if report.verdict else "unread"
    head = (
        f"<p class='headline record verdict {verdict}'><strong>{said_result(report)}</strong></p>"
        f"{lines_html(said_open(report), 'verdict outside')}"
    )
    parts = [
        _table("As found", ((one.in_full, said_taken(one)) for one in report.found)),
        _table("Done", ((one.done, f"{one.quantity} {one.day}".strip()) for one in report.work)),
        _table("As left", ((one.in_full, said_taken(one)) for one in report.left)),
        _table("Also checked", ((one.title, " ".join(one.at_bench)) for one in report.checked)),
        _table("Condition as found", report.condition),
    ]
    nothing = "<p class='quiet'>Nothing is written down yet.</p>"
    return f"<div class='answer'>{head}{''.join(parts) or nothing}</div>"


def _table(title: str, rows: Iterable[tuple[str, str]]) -> str:
    body = "".join(
        f"<tr><th scope='row'>{escape(name)}</th><td>{escape(text)}</td></tr>"
        for name, text in rows
    )
    if not body:
        return ""
    return (
        f"<h2 class='small'>{escape(title)}</h2><table class='record'><tbody>{body}</tbody></table>"
    )


def learned_html(camera: str, rows: Sequence[ShopFigure]) -> str:
    """What the jobs on a kind of camera have shown: mean, spread and how many say so."""
    if not rows:
        return "<p class='quiet'>No earlier job on this kind of camera has figures yet.</p>"
    body = "".join(
        f"<tr><th scope='row'>{escape(row.name.capitalize())}</th><td>{row.jobs}</td>"
        f"<td>{_mm(row.mean)}</td><td>{'–' if row.spread is None else _mm(row.spread)}</td>"
        f"<td>{_mm(row.least)} … {_mm(row.most)}</td></tr>"
        for row in rows
    )
    heads = ("Figure", "Jobs", "Mean", "Spread", "Least … most")
    head = "".join(f"<th scope='col'>{text}</th>" for text in heads)
    caption = f"<p class='quiet'>{escape(camera)}: plus is too far out, or added.</p>"
    return (
        f"<div class='answer wide' tabindex='0' role='region' aria-label='Earlier jobs'>{caption}"
        f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _mm(value: float) -> str:
    return format_length(value, places=3)


def collisions_html(found: Sequence[Collision], saved: str) -> str:
    """Texts that were changed here and elsewhere, side by side; `saved` says when and by whom."""
    rows = ((said_path(c.path), c.before, c.here, c.there) for c in found)
    body = "".join(
        f"<tr><th scope='row'>{escape(name)}</th>"
        + "".join(f"<td>{escape(text) or '–'}</td>" for text in texts)
        + "</tr>"
        for name, *texts in rows
    )
    heads = "".join(
        f"<th scope='col'>{text}</th>" for text in ("Field", "It was", "Typed here", "Saved there")
    )
    return (
        "<div class='answer' role='alert'><p>This job was saved in another window "
        f"({escape(saved)}) since you began to type, and these fields were changed in both. "
        "Nothing is overwritten until you choose."
        f"</p><table><thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def said_path(path: str) -> str:
    """Where a text is, in words: ``condition, shims 1, leaves``."""
    steps = [step for step in path.split(".") if step not in ("intake", "work")]
    words: list[str] = []
    for step in steps:
        if step.isdigit() and words:
            words[-1] += f" {int(step) + 1}"
        else:
            words.append(step.replace("_", " "))
    return ", ".join(words)
