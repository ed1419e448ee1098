"""One connection for each operation: opened, used in one transaction, and closed."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.store.migrations import bring_up_to_date

BUSY_SECONDS = 30.0
# Schema objects of a foreign file get no trust; what is deleted is overwritten with zeros.
_SETTINGS = (
    "PRAGMA foreign_keys = ON",
    "PRAGMA synchronous = FULL",
    "PRAGMA secure_delete = ON",
    "PRAGMA trusted_schema = OFF",
    "PRAGMA cell_size_check = ON",
)


class Damaged(Unreadable):
    """Records whose file has been harmed."""


@contextmanager
def reading(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection that sees the records as they are at one moment."""
    with connected(path) as connection, _transaction(connection, "BEGIN"):
        yield connection


@contextmanager
def writing(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection that alone may write; all of it is kept, or on any error none of it."""
    with connected(path) as connection, _transaction(connection, "BEGIN IMMEDIATE"):
        yield connection


@contextmanager
def connected(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection to records of the present schema, made if there are none.

    Errors: NotKept where the file cannot be opened or written, Unreadable where it is damaged
    or was written by a newer program.
    """
    with said_of(path):
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with closing(opened(path)) as connection:
            bring_up_to_date(connection)
            yield connection


def opened(path: Path | str, *, uri: bool = False) -> sqlite3.Connection:
    """A bare connection, without a look at the schema."""
    connection = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None, uri=uri)
    for setting in _SETTINGS:
        connection.execute(setting)
    return connection


@contextmanager
def _transaction(connection: sqlite3.Connection, begin: str) -> Iterator[None]:
    connection.execute(begin)
    try:
        yield
    except BaseException:
        connection.rollback()
        raise
    connection.commit()


@contextmanager
def said_of(path: Path) -> Iterator[None]:
    """Turn what the database or the system says into one sentence about the file."""
    try:
        yield
    except UnicodeDecodeError as wrong:
        # The database quotes harmed text in what it says, and that cannot even be decoded.
        raise _damaged(path) from wrong
    except sqlite3.Error as wrong:
        refusal = _refusal(path, wrong)
        if refusal is None:
            raise
        raise refusal from wrong
    except OSError as wrong:
        raise NotKept(f"The file {path} cannot be used: {wrong.strerror or wrong}.") from wrong


def _refusal(path: Path, wrong: sqlite3.Error) -> ShimwrightError | None:
    name = getattr(wrong, "sqlite_errorname", "")
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED", "SQLITE_PROTOCOL")):
        return NotKept(
            f"The records {path} have been in use elsewhere for {BUSY_SECONDS:g} s: try again "
            "in a moment."
        )
    if name.startswith("SQLITE_FULL"):
        return NotKept(f"There is no room left for the records {path}: make room and save again.")
    if name.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM", "SQLITE_IOERR")):
        return NotKept(
            f"The records {path} cannot be opened for writing: check that the folder is there "
            "and may be written to."
        )
    if isinstance(wrong, sqlite3.ProgrammingError | sqlite3.IntegrityError):
        return None
    return _damaged(path)


def _damaged(path: Path) -> Damaged:
    return Damaged(
        f"The records {path} are damaged, or are no records at all: restore a backup with "
        "“shimwright jobs restore FILE”; what is there is set aside, not thrown away."
    )
