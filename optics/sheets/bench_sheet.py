"""A sheet to fill in by hand at the bench: condition, trays, readings, work, in their order."""

from collections.abc import Sequence
from datetime import date

from optics.camera.cautions import FLASH, LOCAL_RULES, OLD_GLASS, SOLVENTS, SPRINGS, SUN
from optics.drawing.flow import FINE, TEXT, Cell, Flow
from optics.drawing.page import BLACK, DARK, MID, PALE, Sheet, paper_named
from optics.readings.wording import CONVENTIONS
from optics.report.job_report import JobReport, TakenReading
from optics.sheets.account_section import draw_checked
from optics.sheets.certificate import Heading, draw_heading

# Common practice, no source: each step presumes those before it.
ORDER_OF_WORK = (
    "Film gate and pressure plate",
    "Lens standard square to the film",
    "Lens at infinity: thread start, then shim or stop",
    "Focus scale ring to the stop and index",
    "Near distance check: scale, focal length, lead",
    "Rangefinder height",
    "Rangefinder infinity",
    "Rangefinder near, then infinity again",
    "Depth marks",
    "Film test, readings as left, record",
)
FAULTS = ("loose", "missing", "wrong", "damaged")
_SHIMS = "Shims found"
_HIGH = 7.4
# Rows to write in where everything seems to be written already.
_SPARE = 2
_BOX = 2.6


def bench_sheet(
    report: JobReport,
    *,
    made: date,
    workshop: str,
    address: str = "",
    number: str = "",
    page_size: str = "A4",
) -> bytes:
    """The sheet as PDF, two pages; what the job holds already is printed, the rest is blank.

    Errors: OutOfRange for an unknown paper.
    """
    name = report.camera_name.strip() or report.title.strip() or "camera"
    sheet = Sheet(
        paper_named(page_size),
        title=f"Bench sheet: {name}",
        made=made,
        made_by=workshop,
        conventions=CONVENTIONS,
    )
    flow = Flow(sheet, f"Bench sheet: {name}" + (f" · job {number}" if number else ""))
    draw_heading(flow, report, Heading(workshop, address, number, made), "Bench sheet")
    _identity(flow, report)
    _condition(flow, report)
    _shims(flow, report)
    _trays(flow, report)
    _readings(flow, "As found", "Before anything is touched; three tries each.", report.found)
    _worked_with(flow, report)
    draw_checked(flow, report.checked, at_bench=True)
    _order(flow)
    _work(flow, report)
    _readings(flow, "As left", "After the work, with the same instruments.", report.left)
    _end(flow)
    _notes(flow)
    return sheet.pdf()


def _identity(flow: Flow, report: JobReport) -> None:
    written = {label for label, _ in (*report.identity, *report.dates)}
    wanted = ("Serial number", "Lens number", "Other marks", "Received")
    missing = [label for label in wanted if label not in written]
    for start in range(0, len(missing), 2):
        _blanks(flow, flow.sheet.left, [(label, 62.0) for label in missing[start : start + 2]])
    if report.wanted.strip():
        flow.section("Asked for", rule=0)
        flow.say(report.wanted, FINE)


def _blanks(flow: Flow, x: float, fields: Sequence[tuple[str, float]]) -> None:
    """Labels on one line, each with a line to write on."""
    flow.need(_HIGH)
    flow.gap(_HIGH)
    for label, room in fields:
        flow.sheet.text(x, flow.y, label, FINE, ink=DARK)
        start = x + 24.0
        flow.sheet.line((start, flow.y + 0.6), (start + room, flow.y + 0.6), ink=BLACK)
        x = start + room + 4.0


def _condition(flow: Flow, report: JobReport) -> None:
    flow.section("Condition", "Before opening; photograph it first.", rule=0.3, room=50)
    heads = ("Screw or part", "Place", *FAULTS, "Mark, note")
    widths = (34.0, 34.0, 12.0, 14.0, 12.0, 15.0, flow.width - 121.0)
    known = [row for row in report.condition if row[0] != _SHIMS]
    for label, text in known:
        flow.row(Cell(label, 28, ink=DARK), Cell(text, flow.width - 28))
    if known:
        flow.gap(2)
    _grid(flow, heads, widths, _rows_left(5, known), ticks=range(2, 6))
    written = {label for label, _ in known}
    for label in ("Old mark", "Earlier repairs"):
        if label not in written:
            _blanks(flow, flow.x, [(label, flow.width - 24.0)])
    flow.gap(1.2)


def _shims(flow: Flow, report: JobReport) -> None:
    flow.section(_SHIMS, "Measure each; keep them in their order.", room=30)
    known = [text for label, text in report.condition if label == _SHIMS]
    for text in known:
        flow.row(Cell(text, flow.width, bold=True))
    if report.shims_fitted:
        flow.row(Cell("Fitted now", 28, ink=DARK), Cell(report.shims_fitted, flow.width - 28))
    heads = ("Where", "Thickness", "How many", "Material", "Note")
    _grid(flow, heads, (40.0, 26.0, 20.0, 28.0, flow.width - 114.0), _rows_left(3, known))


def _trays(flow: Flow, report: JobReport) -> None:
    flow.section("Trays", "In the order of taking off.", rule=0.3, room=50)
    heads = ("Part", "Came from", "Screws: kind, how many", "Tray", "Note")
    widths = (36.0, 36.0, 36.0, 14.0, flow.width - 122.0)
    rows = [
        (t.part, t.place, " × ".join(filter(None, (t.quantity, t.screw))), t.tray, t.note)
        for t in report.trays
    ]
    if rows:
        flow.table(heads, widths, rows)
    _grid(flow, () if rows else heads, widths, _rows_left(6, rows))


def _worked_with(flow: Flow, report: JobReport) -> None:
    """The readings in hand; whoever takes them again writes them under as found or as left."""
    if not (report.worked_with or report.disagreeing):
        return
    flow.section("In hand", "Readings kept neither as found nor as left.", rule=0.3)
    for said in report.disagreeing:
        flow.say(said, TEXT, bold=True)
    for said in report.worked_with:
        flow.row(Cell(said, flow.width, bold=True))
        flow.rule()


def _readings(flow: Flow, head: str, remark: str, taken: Sequence[TakenReading]) -> None:
    """What was read already, then rows for what is still to be read."""
    flow.section(head, remark, rule=0.3, room=12 + 2 * _HIGH)
    for one in taken:
        how = " · ".join(t.strip() for t in (one.instrument, one.day) if t.strip())
        flow.row(Cell(one.in_full, flow.width - 50, bold=True), Cell(how, 50, ink=DARK))
        flow.rule()
    heads = ("Reading", "Ring at", "1", "2", "3", "Limit ±", "Instrument", "Day")
    widths = (28.0, 16.0, 18.0, 18.0, 18.0, 15.0, flow.width - 131.0, 18.0)
    _grid(flow, heads, widths, _rows_left(3, taken))


def _rows_left(usual: int, written: Sequence[object]) -> int:
    """How many empty rows to draw: the usual number less those written, but a few to spare."""
    return max(usual - len(written), _SPARE)


def _order(flow: Flow) -> None:
    flow.section("Order of work", "Each step presumes those above it.", room=38)
    half = (len(ORDER_OF_WORK) + 1) // 2
    for step in range(half):
        flow.row(*(c for n in (step, step + half) for c in _step(flow, n)))
        base = flow.y - 2.7
        for column in (0, 1):
            flow.sheet.box((flow.x + column * flow.width / 2, base), _BOX, _BOX, line=0.2)
        flow.gap(1.4)


def _step(flow: Flow, number: int) -> tuple[Cell, Cell]:
    words = f"{number + 1}  {ORDER_OF_WORK[number]}"
    return Cell("", 5), Cell(words, flow.width / 2 - 5, 7.4)


def _work(flow: Flow, report: JobReport) -> None:
    flow.section("Done", "With amounts: mm, degrees and which way round, leaves.", room=40)
    for one in report.work:
        done = Cell(one.done, flow.width - 68, bold=True)
        flow.row(done, Cell(one.quantity, 50), Cell(one.day, 18, ink=DARK))
        flow.rule()
    heads = ("What", "How much", "Shims in", "Shims out", "Day")
    widths = (flow.width - 96.0, 30.0, 24.0, 24.0, 18.0)
    _grid(flow, heads, widths, _rows_left(7, report.work))


def _grid(
    flow: Flow,
    heads: Sequence[str],
    widths: Sequence[float],
    count: int,
    ticks: Sequence[int] = (),
) -> None:
    """Empty rows under their heads, tall enough to write in; `ticks` are columns of boxes."""
    if heads:
        flow.row(*(Cell(h, w, 6.4, ink=DARK) for h, w in zip(heads, widths, strict=True)))
        flow.gap(0.6)
    for _ in range(count):
        flow.need(_HIGH)
        _empty_row(flow, widths, ticks)
    flow.gap(1.2)


def _empty_row(flow: Flow, widths: Sequence[float], ticks: Sequence[int]) -> None:
    sheet, x, foot = flow.sheet, flow.x, flow.y + _HIGH
    for number, width in enumerate(widths):
        if number in ticks:
            sheet.box((x, foot - _BOX - 1.2), _BOX, _BOX, line=0.2)
        else:
            sheet.line((x, foot), (x + width - 2, foot), ink=MID, width=0.2)
        x += width
    flow.y = foot


def _end(flow: Flow) -> None:
    flow.section("Take care", room=30)
    for caution in (SUN, SPRINGS, SOLVENTS, FLASH, OLD_GLASS):
        flow.row(
            Cell(caution.heading, 26, 6.4, bold=True), Cell(caution.text, flow.width - 26, 6.4)
        )
    flow.say(LOCAL_RULES, FINE, bold=True)
    _blanks(flow, flow.x, [("Done by", 50.0), ("Day", 30.0)])


def _notes(flow: Flow) -> None:
    """Squares of 5 mm down to the foot of the page, for sketches and figures."""
    flow.section("Sketches", "Squares of 5 mm.", rule=0.3)
    sheet, top = flow.sheet, flow.y + 1.0
    across, down = int(flow.width // 5), int((sheet.bottom - top) // 5)
    for n in range(across + 1):
        sheet.line((flow.x + 5 * n, top), (flow.x + 5 * n, top + 5 * down), ink=PALE)
    for n in range(down + 1):
        sheet.line((flow.x, top + 5 * n), (flow.x + 5 * across, top + 5 * n), ink=PALE)
