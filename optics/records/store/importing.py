"""Taking a bundle in: what is here already is not taken twice, and nothing is overwritten."""

import sqlite3
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import count

from optics.records.job import JobDocument
from optics.records.library import Item, read_item
from optics.records.store import jobs, library
from optics.records.store.bundle import Member
from optics.records.store.jobs import folded


@dataclass(frozen=True)
class Imported:
    """How many jobs and items were taken in, and how many were here already."""

    jobs: int = 0
    items: int = 0
    already: int = 0

    def plus(self, other: "Imported") -> "Imported":
        """Both together."""
        return Imported(
            self.jobs + other.jobs, self.items + other.items, self.already + other.already
        )


def take_in(
    connection: sqlite3.Connection, members: Iterable[Member], here: Counter[str], now: str
) -> Imported:
    """Keep what is not here yet.

    `here` counts, from call to call, the same documents that the bundle may still find here:
    a bundle with two jobs alike brings two, and importing it again brings none.
    """
    done = Imported()
    for member in members:
        if isinstance(member.content, JobDocument):
            done = done.plus(_take_job(connection, member.content, member.is_archived, here, now))
        else:
            done = done.plus(_take_item(connection, member.content, now))
    return done


def _take_job(
    connection: sqlite3.Connection,
    job: JobDocument,
    is_archived: bool,
    here: Counter[str],
    now: str,
) -> Imported:
    mark = jobs.digest(jobs.checked_text(job))
    if mark not in here:
        (here[mark],) = connection.execute(
            "SELECT count(*) FROM job WHERE digest = ? AND deleted IS NULL", (mark,)
        ).fetchone()
    if here[mark] > 0:
        here[mark] -= 1
        return Imported(already=1)
    jobs.add(connection, job, now, now if is_archived else None)
    return Imported(jobs=1)


def _take_item(connection: sqlite3.Connection, item: Item, now: str) -> Imported:
    for name in _names(item.name):
        other = _named(connection, item, name)
        if other is None:
            library.add(connection, item.model_copy(update={"name": name}), now)
            return Imported(items=1)
        if other.part == item.part:
            break
    return Imported(already=1)


def _names(name: str) -> Iterable[str]:
    """The name, then the same with a number for where it is taken."""
    yield name
    for number in count(2):
        yield f"{name[:190]} ({number})"


def _named(connection: sqlite3.Connection, item: Item, name: str) -> Item | None:
    """The item that has a name now; None where the name is free."""
    row = connection.execute(
        "SELECT r.document FROM item AS i JOIN item_revision AS r "
        "ON r.owner = i.id AND r.number = i.current "
        "WHERE i.kind = ? AND i.folded = ? AND i.deleted IS NULL",
        (item.kind, folded(name)),
    ).fetchone()
    return None if row is None else read_item(str(row[0]).encode())
