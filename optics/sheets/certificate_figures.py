"""As found and as left on one scale, and what that means for a point of light on the film."""

from optics.drawing.drawing import Ink, Point
from optics.drawing.page import ACCENT, BLACK, DARK, PALE, WHITE, Sheet
from optics.measure.uncertainty import Estimate
from optics.readings import wording
from optics.report.job_report import JobReport
from optics.units import format_length

_SMALL, _LABEL = 6.4, 7.4
_NAMES = 40.0
_ROW = 9.0


def _rows(report: JobReport) -> list[tuple[str, Estimate, Ink]]:
    rows = [("As found", c.error, BLACK) for c in report.corrections_found[:1]]
    return rows + [("As left", c.error, ACCENT) for c in report.corrections_left[-1:]]


def gauge_height(report: JobReport) -> float:
    """How much room the drawing takes, in mm."""
    return 11.0 + _ROW * len(_rows(report))


def draw_found_and_left(sheet: Sheet, corner: Point, width: float, report: JobReport) -> None:
    """The first reading as found and the last as left, with their intervals, to one scale."""
    camera = report.camera
    assert camera is not None
    rows = _rows(report)
    allowed = camera.allowed_error
    span = 1.08 * max(allowed, *(abs(e.value) + e.expanded for _, e, _ in rows))
    x, y = corner
    half = (width - _NAMES) / 2
    middle, scale = x + _NAMES + half, half / span
    foot = y + 5.6 + _ROW * len(rows)
    band = (middle - allowed * scale, y + 5)
    sheet.box(band, 2 * allowed * scale, foot - y - 5, fill=PALE, ink=DARK, line=0.15)
    sheet.line((middle, y + 4), (middle, foot + 1), width=0.2)
    sheet.text(x + _NAMES, y + 3.4, "← too far in", _LABEL)
    sheet.text(middle, y + 3.4, "right", _LABEL, align="middle")
    sheet.text(x + width, y + 3.4, "too far out →", _LABEL, align="right")
    for number, (name, error, ink) in enumerate(rows):
        line = y + 5.3 + _ROW * (number + 0.62)
        sheet.text(x, line - 0.4, name, _LABEL, bold=True, ink=ink)
        said = wording.said_error(error) + ("" if error.standard else f", {wording.NOT_KNOWN}")
        sheet.text(x, line + 2.8, said, _LABEL, ink=ink)
        _draw_error(sheet, (middle, line), scale, error, ink)
    said = f"grey: tolerance ± {format_length(allowed, places=3)}; bars: 95 % intervals"
    sheet.text(x + _NAMES, foot + 3.6, said, _SMALL, ink=DARK)


def _draw_error(sheet: Sheet, zero: Point, scale: float, error: Estimate, ink: Ink) -> None:
    middle, line = zero
    at, reach = middle + error.value * scale, error.expanded * scale
    sheet.line((at - reach, line), (at + reach, line), width=0.7, ink=ink)
    for end in (at - reach, at + reach):
        sheet.line((end, line - 1.4), (end, line + 1.4), width=0.3, ink=ink)
    diamond = [(at, line - 2.0), (at + 1.3, line), (at, line + 2.0), (at - 1.3, line)]
    sheet.shape(diamond, fill=ink, ink=WHITE, width=0.15)
