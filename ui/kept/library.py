"""The user's own library as the pages use it."""

from collections.abc import Iterator

import streamlit as st

from optics.errors import ShimwrightError
from optics.records.job import CameraPart
from optics.records.lantern_street import CAMERAS
from optics.records.library import CameraItem, Item
from optics.records.store import ItemLine, Store
from optics.records.store.jobs import folded

_READ = "library items"
_LIBRARY = " (library)"


def library_cameras() -> dict[str, CameraPart]:
    """The library's cameras by the name they have in the list of cameras."""
    items = (item for _, item in library_items("camera"))
    return {library_name(i.name): i.part for i in items if isinstance(i, CameraItem)}


def known_cameras(name: str, but: int) -> Iterator[tuple[str, CameraPart]]:
    """Where a kind of camera is described: the last job on one, the library, an example.

    `but` is the job that asks.
    """
    try:
        before = Store().described_before(name, but)
    except ShimwrightError:
        before = None
    if before is not None and before.job.camera is not None:
        yield f"Job {before.line.number}", before.job.camera
    for item, part in library_cameras().items():
        if folded(name) in (folded(part.name), folded(item.removesuffix(_LIBRARY))):
            yield f"the library: {item.removesuffix(_LIBRARY)}", part
    yield from ((f"the example {c.name}", c) for c in CAMERAS if folded(c.name) == folded(name))


def library_name(name: str) -> str:
    """What an item of the library is called among the examples."""
    return name + _LIBRARY


def library_items(kind: str) -> list[tuple[ItemLine, Item]]:
    """The items of one kind, by name; none where the records cannot be read."""
    try:
        lines = Store().items(kind)
        return [(line, _item(line)) for line in lines]
    except ShimwrightError:
        return []


def _item(line: ItemLine) -> Item:
    """An item, read from the store once for each time it was changed."""
    seen: dict[tuple[int, str], Item] = st.session_state.setdefault(_READ, {})
    key = (line.number, line.changed)
    if key not in seen:
        seen[key] = Store().item(line.number).item
    return seen[key]
