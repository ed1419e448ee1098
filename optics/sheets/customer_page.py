"""One page for the customer: how the camera came, what was done, how it is now; no trade words."""

import math
from collections.abc import Sequence
from datetime import date

from optics.drawing.column import Column
from optics.drawing.drawing import Ink
from optics.drawing.flow import FINE, HEAD, Cell, Flow
from optics.drawing.page import ACCENT, BLACK, DARK, HAIRLINE, PALE, Paper, Sheet, paper_named
from optics.measure.verdict import Verdict
from optics.readings.correction import Sight
from optics.report.job_report import JobReport, TakenReading
from optics.report.plain_wording import (
    place_of,
    place_on_ring,
    said_at_mark,
    said_of_reading,
    sight_of,
)
from optics.sheets.certificate import Heading, workshop_column

_SCALES = (1.25, 1.15, 1.05, 0.95, 0.88)
_CONVENTIONS = "Distances are measured from the film, at the back of the camera."
_WIDEST = 22.0
_TIMES = (500, 400, 300, 200, 100, 50, 20, 10, 5, 2, 1)
_LABEL = 7.4
LENS_ALONE = "The lens is right where it was measured; not all of the camera is right yet."
_NOT_READ = "not tried"


def customer_page(
    report: JobReport,
    *,
    made: date,
    workshop: str,
    address: str = "",
    number: str = "",
    page_size: str = "A4",
) -> bytes:
    """The page as PDF; one page unless the work was very long. Same arguments, same bytes.

    Errors: OutOfRange for an unknown paper.
    """
    heading = Heading(workshop, address, number, made)
    for scale in _SCALES:
        sheet, pages = _composed(report, heading, paper_named(page_size), scale)
        if pages == 1:
            break
    return sheet.pdf()


def _composed(report: JobReport, heading: Heading, paper: Paper, scale: float) -> tuple[Sheet, int]:
    name = report.camera_name.strip() or "Your camera"
    sheet = Sheet(
        paper,
        title=name,
        made=heading.made,
        made_by=heading.workshop,
        conventions=_CONVENTIONS,
    )
    flow = Flow(sheet, name, scale)
    _head(flow, report, heading, name)
    for section in (_asked, _came, _done, _now, _marks, _star, _next):
        section(flow, report)
    return sheet, flow.pages


def _head(flow: Flow, report: JobReport, heading: Heading, name: str) -> None:
    sheet = flow.sheet
    left = Column(sheet, sheet.left, sheet.top - 0.8, 108)
    left.say("Your camera", HEAD + 1, bold=True, ink=ACCENT)
    left.say(name, 20, bold=True, most=2)
    for label, text in report.identity[:1]:
        left.say(f"{label} {text}", 9, ink=DARK, most=1)
    right = workshop_column(sheet, heading)
    right.say(heading.made.isoformat(), FINE, ink=DARK)
    who = " · ".join(t.strip() for t in (report.customer, report.reference) if t.strip())
    if who:
        right.gap(1.5)
        right.say(f"For {who}", 9, most=2)
    left.below(right)
    left.gap(2)
    sheet.line((sheet.left, left.y), (sheet.right, left.y), width=0.5)
    flow.y = left.y


def _asked(flow: Flow, report: JobReport) -> None:
    if report.wanted.strip():
        flow.section("You asked", rule=0)
        flow.say(report.wanted, 9.5)


def _came(flow: Flow, report: JobReport) -> None:
    flow.section("How it came", rule=HAIRLINE if report.wanted.strip() else 0)
    for taken in report.found:
        flow.say(said_of_reading(taken), 9.5)
    for label, text in report.condition:
        if label not in ("Old mark", "Shims found"):
            flow.row(Cell(label, 30, ink=DARK), Cell(text, flow.width - 30, 8.2))
    if not report.found and not report.condition:
        flow.say("Nothing out of the ordinary was noted.", 9.5)


def _done(flow: Flow, report: JobReport) -> None:
    flow.section("What we did")
    for one in report.work:
        flow.row(Cell("•", 4, 9.5, bold=True, ink=ACCENT), Cell(one.done, flow.width - 4, 9.5))
    if not report.work:
        flow.say("No work was noted.", 9.5)


def _now(flow: Flow, report: JobReport) -> None:
    flow.section("How it is now", rule=0.3)
    is_more_open = report.verdict is Verdict.INSIDE and report.open_checks
    flow.say(LENS_ALONE if is_more_open else said_now(report), 13, bold=True)
    for taken in report.left:
        if sight_of(taken) is None:
            flow.say(said_of_reading(taken, is_now=True), 9.5)
    for line in said_still_open(report):
        flow.say(line, 9.5, bold=True)


def said_still_open(report: JobReport) -> tuple[str, ...]:
    """What besides the lens is still to be put right or proved, for somebody outside the trade."""
    wrong = [one.plain for one in report.open_checks if one.verdict is Verdict.OUTSIDE]
    unsure = [one.plain for one in report.open_checks if one.verdict is not Verdict.OUTSIDE]
    said = []
    if wrong:
        said.append(f"Still to be put right: {_listed(wrong)}.")
    if unsure:
        said.append(f"Not yet sure to be right: {_listed(unsure)}.")
    return (*said, "Please ask us before you rely on it.") if said else ()


def _listed(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def said_now(report: JobReport) -> str:
    """The outcome in words anybody reads, for no more than was measured after the work."""
    return {
        Verdict.INSIDE: f"The focus is right where it was measured: {_listed(_places(report))}.",
        Verdict.OUTSIDE: "The focus is not right yet. Please ask us before you rely on it.",
        Verdict.NOT_STATED: "The focus was not measured well enough to say whether it is right. "
        "Please ask us about it.",
        Verdict.UNSURE: "Whether the focus is right was not settled. Please ask us about it.",
        None: "The focus has not been measured after the work.",
    }[report.verdict]


def _places(report: JobReport) -> list[str]:
    """Where it was measured after the work, each once."""
    places = (place_of(one) for one in report.left if one.decision is not None)
    return list(dict.fromkeys(places))


def _marks(flow: Flow, report: JobReport) -> None:
    """Each mark that was tried after the work, and nothing of any other."""
    now = _by_place(report.left)
    if not now:
        return
    before = _by_place(report.found)
    flow.section("The distance ring", "The marks that were tried.")
    widths = (34.0, 50.0, flow.width - 84.0) if before else (34.0, flow.width - 34.0)
    heads = ("Ring set to", "When it came", "Now") if before else ("Ring set to", "Now")
    rows = []
    for place in dict.fromkeys((*before, *now)):
        those = (before, now) if before else (now,)
        rows.append((place, *(_shown(one.get(place)) for one in those)))
    flow.table(heads, widths, rows)


def _by_place(taken: Sequence[TakenReading]) -> dict[str, TakenReading]:
    """The readings of ring marks by where they were taken; of two alike the later."""
    return {place_on_ring(one): one for one in taken if sight_of(one) is not None}


def _shown(taken: TakenReading | None) -> str:
    return _NOT_READ if taken is None else said_at_mark(taken)


def _star(flow: Flow, report: JobReport) -> None:
    """A point of light at infinity as it lands on the film, drawn many times larger."""
    discs = _discs(report)
    if report.camera is None or not discs:
        return
    limit = report.camera.circle_of_confusion
    largest = max(limit, *(blur for _, blur, _ in discs))
    times = next((t for t in _TIMES if t * largest <= _WIDEST), 1)
    flow.section("A star on the film", f"Drawn {times} times as large as it is.", room=_WIDEST + 16)
    top = flow.y + 2 + _WIDEST / 2
    for number, (name, blur, ink) in enumerate(discs):
        middle = flow.x + _WIDEST / 2 + 44 * number
        _draw_disc(flow.sheet, (middle, top), min(blur * times, _WIDEST) / 2, ink)
        _draw_limit(flow.sheet, (middle, top), limit * times / 2)
        flow.sheet.text(middle, top + _WIDEST / 2 + 4.5, name, _LABEL, bold=True, align="middle")
    note = Column(flow.sheet, flow.x + 86, top - 6, flow.sheet.right - flow.x - 86)
    note.say("Dashed: up to this size the eye takes it for a point.", FINE + 1, ink=DARK)
    flow.y = top + _WIDEST / 2 + 6


def _discs(report: JobReport) -> list[tuple[str, float, Ink]]:
    named = (
        ("When it came", _at_infinity(report.found), DARK),
        ("Now", _at_infinity(report.left), ACCENT),
    )
    return [(name, sight.blur, ink) for name, sight, ink in named if sight is not None]


def _at_infinity(taken: Sequence[TakenReading]) -> Sight | None:
    """What the last of the readings showed at infinity; None where infinity was not tried."""
    sights = (sight_of(one) for one in reversed(taken))
    return next((one for one in sights if one is not None and math.isinf(one.mark)), None)


def _draw_disc(sheet: Sheet, middle: tuple[float, float], radius: float, ink: Ink) -> None:
    # A perfect point still has to be seen.
    sheet.shape(_circle(middle, max(radius, 0.25)), fill=ink, ink=None)


def _draw_limit(sheet: Sheet, middle: tuple[float, float], radius: float) -> None:
    sheet.shape(_circle(middle, radius + 0.3), ink=PALE, width=0.5)
    sheet.shape(_circle(middle, radius + 0.3), ink=BLACK, width=0.25, dash=(0.8, 0.6))


def _circle(middle: tuple[float, float], radius: float) -> list[tuple[float, float]]:
    angles = (math.radians(a) for a in range(0, 360, 6))
    return [(middle[0] + radius * math.sin(a), middle[1] - radius * math.cos(a)) for a in angles]


def _next(flow: Flow, report: JobReport) -> None:
    flow.section("Next time")
    if report.next_service.strip():
        flow.say(f"We should like to see it again: {report.next_service}", 9.5)
    flow.say("Please keep this page with the camera; it helps whoever opens it next.", 8.2)
