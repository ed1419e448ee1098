"""The fields of the record, drawn part by part."""

from collections.abc import Sequence
from html import escape

import streamlit as st

from optics.records.job import TakenPart
from optics.records.library import Item
from ui.answers.answer_panel import group_html
from ui.asking.fields import choice, field, plain_field
from ui.job.record_draft import RecordDraft
from ui.job.record_fields import INSTRUMENTS, PARTS, TAKEN, Ask, Several, Single
from ui.kept.library import library_items


def part_form(record: RecordDraft, part: str) -> list[str]:
    """Draw the fields of one part; the refusals that stand in the way of saving."""
    refusals: list[str] = []
    for one in PARTS[part]:
        st.html(group_html(one.title))
        if isinstance(one, Single):
            refusals += _rows(record, one.path, one.rows)
        else:
            refusals += _several(record, one)
            if one.path == INSTRUMENTS:
                _offer_instruments(record)
    return refusals


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


def _several(record: RecordDraft, several: Several) -> list[str]:
    """As many rows as are in use and one more."""
    refusals: list[str] = []
    # A block of its own: a row that comes must not move the fields below under the fingers.
    with st.container():
        for number in range(record.rows(several.path) + 1):
            with st.container(key=f"row_{several.path}.{number}"):
                path = f"{several.path}.{number}"
                refusals += _rows(record, path, several.rows, f"{number + 1} ")
    return refusals


def taken_form(record: RecordDraft, where: str, taken: Sequence[TakenPart]) -> list[str]:
    """Draw what may be changed of the readings as found or as left: day, instrument, note."""
    refusals: list[str] = []
    for number, one in enumerate(taken):
        said = escape(one.reading.said_in_full)
        words, end = st.columns([10, 3], vertical_alignment="center")
        words.html(f"<p class='taken'><b>{number + 1} {said}</b></p>")
        with end:
            _offer_removal(record, where, number)
        refusals += _rows(record, f"{where}.{number}", TAKEN, f"as {where} {number + 1}, ")
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


def _rows(
    record: RecordDraft, path: str, rows: Sequence[Sequence[Ask]], said: str = ""
) -> list[str]:
    refusals = []
    for row in rows:
        for column, ask in zip(st.columns([a.width for a in row]), row, strict=True):
            with column:
                refusals.append(_draw(record, f"{path}.{ask.name}".lstrip("."), ask, said))
    return [refusal for refusal in refusals if refusal]


def _draw(record: RecordDraft, path: str, ask: Ask, said: str) -> str:
    """Draw one field; its refusal, if there is one. `said` tells it from its like in other rows."""
    key, typed, label = record.key(path), record.texts.get(path, ""), f"{said}{ask.words}"
    if ask.options:
        first = ask.options.index(typed) if typed in ask.options else 0
        choice(label, ask.options, key, first)
    elif ask.quantity is not None:
        return field(ask.quantity, key, typed=typed, hint=ask.hint or "", label=label).refusal
    else:
        plain_field(label, key, typed=typed, hint=ask.hint)
    return ""
