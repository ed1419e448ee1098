"""The user's library: keep things under names of one's own, change them, take them out."""

from typing import Any

import streamlit as st
from pydantic import ValidationError

from optics.errors import ShimwrightError
from optics.records.files import problem_sentence
from optics.records.job import CameraPart, LensPart, WorkshopPart
from optics.records.library import Item, ItemDocument, LetterheadPart, TargetPart
from optics.records.store import ItemLine, Store
from optics.records.work import InstrumentPart
from optics.typed.part import Part
from ui.asking.fields import choice, plain_field
from ui.asking.part_form import PartForm, texts_of
from ui.job.record_draft import say
from ui.kept import drafts
from ui.kept.library import library_items
from ui.kept.open_job import my_store, open_job

_PREFIX = "library"
_CAMERA = "camera"
_UNDONE = "the item deleted last"


# The part of each kind, and which of its fields are asked for where not all are.
_KINDS: dict[str, tuple[type[Part], tuple[str, ...]]] = {
    "lens": (LensPart, ()),
    _CAMERA: (CameraPart, ()),
    "instrument": (InstrumentPart, ("limit", "source", "serial", "checked")),
    "shim stock": (WorkshopPart, ("drawer",)),
    "target": (TargetPart, ()),
    "letterhead": (LetterheadPart, ()),
}
_NAMED_TWICE = ("instrument", "letterhead")


def library_form() -> None:
    """Draw what is kept of one kind, and the fields of one more."""
    kind = choice("kind of thing", list(_KINDS), f"{_PREFIX}.kind")
    items = library_items(kind)
    for line, item in items:
        _item_row(line, item)
    deleted = st.session_state.get(_UNDONE)
    if deleted is not None:
        st.button("Undo: bring the last one back", on_click=_restore, args=[deleted])
    if kind == _CAMERA and (open_job() is None or _part_of_open_job() is None):
        st.caption("Open a job whose camera is described; it can then be kept here under a name.")
        return
    _new_item(kind, {item.name: line for line, item in items})


def _new_item(kind: str, named: dict[str, ItemLine]) -> None:
    prefix = f"{_PREFIX}.{kind}"
    name = plain_field("name", f"{prefix}.name", hint=None, longest=200).strip()
    form = _form(kind)
    if kind == _CAMERA:
        part = _part_of_open_job() or {}
        st.caption("What is kept is the camera of the open job.")
    else:
        form.draw(width=6)
        part = form.part
    if kind in _NAMED_TWICE:
        part["name"] = name
    words = "Keep the change" if name in named else "Keep in the library"
    st.button(
        words,
        key="keep_item",
        on_click=_keep,
        args=[kind, name, part, named.get(name)],
        disabled=not name or bool(form.problems),
    )


def _form(kind: str) -> PartForm:
    part, only = _KINDS[kind]
    return PartForm(part, f"{_PREFIX}.{kind}", only=only, needs_all=False)


def _part_of_open_job() -> dict[str, Any] | None:
    kept = open_job()
    if kept is None or kept.job.camera is None:
        return None
    return kept.job.camera.model_dump(mode="json", exclude_none=True)


def _item_row(line: ItemLine, item: Item) -> None:
    row = st.container(horizontal=True, key=f"item_{line.number}", vertical_alignment="center")
    if line.kind != _CAMERA:
        row.button(f"Change {line.name}", key=f"change_{line.number}", on_click=_load, args=[item])
    row.button(
        f"Delete {line.name}", key=f"away_{line.number}", on_click=_delete, args=[line.number]
    )


def _load(item: Item) -> None:
    """Put an item into the fields."""
    prefix = f"{_PREFIX}.{item.kind}"
    texts = texts_of(item.part, prefix)
    drafts.put(f"{prefix}.name", item.name)
    for place in _form(item.kind).places:
        drafts.put(place.key, texts.get(place.key, ""))


def _keep(kind: str, name: str, part: dict[str, Any], line: ItemLine | None) -> None:
    try:
        item = ItemDocument.model_validate(
            {"item": {"kind": kind, "name": name, "part": part}}
        ).item
        if line is None:
            my_store().add_item(item)
        else:
            my_store().save_item(line.number, item, based_on=None)
    except ValidationError as wrong:
        say(problem_sentence(wrong, "library item"))
    except ShimwrightError as refusal:
        say(str(refusal))
    else:
        say(f"“{name}” is in the library.")
        drafts.put(f"{_PREFIX}.{kind}.name", "")
        for place in _form(kind).places if kind != _CAMERA else ():
            drafts.put(place.key, "")


def _delete(number: int) -> None:
    Store().delete_item(number)
    st.session_state[_UNDONE] = number


def _restore(number: int) -> None:
    try:
        Store().restore_item(number)
    except ShimwrightError as refusal:
        say(str(refusal))
    st.session_state.pop(_UNDONE, None)
