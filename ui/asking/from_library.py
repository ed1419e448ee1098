"""Fill fields in from the user's library: a lens, a drawer of shims, a target."""

import streamlit as st

from optics.records.library import Item, TargetItem
from ui.asking.fields import choice
from ui.asking.part_form import texts_of
from ui.kept import drafts
from ui.kept.library import library_items

# Where an item's fields stand below the camera's name: its part's place in a job, or each field's.
_PARTS = {"lens": "lens", "shim stock": "workshop", "target": ""}
_TARGET = {"distance": ("mark.sharp_at", "rotation.target"), "limit": ("mark.limit",)}


def take_item_row(name: str) -> None:
    """Offer what the library has for a camera's fields; nothing where it has none."""
    items = {f"{kind}: {line.name}": item for kind in _PARTS for line, item in library_items(kind)}
    if not items:
        return
    left, right = st.columns([3, 1], vertical_alignment="bottom")
    with left:
        chosen = choice("from the library", list(items), f"{name}.from_library")
    right.button("Take", key="take_item", on_click=_take, args=[name, items[chosen]])


def _take(name: str, item: Item) -> None:
    for key, text in texts_of(item.part, _PARTS[item.kind]).items():
        for place in _TARGET.get(key, () if isinstance(item, TargetItem) else (key,)):
            drafts.put(f"{name}.{place}", text)
