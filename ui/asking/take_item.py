"""Fill fields in from the user's library: a lens, a drawer of shims, a target."""

import streamlit as st

from optics.records.library import Item
from ui.asking.fields import choice
from ui.kept import drafts
from ui.kept.library import library_items

# What each kind of item fills in, by the keys of the fields below the camera's name.
_PLACES: dict[str, dict[str, tuple[str, ...]]] = {
    "lens": {
        name: (f"lens.{name}",)
        for name in ("focal_length", "full_aperture", "hiatus", "pupil_magnification")
    },
    "shim stock": {"drawer": ("workshop.drawer",), "fitted": ("workshop.fitted",)},
    "target": {
        "distance": ("mark.sharp_at", "rotation.target"),
        "limit": ("mark.limit",),
    },
}


def take_item_row(name: str) -> None:
    """Offer what the library has for a camera's fields; nothing where it has none."""
    items = {f"{kind}: {line.name}": item for kind in _PLACES for line, item in library_items(kind)}
    if not items:
        return
    left, right = st.columns([3, 1], vertical_alignment="bottom")
    with left:
        chosen = choice("from the library", list(items), f"{name}.from_library")
    right.button("Take", key="take_item", on_click=_take, args=[name, items[chosen]])


def _take(name: str, item: Item) -> None:
    part = item.part.model_dump(mode="json", exclude_none=True)
    for field, keys in _PLACES[item.kind].items():
        for key in keys if field in part else ():
            drafts.put(f"{name}.{key}", part[field])
