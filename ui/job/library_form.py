"""The user's library: keep things under names of one's own, change them, take them out."""

from dataclasses import dataclass
from typing import Any

import streamlit as st
from pydantic import ValidationError

from optics.errors import ShimwrightError
from optics.records.files import problem_sentence
from optics.records.library import Item, ItemDocument
from optics.records.store import ItemLine, Store
from optics.records.work import INSTRUMENT_LIMIT
from optics.typed import fields
from optics.typed.day import DAY
from optics.typed.fields import Typed
from ui.asking.fields import choice, field, plain_field
from ui.job.record_draft import say
from ui.kept import drafts
from ui.kept.library import library_items
from ui.kept.open_job import my_store, open_job

_PREFIX = "library"
_CAMERA = "camera"
_UNDONE = "the item deleted last"


@dataclass(frozen=True)
class _Asked:
    """A field of an item: its name, its words, how it is read; None for plain text."""

    name: str
    words: str
    quantity: Typed | None = None


_KINDS: dict[str, tuple[_Asked, ...]] = {
    "lens": (
        _Asked("focal_length", "focal length", fields.FOCAL_LENGTH),
        _Asked("full_aperture", "full aperture", fields.FULL_APERTURE),
        _Asked("hiatus", "hiatus", fields.HIATUS),
        _Asked("pupil_magnification", "pupil magnification", fields.PUPIL_MAGNIFICATION),
    ),
    _CAMERA: (),
    "instrument": (
        _Asked("limit", "good to ±", INSTRUMENT_LIMIT),
        _Asked("source", "calibrated by"),
        _Asked("serial", "number"),
        _Asked("checked", "checked on", DAY),
    ),
    "shim stock": (_Asked("drawer", "leaves in the drawer", fields.DRAWER),),
    "target": (
        _Asked("distance", "distance", fields.TARGET),
        _Asked("limit", "good to ±", fields.DISTANCE_LIMIT),
    ),
    "letterhead": (_Asked("address", "address"),),
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
    part: dict[str, Any] = {}
    refused = False
    for left, right in _pairs(_KINDS[kind]):
        for column, asked in zip(st.columns(2), (left, right), strict=True):
            if asked is not None:
                with column:
                    text, is_refused = _draw(prefix, asked)
                refused |= is_refused
                part |= {asked.name: text} if text.strip() else {}
    if kind == _CAMERA:
        part = _part_of_open_job() or {}
        st.caption("What is kept is the camera of the open job.")
    if kind in _NAMED_TWICE:
        part["name"] = name
    words = "Keep the change" if name in named else "Keep in the library"
    st.button(
        words,
        key="keep_item",
        on_click=_keep,
        args=[kind, name, part, named.get(name)],
        disabled=not name or refused,
    )


def _pairs(asked: tuple[_Asked, ...]) -> list[tuple[_Asked, _Asked | None]]:
    return [(one, (*asked, None)[n + 1]) for n, one in enumerate(asked) if n % 2 == 0]


def _draw(prefix: str, asked: _Asked) -> tuple[str, bool]:
    key = f"{prefix}.{asked.name}"
    if asked.quantity is None:
        return plain_field(asked.words, key, hint=""), False
    entry = field(asked.quantity, key, label=asked.words)
    return entry.text, bool(entry.refusal)


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
    prefix, part = f"{_PREFIX}.{item.kind}", item.part.model_dump(mode="json", exclude_none=True)
    drafts.put(f"{prefix}.name", item.name)
    for asked in _KINDS[item.kind]:
        drafts.put(f"{prefix}.{asked.name}", part.get(asked.name, ""))


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
        for key in ("name", *(asked.name for asked in _KINDS[kind])):
            drafts.put(f"{_PREFIX}.{kind}.{key}", "")


def _delete(number: int) -> None:
    Store().delete_item(number)
    st.session_state[_UNDONE] = number


def _restore(number: int) -> None:
    try:
        Store().restore_item(number)
    except ShimwrightError as refusal:
        say(str(refusal))
    st.session_state.pop(_UNDONE, None)
