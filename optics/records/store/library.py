"""The user's library in the database: named items of six kinds, each with its revisions."""

import sqlite3
from dataclasses import dataclass

from optics.errors import NotKept
from optics.records.files import write_document
from optics.records.library import Item, ItemDocument, read_item
from optics.records.store.jobs import folded
from optics.records.store.versions import Shelf

SHELF = Shelf("item", "library item")


@dataclass(frozen=True)
class ItemLine:
    """One item as a list shows it; times in UTC."""

    number: int
    kind: str
    name: str
    changed: str
    deleted: str | None


@dataclass(frozen=True)
class KeptItem:
    """An item as it is kept, with its present revision."""

    line: ItemLine
    revision: int
    item: Item


_LINE = "id, kind, name, changed, deleted"


def text_of(item: Item) -> str:
    """The item as it is stored."""
    return write_document(ItemDocument(item=item))


def add(connection: sqlite3.Connection, item: Item, now: str) -> int:
    """Keep a new item; its number."""
    _check_name(connection, item, None)
    done = connection.execute(
        "INSERT INTO item (current, created, changed, kind, name, folded) "
        "VALUES (1, ?, ?, ?, ?, ?)",
        (now, now, item.kind, item.name, folded(item.name)),
    )
    number = int(done.lastrowid or 0)
    SHELF.add(connection, number, text_of(item), now, None)
    return number


def save(
    connection: sqlite3.Connection, number: int, item: Item, now: str, based_on: int | None
) -> int:
    """Keep a new revision, unless nothing has changed; the revision's number."""
    current = SHELF.check_unchanged(connection, number, based_on)
    text = text_of(item)
    if text == SHELF.document(connection, number, current):
        return current
    revision = SHELF.add(connection, number, text, now, current)
    _make_current(connection, number, revision, item, now)
    return revision


def _make_current(
    connection: sqlite3.Connection, number: int, revision: int, item: Item, now: str
) -> None:
    _check_name(connection, item, number)
    connection.execute(
        "UPDATE item SET current = ?, changed = ?, kind = ?, name = ?, folded = ? WHERE id = ?",
        (revision, now, item.kind, item.name, folded(item.name), number),
    )


def restore(connection: sqlite3.Connection, number: int) -> None:
    """Take a deletion back; NotKept where its name has been given to another meanwhile."""
    _check_name(connection, kept(connection, number).item, number)
    SHELF.mark_deleted(connection, number, None)


def check_has_name(item: Item) -> None:
    """NotKept for an item whose name is blank."""
    if not folded(item.name):
        raise NotKept(f"The {item.kind} needs a name: write one it can be found by.")


def _check_name(connection: sqlite3.Connection, item: Item, number: int | None) -> None:
    check_has_name(item)
    other = connection.execute(
        "SELECT id FROM item WHERE kind = ? AND folded = ? AND deleted IS NULL AND id IS NOT ?",
        (item.kind, folded(item.name), number),
    ).fetchone()
    if other:
        raise NotKept(
            f"There is a {item.kind} named “{item.name}” already: choose another name, or "
            "change that one.",
            quantity="name",
            value=item.name,
        )


def kept(connection: sqlite3.Connection, number: int) -> KeptItem:
    """An item with its present revision."""
    revision = SHELF.current(connection, number)
    row = connection.execute(f"SELECT {_LINE} FROM item WHERE id = ?", (number,)).fetchone()
    item = read_item(SHELF.document(connection, number, revision).encode())
    return KeptItem(ItemLine(*row), revision, item)


def lines(
    connection: sqlite3.Connection, kind: str | None = None, deleted: bool = False
) -> list[ItemLine]:
    """The items of one kind, or of all, by name."""
    rows = connection.execute(
        f"SELECT {_LINE} FROM item WHERE deleted IS {'NOT ' if deleted else ''}NULL "
        "AND (:kind IS NULL OR kind = :kind) ORDER BY kind, folded",
        {"kind": kind},
    )
    return [ItemLine(*row) for row in rows]
