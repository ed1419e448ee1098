"""The cam sheet: table and stoning map, and the profile at true size and lift × 10."""

import math
from collections.abc import Iterator
from datetime import date

from optics.account import Account, Block
from optics.drawing.column import Column
from optics.drawing.drawing import Point
from optics.drawing.page import DARK, Sheet, paper_named
from optics.rangefinder import cam_wording
from optics.rangefinder.cam import Cam
from optics.rangefinder.cam_account import cam_account
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.stoning import StoningMap
from optics.readings.wording import CONVENTIONS, said_camera
from optics.sheets.cam_profile import (
    CamDrawing,
    check_size,
    head_of,
    pieces,
    polar_page,
    profile_page,
)
from optics.units import format_distance, format_length

FIVE_DEGREES = math.radians(5)
_TEXT, _FINE = 8.2, 7.0
_TIGHT_ROW, _WIDE_ROW = 3.0, 4.2


def cam_sheet(
    cam: Cam,
    diameter: float,
    found: StoningMap | None = None,
    *,
    title: str,
    made: date,
    step: float = FIVE_DEGREES,
    page_size: str = "A4",
    made_by: str = "",
) -> Sheet:
    """The table, the stoning map if there is one, and templates for a cam ⌀ `diameter`.

    `diameter` in mm where the follower rides; `found` is the map of this cam; `step` in rad
    between the rows of the table. The same arguments give the same sheet.
    Errors: OutOfRange for an unknown paper, or a cam too large for it.
    """
    paper = paper_named(page_size)
    heading = title.strip() or cam.camera.name.strip() or "Cam"
    sheet = Sheet(
        paper, title=f"Cam sheet: {heading}", made=made, made_by=made_by, conventions=CONVENTIONS
    )
    drawn = CamDrawing(cam, diameter, found, sheet, heading, step)
    check_size(drawn)
    _table_pages(drawn)
    parts = tuple(pieces(drawn))
    for number, (first, last) in enumerate(parts, start=1):
        sheet.next_page()
        profile_page(drawn, first, last, f"piece {number} of {len(parts)}")
    sheet.next_page()
    polar_page(drawn)
    return sheet


def _table_pages(drawn: CamDrawing) -> None:
    cam, found = drawn.cam, drawn.found
    head = head_of(drawn, "table and stoning map" if found else "table")
    head.say(said_camera(cam.camera), _FINE, ink=DARK)
    head.say(f"{cam_wording.said_law(cam.law)}. Cam ⌀ {drawn.diameter:.6g} mm.", _FINE, ink=DARK)
    head.gap(1)
    if found:
        _say_account(head, cam_account(CamAnswer(cam, found)))
    head.say(cam_wording.said_tolerance(cam), _FINE)
    head.say(cam_wording.PRESUMED, _FINE, ink=DARK)
    sense = cam_wording.ring_sense(cam.thread.extends)
    head.say(f"{sense}. Arc, lift and metal in mm.", _FINE, bold=True)
    head.gap(1.5)
    _table(drawn, head.y)


def _say_account(head: Column, account: Account) -> None:
    """What to take off, how the cam stands now, what to set again, and what to mind."""
    to_do, care = (part.lines for part in account.told() if isinstance(part, Block))
    first, advice, *others = to_do
    head.say(first, 12, bold=True)
    head.say(advice, _TEXT, bold=True)
    for line in (account.headline, account.judged, *others):
        head.say(line, _FINE)
    for line in care:
        head.say(f"! {line}", _FINE, hang=3)
    head.gap(1)


def _rows(drawn: CamDrawing) -> Iterator[tuple[str, ...]]:
    table = drawn.cam.rows(drawn.rotation)
    lifts, arcs = drawn.lift(drawn.rotation), drawn.rotation * drawn.diameter / 2
    cuts = zip(*_cuts(drawn), strict=True) if drawn.found else iter(())
    for place, distance, arc, lift, tolerance in zip(
        table.rotation, table.film_distance, arcs, lifts, table.tolerance, strict=True
    ):
        yield (
            f"{math.degrees(place):.4g}°",
            format_distance(float(distance)),
            format_length(float(arc)).removesuffix(" mm"),
            f"{lift:.3f}",
            f"± {tolerance:.3f}",
            *next(cuts, ()),
        )


def _cuts(drawn: CamDrawing) -> tuple[list[str], list[str]]:
    found = drawn.found
    assert found is not None
    metal = drawn.metal(drawn.rotation)
    first, whole = found.rounded(found.rules.share * metal), found.rounded(metal)
    return tuple(  # type: ignore[return-value]
        [cam_wording.said_cut(found, one).removesuffix(" mm") for one in cut]
        for cut in (first, whole)
    )


_HEADS = ("Turn", "Sharp at", "Arc", "Lift", "True within", "First pass", "In all")
_WIDTHS = (11.0, 18.0, 15.0, 14.0, 20.0, 19.0, 16.0)
_APART = 8.0


def _table(drawn: CamDrawing, top: float) -> None:
    """Rows in as many blocks and pages as they need, headings over each block."""
    sheet, rows = drawn.sheet, list(_rows(drawn))
    pitch = min(max((sheet.bottom - top - 6) / len(rows), _TIGHT_ROW), _WIDE_ROW)
    widths = _WIDTHS[: len(rows[0])]
    across = int((sheet.right - sheet.left + _APART) // (sum(widths) + _APART))
    block = 0
    while rows:
        if block == across:
            sheet.next_page()
            top, block = head_of(drawn, "table, continued").y + 1.5, 0
        left = sheet.left + block * (sum(widths) + _APART)
        fitting = int((sheet.bottom - top - 5) / pitch)
        _block(sheet, (left, top), widths, rows[:fitting], pitch)
        rows, block = rows[fitting:], block + 1


def _block(
    sheet: Sheet,
    corner: Point,
    widths: tuple[float, ...],
    rows: list[tuple[str, ...]],
    pitch: float,
) -> None:
    x, y = corner
    _cells(sheet, x, y + 3, widths, _HEADS, bold=True)
    sheet.line((x, y + 4), (x + sum(widths), y + 4))
    for number, row in enumerate(rows, start=1):
        _cells(sheet, x, y + 4 + number * pitch - 0.6, widths, row)


def _cells(
    sheet: Sheet,
    x: float,
    y: float,
    widths: tuple[float, ...],
    cells: tuple[str, ...],
    *,
    bold: bool = False,
) -> None:
    for width, cell in zip(widths, cells, strict=False):
        x += width
        sheet.text(x, y, cell, _FINE, bold=bold, align="right")
