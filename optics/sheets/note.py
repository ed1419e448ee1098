"""The bench note: one page that says what was measured, what it means and what to do."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from datetime import date

from optics.account import Account, Block, Card, Cards, Role, Table
from optics.camera.camera import FrontCell, Helicoid
from optics.camera.cautions import LOCAL_RULES
from optics.drawing.column import Column
from optics.drawing.lettering import text_width
from optics.drawing.page import ACCENT, BLACK, DARK, HAIRLINE, MID, PALE, Sheet, paper_named
from optics.measure.uncertainty import Estimate, budget
from optics.moves import Refused
from optics.readings import wording
from optics.readings.account import reading_account
from optics.readings.correction import Correction
from optics.readings.remedies import Remedy
from optics.readings.wording import CONVENTIONS
from optics.sheets.note_figures import FIGURE_HEIGHT, draw_gauge, draw_remedy, draw_standing
from optics.units import format_uncertainty
from optics.units.printing import shortest

_SIDE = 27.0
_GUTTER = 4.0
_AMOUNTS = 50.0
_PICTURE = 15.0
_WRITING = 7.5
_TEXT, _FINE, _HEAD = 8.2, 7.0, 8.2


@dataclass(frozen=True)
class _Fit:
    """How closely the note is set, and how much of each list is shown (None: all of it)."""

    scale: float
    working: int | None = None
    sources: int | None = None
    notes: int | None = None
    sights: int | None = None


# From generous to close; what is left out comes last, the working first of all.
_FITS = (
    _Fit(1.1),
    _Fit(1.05),
    _Fit(1.0),
    _Fit(0.95),
    _Fit(0.9),
    _Fit(0.86),
    _Fit(0.86, working=1),
    _Fit(0.86, working=0, sources=4),
    _Fit(0.82, working=0, sources=3, notes=3, sights=8),
    _Fit(0.8, working=0, sources=2, notes=1, sights=4),
)


@dataclass(frozen=True)
class _Note:
    """What is to be said, and how closely."""

    correction: Correction
    account: Account
    title: str
    made: date
    fit: _Fit
    sheet: Sheet


def correction_note(
    correction: Correction,
    *,
    title: str,
    reading_title: str,
    made: date,
    page_size: str = "A4",
    made_by: str = "",
) -> bytes:
    """One reading and everything that follows from it, on one page of A4 or Letter, as PDF.

    `title` heads the page (empty: the camera's name), `reading_title` says how it was measured,
    `made` dates it and `made_by` signs it. The same arguments give the same bytes. Where the
    page is too small the type shrinks; then lists are cut short, and a line says which.
    Errors: OutOfRange for an unknown paper.
    """
    paper = paper_named(page_size)
    heading = title.strip() or correction.camera.name.strip() or "Camera"
    account = reading_account(reading_title, correction)
    for fit in _FITS:
        sheet = Sheet(
            paper,
            title=f"Bench note: {heading}",
            made=made,
            made_by=made_by,
            conventions=CONVENTIONS,
        )
        note = _Note(correction, account, heading, made, fit, sheet)
        if _composed(note) <= sheet.bottom:
            break
    return sheet.pdf()


def _composed(note: _Note) -> float:
    """Draw everything; where it ends."""
    y = _head(note)
    for section in (
        _measured,
        _answer,
        _figures,
        _remedies,
        _sights,
        _working,
        _sources,
        _care,
        _as_left,
    ):
        y = section(note, y)
    return y


def _head(note: _Note) -> float:
    sheet, camera = note.sheet, note.correction.camera
    width = sheet.right - sheet.left
    sheet.text(sheet.right, sheet.top + 2.4, note.made.isoformat(), _TEXT, align="right")
    head = Column(sheet, sheet.left, sheet.top - 0.8, width - 24, note.fit.scale)
    head.say("Bench note", _HEAD, bold=True, ink=ACCENT, most=1)
    head.width = width
    head.say(note.title, 15, bold=True, most=2)
    name = camera.name.strip()
    if name and name != note.title:
        head.say(name, 10, bold=True, most=2)
    head.say(wording.said_camera(camera), _TEXT, ink=DARK)
    head.gap(1.2)
    sheet.line((sheet.left, head.y), (sheet.right, head.y), width=0.5)
    return head.y


def _section(
    note: _Note,
    y: float,
    head: str,
    remark: str = "",
    *,
    rule: float = HAIRLINE,
    above: float = 1.6,
) -> tuple[Column, Column]:
    """A rule across and a heading under it at the side; the side column and the main one."""
    sheet, scale = note.sheet, note.fit.scale
    y += above * scale
    if rule:
        sheet.line((sheet.left, y), (sheet.right, y), width=rule)
    y += 0.9 * scale
    side = Column(sheet, sheet.left, y, _SIDE, min(scale, 1.0))
    side.say(head, _HEAD, bold=True)
    if remark:
        side.say(remark, 6.2, ink=DARK)
    x = sheet.left + _SIDE + _GUTTER
    return side, Column(sheet, x, y, sheet.right - x, scale)


def _measured(note: _Note, y: float) -> float:
    side, main = _section(note, y, "Measured", rule=0, above=0.4)
    main.say(note.account.title, _TEXT, bold=True, most=2)
    for words, value, limit in _measurements(note.correction):
        row, amount = main.beside(main.x, 74), main.beside(main.x + 77, 36)
        spread = main.beside(main.x + 116, main.width - 116)
        row.say(words, _FINE)
        amount.say(value, _FINE, bold=True)
        spread.say(limit, _FINE, ink=DARK)
        main.below(row, amount, spread)
    main.below(side)
    return main.y


def _measurements(correction: Correction) -> Iterator[tuple[str, str, str]]:
    """Each figure of the reading: what it is, how much, and how well it is known."""
    reading = correction.reading
    taken = {id(getattr(reading, field.name)) for field in fields(reading)}
    for step in correction.steps:
        for quantity in step.formula.inputs:
            estimate = step.inputs[quantity.name]
            if id(estimate) not in taken:
                continue
            value, known = _said(estimate, quantity.unit)
            words = quantity.meaning
            if quantity.name == "rotation":
                words, value = words.partition(" (")[0], _said_turn(correction, value)
            yield words, value, known


def _said(estimate: Estimate, core_unit: str) -> tuple[str, str]:
    """A figure as a repairer says it, and its limits, both to the same decimal."""
    scale, unit = _scale(core_unit, estimate.value)
    value = estimate.value * scale
    if not estimate.standard:
        return _digits(value, 6) + unit, "taken as given"
    said = format_uncertainty(value, estimate.expanded * scale, "")
    shown, limits = said.split(" ± ")
    return shown.rstrip() + unit, f"± {limits.rstrip()}{unit} at 95 %"


def _said_turn(correction: Correction, value: str) -> str:
    """A signed rotation by its sense; plus extends the lens."""
    focusing = correction.camera.focusing
    if not isinstance(focusing, Helicoid | FrontCell):
        return value
    sense = focusing.extends.opposite if value.startswith("−") else focusing.extends
    return f"{value.removeprefix('−')} {sense}"


def _scale(unit: str, value: float) -> tuple[float, str]:
    """What a core unit is multiplied by to be said, and how the result ends."""
    if unit == "rad":
        return math.degrees(1), "°"
    if unit == "mm" and abs(value) >= 1000:
        return (1.0, "") if math.isinf(value) else (0.001, " m")
    return 1.0, f" {unit}".rstrip()


def _digits(value: float, count: int) -> str:
    """So many significant digits, without trailing zeros."""
    return "∞" if math.isinf(value) else shortest(float(f"{value:.{count}g}"))


def _answer(note: _Note, y: float) -> float:
    side, main = _section(note, y, "Answer", rule=0.3)
    sentence = note.account.headline
    known = sentence.rfind(wording.said_uncertainty(note.correction.error))
    main.gap(-0.6)
    main.say(sentence[:known].rstrip(), 17, bold=True)
    main.say(sentence[known:], 10)
    main.gap(0.6)
    main.say(note.account.judged, _TEXT)
    for part in note.account.told():
        if isinstance(part, Block) and part.role is Role.BENCH:
            for line in part.lines:
                main.say(line, _FINE, ink=DARK)
    main.below(side)
    return main.y


def _figures(note: _Note, y: float) -> float:
    remark = "Left: not to scale, the amount is exaggerated. Right: to scale, at the film."
    side, main = _section(note, y, "Where it stands", remark)
    corner = (main.x - 2, main.y - 1)
    draw_standing(note.sheet, corner, note.correction)
    gauge = main.x + 97
    draw_gauge(note.sheet, (gauge, main.y - 1), note.sheet.right - gauge, note.correction)
    return max(main.y + FIGURE_HEIGHT - 0.6, side.y)


def _remedies(note: _Note, y: float) -> float:
    side, main = _section(note, y, "What to do", "Tick what was done.", rule=0.3)
    (to_do,) = (part for part in note.account.told() if isinstance(part, Cards))
    for line in to_do.first:
        main.say(line, 9.2, bold=True)
    for card, offer in zip(to_do.cards, note.correction.offers, strict=True):
        main.gap(1.2)
        note.sheet.line((main.x, main.y), (note.sheet.right, main.y), ink=MID)
        main.gap(0.5)
        if isinstance(offer, Refused):
            main.say(f"{card.title}: not called for. {card.words}", _FINE, ink=DARK)
        else:
            _remedy(note, main, card, offer)
    main.below(side)
    return main.y


def _remedy(note: _Note, main: Column, card: Card, remedy: Remedy) -> None:
    note.sheet.box((main.x, main.y + 0.9 * main.scale), 2.4, 2.4, line=0.2)
    top = main.y
    text = main.beside(main.x + _PICTURE, main.width - _PICTURE - _AMOUNTS - _GUTTER)
    text.say(card.title, 9, bold=True)
    text.say(card.words, _TEXT)
    text.say(card.judged, _TEXT, ink=DARK)
    for line in _cut(card.notes, note.fit.notes, "note"):
        text.say(line, _FINE, ink=DARK, most=note.fit.notes)
    amounts = main.beside(note.sheet.right - _AMOUNTS, _AMOUNTS)
    amounts.gap(0.5)
    for label, words in card.amounts:
        name = amounts.beside(amounts.x, 16)
        value = amounts.beside(amounts.x + 17, amounts.width - 17)
        name.say(label, _FINE, ink=DARK)
        value.say(words, _FINE, bold=True)
        amounts.below(name, value)
    main.below(text, amounts)
    main.y = max(main.y, draw_remedy(note.sheet, (main.x + 6.4, top + 4), remedy))


def _sights(note: _Note, y: float) -> float:
    side, main = _section(note, y, "What you would see", "At full aperture, before any change.")
    sights = next(part.rows for part in note.account.told() if isinstance(part, Table))
    most = note.fit.sights or len(sights)
    for sight in sights[:most]:
        ring, sharp = main.beside(main.x, 25), main.beside(main.x + 26, 60)
        blur = main.beside(main.x + 88, main.width - 88)
        at, where, how = sight.cells
        ring.say(f"Ring at {at}", _FINE, bold=True)
        sharp.say(where, _FINE)
        blur.say(how, _FINE)
        main.below(ring, sharp, blur)
        note.sheet.line((main.x, main.y + 0.3), (note.sheet.right, main.y + 0.3), ink=PALE)
        main.gap(0.4)
    _say_left_out(main, len(sights) - most, "ring mark")
    main.below(side)
    return main.y


def _working(note: _Note, y: float) -> float:
    lines, shown = note.account.lines(Role.WORKING), note.fit.working
    kept = lines if shown is None else lines[len(lines) - shown :]
    side, main = _section(note, y, "Working")
    if len(kept) < len(lines):
        main.say(
            f"{len(lines) - len(kept)} of {len(lines)} lines are left out here to keep to one "
            "page; the screen and the terminal show them.",
            6.4,
            ink=DARK,
        )
    for line in kept:
        main.say(line, 6.6, hang=4)
    main.below(side)
    return main.y


def _sources(note: _Note, y: float) -> float:
    error = note.correction.error
    side, main = _section(note, y, "How well known")
    rows = list(budget(error))
    most = len(rows) if note.fit.sources is None else note.fit.sources
    for name, standard, share in rows[:most]:
        cause, amount = main.beside(main.x, 74), main.beside(main.x + 78, 24)
        cause.say(name, _FINE)
        amount.say(_two_digits(standard), _FINE)
        part = main.beside(main.x + 102, 12)
        part.say(f"{100 * share:.0f} %", _FINE)
        bar = main.y + 1.1 * main.scale
        note.sheet.box((main.x + 114, bar), 34 * share, 1.5, fill=MID, ink=None)
        main.below(cause, amount, part)
    _say_left_out(main, len(rows) - most, "smaller cause")
    total = wording.said_uncertainty(error)
    if rows:
        total = f"Standard uncertainty {_two_digits(error.standard)} at the film; {total}."
    main.say(total[:1].upper() + total[1:], _FINE)
    main.below(side)
    return main.y


def _two_digits(mm: float) -> str:
    return f"{_digits(mm, 2)} mm"


def _care(note: _Note, y: float) -> float:
    side, main = _section(note, y, "Take care")
    for caution in note.account.cautions:
        head, text = main.beside(main.x, 25), main.beside(main.x + 26, main.width - 26)
        head.say(caution.heading, _FINE, bold=True)
        text.say(caution.text, _FINE)
        main.below(head, text)
    main.say(LOCAL_RULES, _FINE, bold=True)
    main.below(side)
    return main.y


def _as_left(note: _Note, y: float) -> float:
    """Blanks for the reading after the work, by hand, and lines as far as the page goes."""
    side, main = _section(note, y, "As left", rule=0.3)
    main.gap(4.6)
    x = main.x
    for words, room in (("Ring at", 14), ("sharp at", 22), ("error", 24), ("by", 18), ("on", 22)):
        note.sheet.text(x, main.y, words, _FINE, ink=DARK)
        x += 1.5 + text_width(words, _FINE)
        note.sheet.line((x, main.y + 0.5), (x + room, main.y + 0.5), ink=BLACK)
        x += room + 2.4
    main.gap(1.2)
    main.below(side)
    end = main.y
    while main.y + _WRITING < note.sheet.bottom:
        main.y += _WRITING
        note.sheet.line((main.x, main.y), (note.sheet.right, main.y), ink=PALE, width=0.2)
    return end


def _cut(lines: Sequence[str], most: int | None, what: str) -> list[str]:
    """The first lines of a list, and a sentence for those left out."""
    if most is None or len(lines) <= most:
        return list(lines)
    return [*lines[:most], _left_out(len(lines) - most, what)]


def _say_left_out(column: Column, count: int, what: str) -> None:
    if count > 0:
        column.say(_left_out(count, what), 6.4, ink=DARK)


def _left_out(count: int, what: str) -> str:
    return f"{count} more {what}{'s' if count > 1 else ''} left out here to keep to one page."
