"""The fields of the record, drawn part by part."""

from collections.abc import Collection, Sequence
from html import escape

import streamlit as st

from optics.records.job import JobDocument, TakenPart
from optics.records.library import Item
from optics.typed.part import Part
from ui.answers.answer_panel import group_html
from ui.asking.fields import choice
from ui.asking.part_form import PartForm
from ui.job.record_draft import RecordDraft
from ui.job.record_fields import INSTRUMENTS, LISTS, PARTS
from ui.kept.library import library_items

# What of a job is its record; the rest is worked out on the calculators' pages.
_RECORD = ("title", "intake", "work")


def part_form(record: RecordDraft, part: str) -> list[str]:
    """Draw the fields of one part; the refusals that stand in the way of saving."""
    known = record.kept.job.model_dump(mode="json", exclude_none=True)
    form = PartForm(JobDocument, record.root, known, needs_all=False, is_whole=True, only=_RECORD)
    refusals: list[str] = []
    for title, paths in PARTS[part].items():
        st.html(group_html(title))
        if paths[0] not in LISTS:
            form.draw(*paths)
            continue
        refusals += _several(record, paths[0])
        if paths[0] == INSTRUMENTS:
            _offer_instruments(record)
    return [*refusals, *form.problems]


def _offer_instruments(record: RecordDraft) -> None:
    """Write an instrument of the library into the first empty row."""
    known = {line.name: item for line, item in library_items("instrument")}
    if not known:
        return
    left, right = st.columns([3, 1], vertical_alignment="bottom")
    with left:
        name = choice("from the library", list(known), "record.instrument")
    right.button("Add", key="add_instrument", on_click=_add_instrument, args=[record, known[name]])


def _add_instrument(record: RecordDraft, item: Item) -> None:
    texts = item.part.model_dump(mode="json", exclude_none=True)
    record.append(INSTRUMENTS, texts | {"name": item.name})


def _several(record: RecordDraft, path: str) -> list[str]:
    """As many rows as are in use and one more."""
    refusals: list[str] = []
    # A block of its own: a row that comes must not move the fields below under the fingers.
    with st.container():
        for number in range(record.rows(path) + 1):
            with st.container(key=f"row_{path}.{number}"):
                kind, row = LISTS[path].parts[0], f"{path}.{number}"
                refusals += _row(record, kind, row, f"{number + 1} ")
    return refusals


def _row(
    record: RecordDraft, kind: type[Part], path: str, said: str, only: Collection[str] = ()
) -> list[str]:
    known = {name: record.texts.get(f"{path}.{name}") for name in kind.model_fields}
    form = PartForm(kind, record.key(path), known, said=said, needs_all=False, only=only)
    form.draw()
    return form.problems


def taken_form(record: RecordDraft, where: str, taken: Sequence[TakenPart]) -> list[str]:
    """Draw what may be changed of the readings as found or as left: day, instrument, note."""
    refusals: list[str] = []
    for number, one in enumerate(taken):
        said = escape(one.reading.said_in_full)
        left, end = st.columns([10, 3], vertical_alignment="center")
        left.html(f"<p class='taken'><b>{number + 1} {said}</b></p>")
        with end:
            _offer_removal(record, where, number)
        path, words = f"{where}.{number}", f"as {where} {number + 1}, "
        refusals += _row(record, TakenPart, path, words, ("day", "instrument", "note"))
    return refusals


def _offer_removal(record: RecordDraft, where: str, number: int) -> None:
    """Take one reading off the record; what is typed on others must be saved before, or it shifts.

    The record's own undo brings it back.
    """
    taken = getattr(record.kept.job, where)
    without = record.kept.job.model_copy(update={where: taken[:number] + taken[number + 1 :]})
    is_typed_on = any(path.startswith(f"{where}.") for path in record.mine)
    st.button(
        f"✕ {where} {number + 1}",
        key=f"drop_{where}_{number}",
        on_click=record.change,
        args=[without],
        disabled=is_typed_on,
        width="stretch",
        help="Save the record first" if is_typed_on else f"Take this reading as {where} away",
    )
