"""A backup is one SQLite file; a restored one is checked before it replaces anything."""

import shutil
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.files import read_kept_job
from optics.records.library import read_item
from optics.records.store import drafts
from optics.records.store.connection import Damaged, connected, opened, said_of
from optics.records.store.migrations import bring_up_to_date, schema_version

_COMPANIONS = ("-wal", "-shm", "-journal")


def back_up(path: Path, target: Path) -> None:
    """Copy the records, while others may go on writing, to one new file."""
    if target.exists():
        raise NotKept(f"The file {target} is there already: choose another name.")
    part = target.with_name(target.name + ".part")
    try:
        with connected(path) as source, said_of(target), closing(opened(part)) as copy:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        part.replace(target)
    except OSError as wrong:
        raise NotKept(f"The file {target} cannot be written: {wrong.strerror}.") from wrong
    finally:
        _remove(part)


def restore(path: Path, backup: Path, stamp: str) -> Path | None:
    """Put a backup in the place of the records; where the old ones now lie, if there were any.

    Errors: Unreadable for a backup that is damaged, foreign or newer; nothing is changed then.
    """
    with said_of(path):
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        copy = path.with_name(f"{path.name}.{stamp}.restoring")
        try:
            _copy_checked(backup, copy)
            return _put_in_place(path, copy, stamp)
        finally:
            _remove(copy)


def _copy_checked(backup: Path, copy: Path) -> None:
    try:
        shutil.copyfile(backup, copy)
    except OSError as wrong:
        raise Unreadable(f"The backup {backup} cannot be read: {wrong.strerror}.") from None
    try:
        with closing(opened(copy)) as connection:
            check(connection)
            connection.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.Error:
        raise Unreadable(
            f"The backup {backup} is damaged or is no backup: nothing was changed; choose "
            "another one."
        ) from None
    except ShimwrightError as refusal:
        raise Unreadable(f"The backup {backup} cannot be taken: {refusal}") from None


def check(connection: sqlite3.Connection) -> None:
    """Make sure that a database is ours, whole and readable, and of the present schema.

    Errors: Unreadable, or what the database itself says of damage.
    """
    version = schema_version(connection)
    if version == 0:
        raise Unreadable("it holds no records; choose another one.")
    if _schema(connection) != _schema_of(version):
        raise Unreadable("its tables are not those of the records; choose another one.")
    found = [row[0] for row in connection.execute("PRAGMA integrity_check(1)")]
    if found != ["ok"] or connection.execute("PRAGMA foreign_key_check").fetchone():
        raise Unreadable("it is damaged; choose another one.")
    bring_up_to_date(connection)
    for table in ("job", "item"):
        _check_current(connection, table)
    for key, _ in drafts.keys(connection):
        drafts.typed(connection, key)
    for (document,) in connection.execute("SELECT document FROM job_revision"):
        read_kept_job(str(document).encode())
    for (document,) in connection.execute("SELECT document FROM item_revision"):
        read_item(str(document).encode())


def _check_current(connection: sqlite3.Connection, table: str) -> None:
    lost = connection.execute(
        f"SELECT 1 FROM {table} AS t LEFT JOIN {table}_revision AS r "
        "ON r.owner = t.id AND r.number = t.current WHERE r.number IS NULL"
    )
    if lost.fetchone():
        raise Unreadable("it is damaged; choose another one.")


def _schema(connection: sqlite3.Connection) -> set[tuple[str, str, str]]:
    rows = connection.execute(
        "SELECT type, name, coalesce(sql, '') FROM sqlite_master WHERE name NOT GLOB 'sqlite_*'"
    )
    return {(kind, name, sql) for kind, name, sql in rows}


def _schema_of(version: int) -> set[tuple[str, str, str]]:
    with closing(opened(":memory:")) as fresh:
        bring_up_to_date(fresh, to=version)
        return _schema(fresh)


def _put_in_place(path: Path, copy: Path, stamp: str) -> Path | None:
    aside = path.with_name(f"{path.stem} before {stamp}{path.suffix}")
    existed = path.exists()
    try:
        if existed:
            back_up(path, aside)
    except Damaged:
        _move_aside(path, aside)
        copy.replace(path)
        return aside
    # Through the database, so that a page that reads at this moment sees the old or the new.
    with connected(path) as live, closing(opened(copy)) as checked:
        checked.backup(live)
    return aside if existed else None


def _move_aside(path: Path, aside: Path) -> None:
    for companion in ("", *_COMPANIONS):
        with suppress(FileNotFoundError):
            path.with_name(path.name + companion).replace(aside.with_name(aside.name + companion))


def _remove(file: Path) -> None:
    for companion in ("", *_COMPANIONS):
        file.with_name(file.name + companion).unlink(missing_ok=True)
