"""Records that keep every revision: saving adds one, undo and redo walk between them.

A revision knows its parent, so saving after an undo begins a new branch and the old one stays.
Each kind of record has two tables, `job` and `job_revision` for instance.
"""

import sqlite3
from dataclasses import dataclass

from optics.errors import NotKept, Unreadable


@dataclass(frozen=True)
class Revision:
    """One saved state: its number, when (UTC) and by whom, whether it is the present one."""

    number: int
    saved: str
    is_current: bool
    author: str = ""


@dataclass(frozen=True)
class Shelf:
    """One kind of record: the table it is in, and what it is called in a sentence."""

    table: str
    words: str

    def current(self, connection: sqlite3.Connection, owner: int) -> int:
        """The number of the present revision."""
        row = connection.execute(
            f"SELECT current FROM {self.table} WHERE id = ?", (owner,)
        ).fetchone()
        if row is None:
            raise Unreadable(
                f"There is no {self.words} {owner}: list what there is, and check the number.",
                quantity=self.words,
                value=owner,
            )
        return int(row[0])

    def document(self, connection: sqlite3.Connection, owner: int, number: int) -> str:
        """The text of one revision."""
        row = connection.execute(
            f"SELECT document FROM {self.table}_revision WHERE owner = ? AND number = ?",
            (owner, number),
        ).fetchone()
        if row is None:
            raise Unreadable(
                f"The {self.words} {owner} has no revision {number}: list its revisions first.",
                quantity="revision",
                value=number,
            )
        return str(row[0])

    def add(
        self,
        connection: sqlite3.Connection,
        owner: int,
        document: str,
        now: str,
        parent: int | None,
    ) -> int:
        """Keep a new revision that follows `parent`; its number."""
        (number,) = connection.execute(
            f"SELECT coalesce(max(number), 0) + 1 FROM {self.table}_revision WHERE owner = ?",
            (owner,),
        ).fetchone()
        connection.execute(
            f"INSERT INTO {self.table}_revision (owner, number, parent, saved, document) "
            "VALUES (?, ?, ?, ?, ?)",
            (owner, number, parent, now, document),
        )
        return int(number)

    def sign(self, connection: sqlite3.Connection, owner: int, saved: str, author: str) -> None:
        """Say who saved the revision of a moment; where none was saved then, nothing is said."""
        connection.execute(
            f"UPDATE {self.table}_revision SET author = ? WHERE owner = ? AND saved = ?",
            (author, owner, saved),
        )

    def before(self, connection: sqlite3.Connection, owner: int, number: int) -> int | None:
        """The revision that undo leads to; None at the first."""
        (parent,) = connection.execute(
            f"SELECT parent FROM {self.table}_revision WHERE owner = ? AND number = ?",
            (owner, number),
        ).fetchone()
        return None if parent is None else int(parent)

    def after(self, connection: sqlite3.Connection, owner: int, number: int) -> int | None:
        """The revision that redo leads to, the newest of several; None at the last."""
        (child,) = connection.execute(
            f"SELECT max(number) FROM {self.table}_revision WHERE owner = ? AND parent = ?",
            (owner, number),
        ).fetchone()
        return None if child is None else int(child)

    def revisions(self, connection: sqlite3.Connection, owner: int) -> list[Revision]:
        """Every revision, the newest first."""
        current = self.current(connection, owner)
        rows = connection.execute(
            f"SELECT number, saved, author FROM {self.table}_revision WHERE owner = ? "
            "ORDER BY number DESC",
            (owner,),
        )
        return [Revision(number, saved, number == current, by) for number, saved, by in rows]

    def check_unchanged(
        self, connection: sqlite3.Connection, owner: int, based_on: int | None
    ) -> int:
        """The present revision, if it is the one that a change began from (None: any)."""
        current = self.current(connection, owner)
        if based_on not in (None, current):
            author = next(r.author for r in self.revisions(connection, owner) if r.is_current)
            by = f" by {author}" if author else ""
            raise NotKept(
                f"The {self.words} {owner} was saved elsewhere{by} since it was opened (revision "
                f"{current}, opened at {based_on}): look at that one, then save again.",
                quantity="revision",
                value=based_on,
                limit=current,
            )
        return current

    def mark_deleted(self, connection: sqlite3.Connection, owner: int, when: str | None) -> None:
        """Delete so that it can be restored, or with None restore."""
        self.current(connection, owner)
        connection.execute(f"UPDATE {self.table} SET deleted = ? WHERE id = ?", (when, owner))

    def purge(self, connection: sqlite3.Connection, owner: int) -> None:
        """Take a deleted record away for good, with all its revisions."""
        self.current(connection, owner)
        gone = connection.execute(
            f"DELETE FROM {self.table} WHERE id = ? AND deleted IS NOT NULL", (owner,)
        )
        if not gone.rowcount:
            raise NotKept(
                f"The {self.words} {owner} must be deleted before it can be taken away for good."
            )
