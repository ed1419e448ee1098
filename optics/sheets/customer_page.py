"""One page for the customer: how the camera came, what was done, how it is now; no trade words."""

import math
from collections.abc import Sequence
from datetime import date

from optics.bench.correction import Correction, Sight
from optics.bench.report import JobReport
from optics.bench.verdict import Verdict
from optics.bench.wording import mark_name
from optics.sheets.certificate import STAMP, Heading
from optics.sheets.column import Column
from optics.sheets.drawing import Ink
from optics.sheets.flow import FINE, HEAD, Cell, Flow
from optics.sheets.page import ACCENT, BLACK, DARK, HAIRLINE, PALE, Paper, Sheet, paper_named
from optics.units import format_distance

_SCALES = (1.25, 1.15, 1.05, 0.95, 0.88)
_CONVENTIONS = "Distances are measured from the film, at the back of the camera."
_WIDEST = 22.0
_TIMES = (500, 400, 300, 200, 100, 50, 20, 10, 5, 2, 1)
_LABEL = 7.4
LENS_ALONE = "The lens is in focus; not all of the camera is right yet."


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
    right = Column(sheet, sheet.left + 118, sheet.top - 0.8, sheet.right - sheet.left - 118)
    if heading.workshop.strip():
        right.say(heading.workshop, 10, bold=True, most=2)
    else:
        right.gap(STAMP)
    for line in heading.address.splitlines():
        right.say(line, FINE, ink=DARK, most=2)
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
        flow.finish()


def _came(flow: Flow, report: JobReport) -> None:
    flow.section("How it came", rule=HAIRLINE if report.wanted.strip() else 0)
    for correction in report.corrections_found[:1]:
        flow.say(_how_sharp(correction), 9.5)
    for label, text in report.condition:
        if label not in ("Old mark", "Shims found"):
            flow.row(Cell(label, 30, ink=DARK), Cell(text, flow.width - 30, 8.2))
    if not report.corrections_found and not report.condition:
        flow.say("Nothing out of the ordinary was noted.", 9.5)
    flow.finish()


def _how_sharp(correction: Correction) -> str:
    """What the first mark, infinity, showed."""
    sight = correction.sights[0]
    if sight.looks_sharp:
        return "Set to infinity (∞), distant things came out sharp."
    if sight.sharp_at is None:
        return "Set to infinity (∞), nothing at all came out quite sharp, not even the horizon."
    return (
        f"Set to infinity (∞), it was really sharp at {format_distance(sight.sharp_at)}: "
        "distant things came out soft."
    )


def _done(flow: Flow, report: JobReport) -> None:
    flow.section("What we did")
    for one in report.work:
        flow.row(Cell("•", 4, 9.5, bold=True, ink=ACCENT), Cell(one.done, flow.width - 4, 9.5))
    if not report.work:
        flow.say("It was looked over; nothing was changed.", 9.5)
    flow.finish()


def _now(flow: Flow, report: JobReport) -> None:
    flow.section("How it is now", rule=0.3)
    is_more_open = report.verdict is Verdict.INSIDE and report.open_checks
    flow.say(LENS_ALONE if is_more_open else said_now(report.verdict), 13, bold=True)
    for line in said_still_open(report):
        flow.say(line, 9.5, bold=True)
    flow.finish()


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
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def said_now(verdict: Verdict | None) -> str:
    """The outcome in words anybody reads."""
    return {
        Verdict.INSIDE: "The focus is right.",
        Verdict.OUTSIDE: "The focus is not right yet. Please ask us before you rely on it.",
        Verdict.NOT_STATED: "The focus was not measured well enough to say whether it is right. "
        "Please ask us about it.",
        Verdict.UNSURE: "The focus is close, but it was not settled. Please ask us about it.",
        None: "The focus has not been measured after the work.",
    }[verdict]


def _marks(flow: Flow, report: JobReport) -> None:
    left = report.corrections_left[-1:]
    if not left:
        return
    found = report.corrections_found[:1]
    before = {s.mark: s for c in found for s in c.sights}
    flow.section("The distance ring", "With the lens fully open.")
    widths = (34.0, 50.0, flow.width - 84.0) if found else (34.0, flow.width - 34.0)
    heads = ("Ring set to", "When it came", "Now") if found else ("Ring set to", "Now")
    rows = []
    for sight in left[0].sights:
        was = [_seen(before[sight.mark])] if sight.mark in before else [""] * bool(found)
        rows.append((mark_name(sight.mark), *was, _seen(sight)))
    flow.table(heads, widths, rows)
    flow.finish()


def _seen(sight: Sight) -> str:
    """What a mark shows, to somebody who only wants to know whether to trust it."""
    if sight.looks_sharp:
        return "sharp, as marked"
    if sight.sharp_at is None:
        return "soft: nothing quite sharp"
    return f"soft: sharp at {format_distance(sight.sharp_at)} instead"


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
    flow.finish()


def _discs(report: JobReport) -> list[tuple[str, float, Ink]]:
    named: Sequence[tuple[str, Sequence[Correction], Ink]] = (
        ("When it came", report.corrections_found[:1], DARK),
        ("Now", report.corrections_left[-1:], ACCENT),
    )
    return [(name, c.sights[0].blur, ink) for name, those, ink in named for c in those]


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
    flow.finish()
