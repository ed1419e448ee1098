"""The user's own library."""

import pytest

from optics.errors import NotKept
from optics.records.job import LensPart, WorkshopPart
from optics.records.lantern_street import OSTRIN, TARNBROOK
from optics.records.library import (
    CameraItem,
    InstrumentItem,
    Item,
    LensItem,
    LetterheadItem,
    LetterheadPart,
    StockItem,
    TargetItem,
    TargetPart,
)
from optics.records.store import Store
from optics.records.work import InstrumentPart

ITEMS: tuple[Item, ...] = (
    CameraItem(name="Ostrin 35, grey", part=OSTRIN),
    LensItem(name="The 47", part=LensPart(focal_length=" 47,0 mm", full_aperture="f/2.8")),
    InstrumentItem(name="Tape", part=InstrumentPart(name="Bench tape", limit="5 mm")),
    StockItem(name="Top drawer", part=WorkshopPart(drawer="0.05 mm x 4; 2 thou")),
    TargetItem(name="Chimney", part=TargetPart(distance="412 m", limit="1 m")),
    LetterheadItem(name="Ours", part=LetterheadPart(name="Lantern Street", address="1\n2")),
)


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.kind)
def test_every_kind_of_item_comes_back_as_it_was(item: Item, store: Store) -> None:
    """An item of each kind is kept as it was typed and listed under its kind."""
    number = store.add_item(item)
    assert store.item(number).item == item
    assert [(line.kind, line.name) for line in store.items(item.kind)] == [(item.kind, item.name)]
    assert store.items("camera" if item.kind != "camera" else "lens") == []


def test_an_item_keeps_its_revisions(store: Store) -> None:
    """An item that is changed and renamed counts its revisions, and refuses a stale save."""
    number = store.add_item(CameraItem(name="A", part=OSTRIN))
    assert store.save_item(number, CameraItem(name="B", part=TARNBROOK), based_on=1) == 2
    assert store.save_item(number, CameraItem(name="B", part=TARNBROOK)) == 2
    assert [line.name for line in store.items()] == ["B"]
    with pytest.raises(NotKept, match=r"^The library item 1 was saved elsewhere"):
        store.save_item(number, CameraItem(name="C", part=OSTRIN), based_on=1)


def test_a_name_stands_for_one_item_of_its_kind(store: Store) -> None:
    """A second item of the same kind and name is refused; another kind may bear the name."""
    store.add_item(CameraItem(name="Ostrin", part=OSTRIN))
    with pytest.raises(NotKept, match="There is a camera named “ostrín” already: choose another"):
        store.add_item(CameraItem(name="ostrín", part=OSTRIN))
    with pytest.raises(NotKept, match="The camera needs a name"):
        store.add_item(CameraItem(name=" ", part=OSTRIN))
    store.add_item(LensItem(name="Ostrin", part=OSTRIN.lens))
    assert len(store.items()) == 2


def test_a_deleted_item_gives_its_name_free(store: Store) -> None:
    """A deleted item can be restored until its name is taken."""
    first = store.add_item(CameraItem(name="Ostrin", part=OSTRIN))
    store.delete_item(first)
    assert store.items() == []
    store.restore_item(first)
    store.delete_item(first)
    store.add_item(CameraItem(name="Ostrin", part=TARNBROOK))
    with pytest.raises(NotKept, match="There is a camera named “Ostrin” already"):
        store.restore_item(first)
    assert [line.number for line in store.items(deleted=True)] == [first]
