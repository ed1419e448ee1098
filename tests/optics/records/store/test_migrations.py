"""The schema: every database there has been is brought up to date, and none is harmed."""

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from optics.errors import ShimwrightError, Unreadable
from optics.records.files import read_job
from optics.records.store import Store
from optics.records.store.connection import opened
from optics.records.store.migrations import APPLICATION, LATEST, MIGRATIONS, bring_up_to_date
from tests.optics.records.store.conftest import titled
from tests.optics.records.store.reference.make import ITEM, JOB

REFERENCES = sorted((Path(__file__).parent / "reference").glob("schema_*.sqlite"))


@pytest.fixture
def connection(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    """Give a bare database."""
    with closing(opened(tmp_path / "bare.sqlite")) as bare:
        yield bare


def schema(connection: sqlite3.Connection) -> set[str]:
    """Return every statement that made a database."""
    return {row[0] for row in connection.execute("SELECT sql FROM sqlite_master WHERE sql <> ''")}


def test_every_schema_has_its_reference_database() -> None:
    """There is one reference database for each step of the schema."""
    assert [path.stem for path in REFERENCES] == [f"schema_{n:03}" for n in range(1, LATEST + 1)]


@pytest.mark.parametrize("reference", REFERENCES, ids=lambda path: path.stem)
def test_a_reference_database_is_brought_up_to_date(
    reference: Path, tmp_path: Path, connection: sqlite3.Connection
) -> None:
    """What was kept under an older schema is there, byte for byte, under the present one."""
    path = Path(shutil.copy(reference, tmp_path / "records.sqlite"))
    store, taken = Store(path), int(reference.stem[-3:])
    assert store.export_job(1).decode() == JOB
    assert [line.number for line in store.jobs("zoë 41 207")] == [1]
    assert [line.number for line in store.jobs("41207")] == [1]
    assert [line.number for line in store.jobs(deleted=True)] == [2]
    assert store.undo_job(1).job == read_job(JOB.replace("“a”", "“b”").encode())
    assert [one.name for one in store.learned("OSTRIN 35")] == [
        "focus error as found",
        "circle of confusion",
    ]
    assert store.draft("a page") == ({"x": "18,"} if taken >= 2 else None)
    assert [line.name for line in store.items("lens")] == (["The 47"] if taken >= 3 else [])
    if taken >= 3:
        assert json.loads(ITEM)["item"] == store.item(1).item.model_dump(exclude_unset=True)
    with closing(opened(path)) as migrated:
        bring_up_to_date(connection)
        assert schema(migrated) == schema(connection)
        assert migrated.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_each_step_leaves_its_record(connection: sqlite3.Connection) -> None:
    """The database knows which steps it has taken and bears the program's mark."""
    bring_up_to_date(connection)
    taken = connection.execute("SELECT number, name FROM migration ORDER BY number").fetchall()
    assert taken == [(n, m.name) for n, m in enumerate(MIGRATIONS, 1)]
    assert connection.execute("PRAGMA user_version").fetchone() == (LATEST,)
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION,)


def test_a_step_that_fails_leaves_nothing(
    connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A step that breaks off half way leaves the schema, and its record, as they were."""
    bring_up_to_date(connection, to=1)
    before = schema(connection)
    broken = (
        MIGRATIONS[0],
        type(MIGRATIONS[0])("broken", ("CREATE TABLE a (b)", "CREATE NONSENSE")),
    )
    monkeypatch.setattr("optics.records.store.migrations.MIGRATIONS", broken)
    with pytest.raises(sqlite3.OperationalError):
        bring_up_to_date(connection, to=2)
    assert schema(connection) == before
    assert connection.execute("PRAGMA user_version").fetchone() == (1,)


def test_a_newer_database_is_refused_and_left_alone(store: Store) -> None:
    """A database of a schema that is not known yet is refused, and stays byte for byte."""
    store.add_job(titled("a"))
    with closing(opened(store.path)) as connection:
        connection.execute(f"PRAGMA user_version = {LATEST + 1}")
    before = store.path.read_bytes()
    with pytest.raises(Unreadable, match=f"The records have schema {LATEST + 1}, and this program"):
        store.jobs()
    with pytest.raises(Unreadable):
        store.add_job(titled("b"))
    assert store.path.read_bytes() == before


def test_another_programs_database_is_refused(tmp_path: Path) -> None:
    """A database that is not the program's own is refused, and no table is put into it."""
    path = tmp_path / "records.sqlite"
    with closing(sqlite3.connect(path)) as foreign:
        foreign.execute("CREATE TABLE song (name)")
    with pytest.raises(ShimwrightError, match="another program's database"):
        Store(path).jobs()
    with closing(sqlite3.connect(path)) as foreign:
        assert [row[0] for row in foreign.execute("SELECT name FROM sqlite_master")] == ["song"]
