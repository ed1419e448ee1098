"""The witness card: a ring at true size with its marks, to fill in and tape to the job."""

import math
from collections.abc import Sequence

from optics.body.witness import Mark, Thread
from optics.camera.camera import Turn
from optics.drawing.column import Column
from optics.drawing.drawing import Point, on_circle
from optics.drawing.lettering import text_width, wrapped
from optics.drawing.page import ACCENT, BLACK, DARK, MID, Sheet, paper_named
from optics.drawing.ruler import LENGTH, ROOM, check_rulers
from optics.errors import OutOfRange
from optics.readings.wording import CONVENTIONS
from optics.sheets.true_size import Signature, printer_line, trust_line

SMALLEST_RING, LARGEST_RING = 10.0, 100.0
MOST_MARKS = 12
# Beyond the ring's edge (mm): the end of a mark's line, of its leader, and of its name.
_LINE_END, _LEADER_END, _REACH = 5.0, 9.5, 15.0
_TEXT, _FINE = 8.2, 6.6
_ROW = 6.0
_CIRCLE_STEPS = 720
# So far apart (mm) the names are set round the ring.
_NAME_ROOM = 7.5
_NAME_WIDTH, _SHORT_NAME = 14.0, 8.0
# From this radius (mm) there is room inside the ring for figures.
_ROOMY = 14.0
_BLANKS = (
    (("thread parts at", 16), ("turn from ∞ to there", 20), ("start entered", 16)),
    (("shims under the seat", 44), ("register", 28)),
    (("∞ checked on", 44), ("by", 22), ("on", 24)),
)


def witness_card(
    ring_diameter: float,
    marks: Sequence[Mark],
    signature: Signature,
    *,
    thread: Thread | None = None,
    parted_at: float | None = None,
) -> Sheet:
    """A card with the ring at true size, to be cut out and taped to the job.

    `marks` stand at their true angles, clockwise from the top as seen from the front; with a
    `thread` and the angle `parted_at` at which it lets go, its places of entry are drawn too.
    Errors: OutOfRange for a ring under 10 or over 100 mm, more than 12 marks, or an unknown
    paper.
    """
    _check(ring_diameter, marks)
    sheet = _begun(signature)
    corner = (sheet.left + ROOM + 1, sheet.bottom - ROOM)
    check_rulers(sheet, corner)
    left, top, radius = corner[0] + ROOM, sheet.top, ring_diameter / 2
    ordered = _in_order(marks)
    head = _draw_head(sheet, (left + 4, top + 1), signature, ring_diameter)
    centre = ((left + sheet.right) / 2, head + radius + _REACH)
    _draw_ring(sheet, centre, radius)
    for mark, name_angle in zip(ordered, _name_angles(ordered, radius), strict=True):
        _draw_mark(sheet, centre, radius, mark, name_angle)
    if thread is not None:
        _draw_thread(sheet, centre, radius, thread, parted_at)
    said = _said_thread(thread, radius, parted_at)
    below = _draw_blanks(sheet, (left + 4, centre[1] + radius + _REACH + 4), ordered, said)
    _draw_cut(sheet, left, top, below + 2)
    return sheet


def _begun(signature: Signature) -> Sheet:
    return Sheet(
        paper_named(signature.page_size),
        title=f"Witness card: {_heading(signature)}",
        made=signature.made,
        made_by=signature.made_by,
        conventions=CONVENTIONS,
        stretch=(LENGTH / signature.rulers[0], LENGTH / signature.rulers[1]),
    )


def _heading(signature: Signature) -> str:
    return signature.title.strip() or "Camera"


def _check(diameter: float, marks: Sequence[Mark]) -> None:
    if not SMALLEST_RING <= diameter <= LARGEST_RING:
        raise OutOfRange(
            f"The ring on a witness card must be {SMALLEST_RING:g} to {LARGEST_RING:g} mm across: "
            f"got {diameter:g} mm; draw another ring of the barrel that bears the marks.",
            quantity="ring_diameter",
            value=diameter,
            limit=LARGEST_RING,
        )
    if len(marks) > MOST_MARKS:
        raise OutOfRange(
            f"A witness card has room for {MOST_MARKS} marks: got {len(marks)}; leave out those "
            "that are ruled out.",
            quantity="marks",
            value=len(marks),
            limit=MOST_MARKS,
        )


def _in_order(marks: Sequence[Mark]) -> list[Mark]:
    return sorted(marks, key=lambda mark: mark.angle % math.tau)


def _name_angles(ordered: Sequence[Mark], radius: float) -> list[float]:
    """Where round the ring each name goes: near its mark, and clear of its neighbours.

    Least squares in order (pools of neighbours share their mean), begun after the widest gap.
    """
    angles = [mark.angle % math.tau for mark in ordered]
    gaps = [
        (b - a) % math.tau or math.tau for a, b in zip(angles, angles[1:] + angles[:1], strict=True)
    ]
    first = (gaps.index(max(gaps)) + 1) % len(angles) if angles else 0
    unrolled = [a + math.tau for a in angles[:first]]
    room = _NAME_ROOM / (radius + _LEADER_END)
    pools: list[tuple[float, int]] = []
    for number, angle in enumerate(angles[first:] + unrolled):
        pools.append((angle - number * room, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (low, few), (high, many) = pools[-2:]
            pools[-2:] = [((low * few + high * many) / (few + many), few + many)]
    spread = [mean for mean, count in pools for _ in range(count)]
    named = [mean + number * room for number, mean in enumerate(spread)]
    return named[len(named) - first :] + named[: len(named) - first]


def _draw_cut(sheet: Sheet, left: float, top: float, bottom: float) -> None:
    corners = [(left, top), (sheet.right, top), (sheet.right, bottom), (left, bottom)]
    sheet.shape(corners, ink=MID, dash=(2, 1.4))
    sheet.text(
        sheet.right - 1.5, bottom - 1.4, "cut out and tape to the job", 5.8, ink=DARK, align="right"
    )


def _draw_head(sheet: Sheet, at: Point, signature: Signature, longest: float) -> float:
    """The job, when, from which side it is seen and how far to trust it; where the head ends."""
    right = sheet.right - 4
    sheet.text(right, at[1] + 4.2, signature.made.isoformat(), _TEXT, align="right")
    head = Column(sheet, *at, right - at[0])
    head.say("Witness card", _TEXT, bold=True, ink=ACCENT, most=1)
    head.say(_heading(signature), 13, bold=True, most=1)
    head.say("Seen from the front of the camera; angles clockwise from the top.", _FINE)
    head.say(trust_line(longest), _FINE, ink=DARK)
    printer = printer_line(signature)
    if printer:
        head.say(printer, _FINE, ink=DARK)
    return head.y


def _draw_ring(sheet: Sheet, centre: Point, radius: float) -> None:
    """The ring's edge, a tick every ten degrees inside it, and figures where there is room."""
    steps = (math.tau * step / _CIRCLE_STEPS for step in range(_CIRCLE_STEPS))
    sheet.shape([on_circle(centre, radius, angle) for angle in steps], width=0.2)
    every, figures = (10, 30) if radius >= 18 else (30, 90)
    for degrees in range(0, 360, every):
        angle = math.radians(degrees)
        inner = radius - (2.2 if degrees % figures == 0 else 1.3)
        sheet.line(on_circle(centre, radius, angle), on_circle(centre, inner, angle), ink=DARK)
        if degrees % figures == 0 and radius >= 9:
            x, y = on_circle(centre, radius - 4.4, angle)
            sheet.text(x, y + 0.7, str(degrees), 5.8, ink=DARK, align="middle")
    for angle in (0.0, math.pi / 2):
        half = min(2.0, radius / 4)
        sheet.line(
            on_circle(centre, half, angle), on_circle(centre, half, angle + math.pi), ink=DARK
        )


def _draw_mark(sheet: Sheet, centre: Point, radius: float, mark: Mark, name_angle: float) -> None:
    """A line outwards from the ring's edge, and a leader from it to the mark's name."""
    end = on_circle(centre, radius + _LINE_END, mark.angle)
    sheet.line(on_circle(centre, radius, mark.angle), end, width=0.25)
    sheet.line(end, on_circle(centre, radius + _LEADER_END, name_angle), ink=MID)
    x, y = on_circle(centre, radius + _LEADER_END + 2.0, name_angle)
    (name,) = wrapped(mark.name, _SHORT_NAME, _TEXT, True, 1)
    side = math.sin(name_angle)
    if side > 0.5:
        sheet.text(x - 1.2, y + 1.0, name, _TEXT, bold=True)
    elif side < -0.5:
        sheet.text(x + 1.2, y + 1.0, name, _TEXT, bold=True, align="right")
    else:
        sheet.text(x, y + 1.0, name, _TEXT, bold=True, align="middle")


def _draw_thread(
    sheet: Sheet, centre: Point, radius: float, thread: Thread, parted_at: float | None
) -> None:
    """The places of entry, if known, and an arrow in the sense that extends."""
    if parted_at is not None:
        for start in range(thread.starts):
            angle = thread.entry_angle(start, parted_at)
            ends = on_circle(centre, radius * 0.58, angle), on_circle(centre, radius * 0.78, angle)
            sheet.line(*ends, width=0.25, ink=ACCENT, dash=() if not start else (0.8, 0.6))
            if radius >= _ROOMY:
                x, y = on_circle(centre, radius * 0.5, angle)
                sheet.text(x, y + 0.7, str(start), _FINE, ink=ACCENT, align="middle")
    if radius >= _ROOMY:
        way = 1 if thread.extends is Turn.CLOCKWISE else -1
        turns = [way * math.radians(a) for a in range(-60, 61, 5)]
        arc = [on_circle(centre, radius * 0.32, angle) for angle in turns]
        sheet.shape(arc, ink=ACCENT, width=0.4, closed=False)
        tip = on_circle(centre, radius * 0.31, way * math.radians(80))
        sheet.arrow(arc[-1], tip, width=0.4, ink=ACCENT)


def _said_thread(thread: Thread | None, radius: float, parted_at: float | None) -> str:
    if thread is None:
        return ""
    starts = f"{thread.starts} start{'s' if thread.starts > 1 else ''}"
    said = f"Extends {thread.extends} · lead {thread.lead:.4g} mm · {starts}"
    if parted_at is None or radius < _ROOMY or thread.starts == 1:
        return said
    return f"{said}. Inside, where the thread enters: 0 now, 1, 2 … so many starts farther out"


def _draw_blanks(sheet: Sheet, at: Point, ordered: Sequence[Mark], thread: str) -> float:
    """What is to be written in by hand: whose each mark is, and how it came apart; its end."""
    x, y = at
    if thread:
        sheet.text(x, y, thread, _FINE)
        y += _ROW
    half, rows = (sheet.right - 4 - x) / 2, (len(ordered) + 1) // 2
    for number, mark in enumerate(ordered):
        _draw_owner(sheet, (x + half * (number // rows), y + _ROW * (number % rows)), half, mark)
    y += _ROW * rows
    for row in _BLANKS:
        along = x
        for words, room in row:
            sheet.text(along, y, words, _FINE, ink=DARK)
            along += 1.5 + text_width(words, _FINE)
            sheet.line((along, y + 0.5), (along + room, y + 0.5), ink=BLACK)
            along += room + 4
        y += _ROW
    return y


def _draw_owner(sheet: Sheet, at: Point, width: float, mark: Mark) -> None:
    """A mark's name and angle, and a line for whose it is."""
    x, y = at
    (name,) = wrapped(mark.name, _NAME_WIDTH, _TEXT, True, 1)
    sheet.text(x, y, name, _TEXT, bold=True)
    said = f"{math.degrees(mark.angle % math.tau):.1f}°, whose:"
    sheet.text(x + _NAME_WIDTH + 1, y, said, _FINE)
    start = x + _NAME_WIDTH + 2 + text_width(said, _FINE)
    sheet.line((start, y + 0.5), (x + width - 3, y + 0.5), ink=BLACK)
