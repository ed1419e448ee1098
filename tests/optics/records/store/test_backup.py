"""Backups: one file, checked before it replaces anything, the old records kept beside."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from optics.errors import NotKept, Unreadable
from optics.records.store import Store
from optics.records.store.connection import opened, writing
from tests.optics.records.store.conftest import titled
from tests.optics.records.store.test_migrations import REFERENCES


def titles(store: Store) -> list[str]:
    """Return the titles of all jobs, oldest number first."""
    return [line.title for line in sorted(store.jobs(), key=lambda line: line.number)]


@pytest.fixture
def backup(store: Store, tmp_path: Path) -> Path:
    """Give a backup of a store with two jobs, a revision, a draft and a deleted job."""
    store.add_job(titled("one"))
    store.add_job(titled("two"))
    store.save_job(2, titled("two, changed"))
    store.add_job(titled("deleted"))
    store.delete_job(3)
    store.save_draft("page", {"x": "18,"})
    file = tmp_path / "backup.sqlite"
    store.back_up(file)
    return file


def test_a_backup_is_one_whole_file(store: Store, backup: Path) -> None:
    """A backup is a single file that opens as records of its own, and is never written over."""
    assert [p.name for p in backup.parent.glob("backup*")] == ["backup.sqlite"]
    copy = Store(Path(shutil.copy(backup, backup.with_name("copy.sqlite"))))
    assert titles(copy) == ["one", "two, changed"]
    assert copy.draft("page") == {"x": "18,"}
    with pytest.raises(NotKept, match="is there already: choose another name"):
        store.back_up(backup)
    with pytest.raises(NotKept, match="cannot be"):
        store.back_up(backup.parent / "none" / "b.sqlite")


def test_a_backup_can_be_made_while_others_write(store: Store, tmp_path: Path) -> None:
    """A backup taken during a save holds what was there before it."""
    store.add_job(titled("one"))
    with writing(store.path) as connection:
        connection.execute("UPDATE job SET title = 'half done'")
        store.back_up(tmp_path / "b.sqlite")
    assert titles(Store(tmp_path / "b.sqlite")) == ["one"]


def test_restoring_brings_everything_back_and_keeps_the_old(store: Store, backup: Path) -> None:
    """After a restore everything is as it was backed up, and the records before lie beside."""
    store.save_job(1, titled("spoilt"))
    store.purge_job(3)
    aside = store.restore(backup)
    assert titles(store) == ["one", "two, changed"]
    assert [line.title for line in store.jobs(deleted=True)] == ["deleted"]
    assert store.undo_job(2).job.title == "two"
    assert store.draft("page") == {"x": "18,"}
    assert aside is not None
    assert aside.parent == store.path.parent
    assert titles(Store(aside)) == ["spoilt", "two, changed"]
    assert list(store.path.parent.glob("*restoring*")) == []


def test_restoring_where_nothing_was(backup: Path, tmp_path: Path) -> None:
    """On a fresh machine a backup is restored and nothing is put aside."""
    fresh = Store(tmp_path / "fresh" / "records.sqlite")
    assert fresh.restore(backup) is None
    assert titles(fresh) == ["one", "two, changed"]


@pytest.mark.parametrize("rest", [0, 100, 5000])
def test_a_backup_replaces_damaged_records(rest: int, store: Store, backup: Path) -> None:
    """Records cut short or overwritten are set aside as they are, and the backup takes over."""
    harmed = store.path.read_bytes()[:rest] + b"\xff" * 9000
    store.path.write_bytes(harmed)
    aside = store.restore(backup)
    assert aside is not None
    assert titles(store) == ["one", "two, changed"]
    if rest != 5000:
        assert aside.read_bytes() == harmed


@pytest.mark.parametrize("reference", REFERENCES, ids=lambda path: path.stem)
def test_an_older_backup_is_brought_up_to_date(reference: Path, store: Store) -> None:
    """A backup of any schema there has been is restored, and itself stays as it was."""
    before = reference.read_bytes()
    store.restore(reference)
    assert titles(store) == ["Reference ∞ “a”"]
    assert reference.read_bytes() == before


def statement(sql: str, *values: Any) -> Any:
    """Return something that spoils a database by one statement."""

    def spoil(path: Path) -> None:
        with closing(opened(path)) as connection:
            connection.execute("PRAGMA foreign_keys = OFF")
            connection.execute(sql, values)

    return spoil


def cut_short(path: Path) -> None:
    """Cut a file in half."""
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def overwrite(path: Path) -> None:
    """Overwrite a page in the middle of a file."""
    data = bytearray(path.read_bytes())
    data[8192:12288] = b"\xa5" * 4096
    path.write_bytes(data)


def write_text(path: Path) -> None:
    """Put a letter in the place of a file."""
    path.write_text("Dear repairer, " * 99)


def empty(path: Path) -> None:
    """Leave nothing of a file."""
    path.write_bytes(b"")


# Each row: what is done to a good backup, and what the sentence says.
SPOILT: list[tuple[Any, str]] = [
    (cut_short, "is damaged or is no backup: nothing was changed|it is damaged"),
    (overwrite, "is damaged or is no backup: nothing was changed|it is damaged"),
    (write_text, "is damaged or is no backup: nothing was changed"),
    (empty, "cannot be taken: it holds no records; choose another"),
    (Path.unlink, "cannot be read: No such file"),
    (statement("PRAGMA user_version = 99"), "The records have schema 99, and this program knows"),
    (statement("PRAGMA application_id = 7"), "The records file is another program's database"),
    (statement("CREATE TRIGGER t INSERT ON job BEGIN DELETE FROM job; END"), "its tables are"),
    (statement("CREATE VIEW v AS SELECT 1"), "its tables are not those of the records"),
    (statement("DROP TABLE draft"), "its tables are not those of the records"),
    (statement("UPDATE job_revision SET document = '{}'"), "The file is not a job: its “format”"),
    (statement("UPDATE job_revision SET document = zeroblob(9)"), "cannot be taken: The job file"),
    (statement("DELETE FROM job"), "it is damaged; choose another one"),
    (statement("UPDATE job SET current = 77"), "it is damaged; choose another one"),
    (statement("UPDATE draft SET typed = 'x'"), "cannot be taken: The draft"),
]


@pytest.mark.parametrize(("spoil", "says"), SPOILT)
def test_a_bad_backup_changes_nothing(spoil: Any, says: str, store: Store, backup: Path) -> None:
    """A backup that is damaged, foreign, newer, rigged or missing is refused in one sentence."""
    spoil(backup)
    before = sorted(store.path.parent.iterdir())
    with pytest.raises(Unreadable, match=says) as refused:
        store.restore(backup)
    assert str(refused.value).isprintable()
    assert titles(store) == ["one", "two, changed"]
    assert [p for p in sorted(store.path.parent.iterdir()) if p not in before] == []


def test_restoring_does_not_disturb_a_reader(store: Store, backup: Path) -> None:
    """A page that reads while a backup is restored sees the old records to the end."""
    store.save_job(1, titled("later"))
    with closing(sqlite3.connect(store.path, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        before = reader.execute("SELECT title FROM job ORDER BY id").fetchall()
        store.restore(backup)
        assert reader.execute("SELECT title FROM job ORDER BY id").fetchall() == before
    assert titles(store)[0] == "one"
