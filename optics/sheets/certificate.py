"""The certificate: what was found, done and left, how well that is known, and who answers."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from optics.camera.cautions import LOCAL_RULES
from optics.drawing.column import Column, headed
from optics.drawing.flow import FINE, TEXT, Cell, Flow
from optics.drawing.page import ACCENT, BLACK, DARK, Paper, Sheet, paper_named
from optics.errors import NoAnswer
from optics.measure.decision import said_decision, said_probability, said_rule
from optics.measure.uncertainty import budget
from optics.measure.verdict import Verdict
from optics.readings import wording
from optics.readings.correction import Correction
from optics.readings.wording import CONVENTIONS
from optics.report.job_report import InstrumentUsed, JobReport, TakenReading
from optics.report.wording import said_open, said_result
from optics.sheets.account_section import draw_checked
from optics.sheets.certificate_figures import draw_found_and_left, gauge_height
from optics.units.printing import shortest

NO_ACCREDITATION = (
    "The figures are the workshop's own, from the instruments named above; no accreditation "
    "is claimed. They hold for the camera as it was on the day it was read."
)


# Set a little closer where that saves a second page.
_SCALES = (1.0, 0.96, 0.92, 0.88)
# Where the workshop's name is not known, room (mm) for its stamp.
STAMP = 12.0
# A cause of less than this share of the variance is not worth a line to whoever reads it.
_LEAST_SHARE = 0.005
# The least uncertainty told in figures, in mm.
_FINEST = 0.0001
# So much of a reading stays together on a page, in mm.
_READING_ROOM = 18.0


@dataclass(frozen=True)
class Heading:
    """Whose sheet it is and which job it belongs to."""

    workshop: str
    address: str
    number: str
    made: date


def certificate(
    report: JobReport,
    *,
    made: date,
    workshop: str,
    address: str = "",
    number: str = "",
    page_size: str = "A4",
) -> bytes:
    """The certificate of a job as PDF, as many pages as it needs; same arguments, same bytes.

    Errors: NoAnswer for a job without a measured reading as left, for there is nothing to
    certify; OutOfRange for an unknown paper.
    """
    if not report.corrections_left:
        raise NoAnswer(
            "A certificate needs a measured reading as left: got none; take one and enter it "
            "under as left.",
            quantity="readings as left",
        )
    heading = Heading(workshop, address, number, made)
    for scale in _SCALES:
        sheet, pages = _composed(report, heading, paper_named(page_size), scale)
        if pages == 1:
            return sheet.pdf()
    sheet, _ = _composed(report, heading, paper_named(page_size), 1.0)
    return sheet.pdf()


def _composed(report: JobReport, heading: Heading, paper: Paper, scale: float) -> tuple[Sheet, int]:
    """The certificate set at a scale, and how many pages it takes."""
    title = f"Focus certificate: {report.camera_name or report.title or 'camera'}"
    sheet = Sheet(
        paper, title=title, made=heading.made, made_by=heading.workshop, conventions=CONVENTIONS
    )
    job = f"job {heading.number}" if heading.number else ""
    flow = Flow(sheet, " · ".join(filter(None, (title, job))), scale)
    draw_heading(flow, report, heading, "Focus certificate")
    for section in (
        _result,
        _found,
        _done,
        _left,
        _checked,
        _known,
        _instruments,
        _care,
        _next,
        _signed,
    ):
        section(flow, report)
    return sheet, flow.pages


def draw_heading(flow: Flow, report: JobReport, heading: Heading, kind: str) -> None:
    """Workshop, kind of sheet, camera, its numbers, customer and days."""
    sheet = flow.sheet
    name = report.camera_name.strip() or "Camera"
    left = headed(sheet, kind, name, width=110, size=16)
    if report.title.strip():
        left.say(report.title, 9, most=2)
    if report.camera is not None:
        left.say(wording.said_camera(report.camera), 7.4, ink=DARK)
    right = workshop_column(sheet, heading)
    right.gap(1)
    numbered = f"Job {heading.number} · " if heading.number else ""
    right.say(f"{numbered}{heading.made.isoformat()}", FINE, bold=True)
    left.below(right)
    left.gap(1.4)
    sheet.line((sheet.left, left.y), (sheet.right, left.y), width=0.5)
    flow.y = left.y + 1.2
    _particulars(flow, report)


def workshop_column(sheet: Sheet, heading: Heading) -> Column:
    """Who answers for the sheet, at its upper right; room for a stamp where nobody is named."""
    column = Column(sheet, sheet.left + 118, sheet.top - 0.8, sheet.right - sheet.left - 118)
    if heading.workshop.strip():
        column.say(heading.workshop, 10, bold=True, most=2)
    else:
        column.gap(STAMP)
    for line in heading.address.splitlines():
        column.say(line, FINE, ink=DARK, most=2)
    return column


def _particulars(flow: Flow, report: JobReport) -> None:
    customer = " · ".join(t for t in (report.customer.strip(), report.reference.strip()) if t)
    rows = [*report.identity, *report.dates]
    if customer:
        rows = [("For", customer), *rows]
    whole = flow.sheet.right - flow.sheet.left
    half = whole / 2
    for start in range(0, len(rows), 2):
        cells = []
        for label, text in rows[start : start + 2]:
            cells += [Cell(label, 24, ink=DARK), Cell(text, half - 24, bold=True)]
        flow.row(*cells, x=flow.sheet.left)


def _result(flow: Flow, report: JobReport) -> None:
    verdict = report.verdict
    assert verdict is not None
    flow.section("Result", rule=0.3, room=60)
    flow.gap(-0.8)
    flow.say(said_result(report), 15, bold=True, ink=ACCENT if verdict is Verdict.INSIDE else BLACK)
    for line in said_open(report):
        flow.say(line, 10, bold=True)
    flow.gap(0.8)
    for taken in _measured(report.left):
        assert taken.decision is not None
        said = f"{taken.in_full}. {_headline(taken)} {said_decision(taken.decision)}"
        flow.say(said, TEXT)
    flow.gap(1.0)
    flow.need(gauge_height(report))
    draw_found_and_left(flow.sheet, (flow.x, flow.y), flow.width, report)
    flow.y += gauge_height(report)


def _measured(taken: Sequence[TakenReading]) -> list[TakenReading]:
    return [one for one in taken if one.decision is not None]


def _headline(taken: TakenReading) -> str:
    if isinstance(taken.answer, Correction):
        return wording.headline(taken.answer)
    return taken.answer.found


def _readings(flow: Flow, taken: Sequence[TakenReading]) -> None:
    for one in taken:
        flow.need(_READING_ROOM)
        flow.say(f"{one.in_full}.", TEXT, bold=True)
        flow.say(_headline(one), TEXT)
        if one.decision is not None:
            flow.say(f"{said_decision(one.decision)} {said_probability(one.decision)}", FINE)
        about = " · ".join(t.strip() for t in (one.instrument, one.day, one.note) if t.strip())
        if about:
            flow.say(about, FINE, ink=DARK)
        flow.rule()


def _found(flow: Flow, report: JobReport) -> None:
    if not report.condition and not report.found:
        return
    flow.section("As found", "Before anything was touched.", rule=0.3)
    _readings(flow, report.found)
    for label, text in report.condition:
        flow.row(Cell(label, 28, ink=DARK), Cell(text, flow.width - 28))


def _done(flow: Flow, report: JobReport) -> None:
    flow.section("Done", rule=0.3)
    if not report.work:
        flow.say("No work is recorded.", FINE, ink=DARK)
    for one in report.work:
        flow.row(Cell(one.done, flow.width - 20, TEXT), Cell(one.day, 20, ink=DARK))
        if one.quantity:
            flow.say(one.quantity, FINE, bold=True)
        flow.rule()
    if report.work_note.strip():
        flow.say(report.work_note, FINE, ink=DARK)


def _left(flow: Flow, report: JobReport) -> None:
    flow.section("As left", "After the work.", rule=0.3)
    _readings(flow, report.left)


def _checked(flow: Flow, report: JobReport) -> None:
    draw_checked(flow, report.checked)


def _known(flow: Flow, report: JobReport) -> None:
    flow.section("How well known", "Where the uncertainty of each reading as left comes from.")
    for taken in _measured(report.left):
        assert isinstance(taken.answer, Correction)
        rows = [row for row in budget(taken.answer.error) if row[2] >= _LEAST_SHARE]
        flow.say(f"{taken.in_full}.", FINE, bold=True)
        for name, standard, share in rows:
            flow.row(Cell(name, 78), Cell(_fine(standard), 34), Cell(f"{100 * share:.0f} %", 14))
        if not rows:
            flow.say("No uncertainty was stated.", FINE)
    flow.say(
        "Standard uncertainties at the film, those of half a per cent of the variance or more; U "
        "is the combination of all times k for 95 %, Student's t with the effective degrees of "
        "freedom (GUM, JCGM 100:2008).",
        FINE,
        ink=DARK,
    )


def _fine(standard: float) -> str:
    """A standard uncertainty to two digits, but never finer than any instrument shows."""
    if standard < _FINEST:
        return f"less than {shortest(_FINEST)} mm"
    return f"{shortest(float(f'{standard:.2g}'))} mm"


def _instruments(flow: Flow, report: JobReport) -> None:
    flow.section("Instruments")
    if not report.instruments:
        flow.say("No instrument is recorded.", FINE, ink=DARK)
        return
    rest = flow.width - 38 - 42 - 22 - 20
    flow.table(
        ("Instrument", "Limit either way", "Calibrated by", "Number", "Checked"),
        (38, 42, rest, 22, 20),
        [
            (i.name, _limit_and_origin(i), i.calibrated_by, i.serial, i.checked)
            for i in report.instruments
        ],
    )


def _limit_and_origin(used: InstrumentUsed) -> str:
    """The limit, and where it comes from unless that is who calibrated the instrument."""
    is_told_beside = not used.source or used.source == used.calibrated_by
    return used.limit if is_told_beside else f"{used.limit} ({used.source})"


def _next(flow: Flow, report: JobReport) -> None:
    if report.next_service.strip():
        flow.section("Next service")
        flow.say(report.next_service, TEXT, bold=True)


def _care(flow: Flow, report: JobReport) -> None:
    flow.section("Take care")
    said: list[str] = []
    for correction in (*report.corrections_left, *report.corrections_found):
        said += [c.text for c in correction.cautions if c.text not in said]
    for text in said:
        flow.say(text, FINE)
    flow.say(LOCAL_RULES, FINE, bold=True)
    flow.say(NO_ACCREDITATION, FINE, ink=DARK)


def _signed(flow: Flow, report: JobReport) -> None:
    flow.section("Decision", room=32, rule=0.3)
    flow.say(said_rule(report.guard), FINE)
    if report.decision_note.strip():
        flow.say(report.decision_note, FINE)
    flow.need(15)
    flow.gap(9)
    line, sheet = flow.y, flow.sheet
    sheet.line((flow.x, line), (flow.x + 80, line))
    sheet.line((flow.x + 90, line), (flow.x + 130, line))
    sheet.text(flow.x + 91, line - 1, report.decided_on.strip(), TEXT)
    flow.y = line
    who = f"{report.decided_by.strip() or 'Name'}, for the workshop"
    flow.row(Cell(who, 90, ink=DARK), Cell("Date", 40, ink=DARK))
