"""The schema, grown in small steps; each step is one transaction together with its record."""

import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime

from optics.errors import Unreadable

# Marks a database as ours in its header: the letters SHIM.
APPLICATION = 0x5348494D


@dataclass(frozen=True)
class Migration:
    """One step of the schema, never changed once it has been released."""

    name: str
    statements: tuple[str, ...]


def _joined(name: str) -> str:
    """SQL for a number of the camera's without what only groups its digits."""
    text = f"coalesce(json_extract(document, '$.intake.identity.{name}'), '')"
    for mark in (" ", "-", ".", "/"):
        text = f"replace({text}, '{mark}', '')"
    return f"lower({text})"


MIGRATIONS = (
    Migration(
        "jobs, their revisions and their figures",
        (
            """CREATE TABLE job (
                id INTEGER PRIMARY KEY AUTOINCREMENT,
                current INTEGER NOT NULL,
                created TEXT NOT NULL,
                changed TEXT NOT NULL,
                archived TEXT,
                deleted TEXT,
                title TEXT NOT NULL,
                customer TEXT NOT NULL,
                camera TEXT NOT NULL,
                camera_kind TEXT NOT NULL,
                serial TEXT NOT NULL,
                state TEXT NOT NULL,
                received TEXT NOT NULL,
                finished TEXT NOT NULL,
                digest TEXT NOT NULL,
                words TEXT NOT NULL)""",
            """CREATE TABLE job_revision (
                owner INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
                number INTEGER NOT NULL,
                parent INTEGER,
                saved TEXT NOT NULL,
                document TEXT NOT NULL,
                PRIMARY KEY (owner, number))""",
            """CREATE TABLE job_figure (
                job INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
                name TEXT NOT NULL,
                value REAL NOT NULL,
                PRIMARY KEY (job, name)) WITHOUT ROWID""",
            "CREATE INDEX job_changed ON job (changed)",
            "CREATE INDEX job_camera_kind ON job (camera_kind)",
            "CREATE INDEX job_digest ON job (digest)",
        ),
    ),
    Migration(
        "drafts",
        ("CREATE TABLE draft (key TEXT PRIMARY KEY, saved TEXT NOT NULL, typed TEXT NOT NULL)",),
    ),
    Migration(
        "the user's library",
        (
            """CREATE TABLE item (
                id INTEGER PRIMARY KEY AUTOINCREMENT,
                current INTEGER NOT NULL,
                created TEXT NOT NULL,
                changed TEXT NOT NULL,
                deleted TEXT,
                kind TEXT NOT NULL,
                name TEXT NOT NULL,
                folded TEXT NOT NULL)""",
            """CREATE TABLE item_revision (
                owner INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE,
                number INTEGER NOT NULL,
                parent INTEGER,
                saved TEXT NOT NULL,
                document TEXT NOT NULL,
                PRIMARY KEY (owner, number))""",
            "CREATE UNIQUE INDEX item_name ON item (kind, folded) WHERE deleted IS NULL",
        ),
    ),
    Migration(
        "who saved each revision",
        (
            "ALTER TABLE job_revision ADD COLUMN author TEXT NOT NULL DEFAULT ''",
            "ALTER TABLE item_revision ADD COLUMN author TEXT NOT NULL DEFAULT ''",
        ),
    ),
    Migration(
        "serial numbers found without their blanks",
        (
            f"""UPDATE job SET words = words || coalesce((
                SELECT ' ' || {_joined("serial")} || ' ' || {_joined("lens_serial")}
                FROM job_revision
                WHERE owner = job.id AND number = job.current AND json_valid(document)), '')""",
        ),
    ),
)
LATEST = len(MIGRATIONS)
_RECORD = "CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, done TEXT)"


def bring_up_to_date(connection: sqlite3.Connection, to: int = LATEST) -> None:
    """Take every step that a database still lacks, up to step `to`.

    Errors: Unreadable for a database that is not ours, or one that a newer program wrote.
    """
    if schema_version(connection) == to:
        return
    if schema_version(connection) == 0:
        # Kept in the file's header, so once is enough; it cannot be set inside a transaction.
        connection.execute("PRAGMA journal_mode = WAL")
    while schema_version(connection) < to:
        _take_next_step(connection, to)


def schema_version(connection: sqlite3.Connection) -> int:
    """How many steps a database has taken; Unreadable where it is not one of ours."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    is_empty = not connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if application != APPLICATION and not is_empty:
        raise Unreadable("The records file is another program's database; choose another file.")
    if version > LATEST:
        raise Unreadable(
            f"The records have schema {version}, and this program knows schemas up to {LATEST}: "
            "use the program that wrote them, or a newer one.",
            quantity="schema",
            value=version,
            limit=LATEST,
        )
    return int(version)


def _take_next_step(connection: sqlite3.Connection, to: int) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        # Another process may have taken the step while this one waited for its turn.
        taken = schema_version(connection)
        if taken < to:
            _take(connection, taken + 1, MIGRATIONS[taken])
        connection.commit()
    except BaseException:
        connection.rollback()
        raise


def _take(connection: sqlite3.Connection, number: int, migration: Migration) -> None:
    if number == 1:
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(_RECORD)
    for statement in migration.statements:
        connection.execute(statement)
    done = datetime.now(UTC).isoformat(timespec="seconds")
    connection.execute("INSERT INTO migration VALUES (?, ?, ?)", (number, migration.name, done))
    connection.execute(f"PRAGMA user_version = {number}")
