"""The file itself: sudden ends, many writers, and damage, none of which costs a saved job."""

import os
import random
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.store import Store
from optics.records.store.connection import opened, reading, writing
from tests.optics.records.store.conftest import titled
from tests.optics.records.store.workers import kill_a_writer, write_together

forks = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")


def integrity(path: Path) -> str:
    """Return what the database says of itself."""
    with closing(opened(path)) as connection:
        return str(connection.execute("PRAGMA integrity_check").fetchone()[0])


@forks
def test_a_sudden_end_loses_no_saved_job(tmp_path: Path) -> None:
    """A writer killed at any of forty moments leaves every acknowledged save, and a sound file."""
    store, rng = Store(tmp_path / "records.sqlite"), random.Random(20260306)
    store.add_job(titled("first"))
    saved: dict[int, str] = {}
    for moment in range(40):
        saved |= kill_a_writer(store.path, rng, 1000 * moment)
        assert integrity(store.path) == "ok"
    assert len(saved) > 40
    first = [store.job_at(1, r.number).title for r in store.job_revisions(1)]
    assert saved.pop(1, "first") in first
    assert {number: store.job(number).job.title for number in saved} == saved


@forks
def test_many_writers_lose_nothing(tmp_path: Path) -> None:
    """Four processes that begin on a new store together keep every one of fifty saves each."""
    store = Store(tmp_path / "records.sqlite")
    write_together(store.path, writers=4, saves=50)
    assert integrity(store.path) == "ok"
    lines = store.jobs()
    assert {line.title for line in lines} == {f"writer {w}, save 49" for w in range(4)}
    assert [len(store.job_revisions(line.number)) for line in lines] == [50] * 4


def delete_everything_and_fail(store: Store) -> None:
    """Begin something that would do great harm, and break off."""
    with writing(store.path) as connection:
        connection.execute("DELETE FROM job")
        raise KeyError


def test_what_breaks_off_leaves_nothing(store: Store) -> None:
    """A transaction that ends in an error leaves the records as they were."""
    store.add_job(titled("one"))
    with pytest.raises(KeyError):
        delete_everything_and_fail(store)
    assert [line.title for line in store.jobs()] == ["one"]


def test_a_reader_sees_one_moment(store: Store) -> None:
    """A reader goes on seeing what was there when it began, whatever is saved meanwhile."""
    store.add_job(titled("one"))
    with reading(store.path) as connection:
        before = connection.execute("SELECT count(*) FROM job").fetchone()
        store.add_job(titled("two"))
        assert connection.execute("SELECT count(*) FROM job").fetchone() == before == (1,)


def test_a_store_in_use_for_too_long_is_one_sentence(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where another program holds the records, the save is refused in a sentence."""
    store.add_job(titled("one"))
    monkeypatch.setattr("optics.records.store.connection.BUSY_SECONDS", 0.05)
    with writing(store.path):
        with pytest.raises(NotKept, match=r"in use elsewhere for 0\.05 s: try again"):
            store.add_job(titled("two"))
        assert store.count_jobs() == 1


def test_a_file_that_cannot_be_opened_is_one_sentence(tmp_path: Path) -> None:
    """Records that cannot be opened are refused in a sentence that names the file."""
    (tmp_path / "records.sqlite").mkdir()
    with pytest.raises(NotKept, match=r"records\.sqlite cannot be opened for writing: check"):
        Store(tmp_path / "records.sqlite").jobs()


def test_a_folder_where_a_file_stands_is_one_sentence(tmp_path: Path) -> None:
    """A data folder that is really a file is refused in a sentence."""
    (tmp_path / "data").write_text("x")
    with pytest.raises(NotKept, match=r"^The file .* cannot be used: "):
        Store(tmp_path / "data" / "records.sqlite").jobs()


def harmed(data: bytes, rng: random.Random) -> bytes:
    """Return a database cut short, overwritten in places, or replaced."""
    kind = rng.randrange(4)
    if kind == 0:
        return data[: rng.randrange(1, len(data))]
    if kind == 1:
        return rng.randbytes(len(data))
    spoilt = bytearray(data)
    for _ in range(rng.randrange(1, 40)):
        at = rng.randrange(100 if kind == 2 else len(data))
        spoilt[at : at + 8] = rng.randbytes(8)
    return bytes(spoilt[: len(data)])


def refusal_of(look: Callable[[], Any]) -> str:
    """Return the sentence with which a look is refused; empty where it is not."""
    try:
        look()
    except ShimwrightError as refusal:
        return str(refusal)
    return ""


@pytest.mark.parametrize("seed", range(30))
def test_a_damaged_file_is_read_or_refused_in_a_sentence(seed: int, store: Store) -> None:
    """A damaged file gives what it still holds, or is refused in one sentence."""
    for step in range(6):
        store.save_draft("page", {"step": step})
        store.add_job(titled(f"job {step} " + "x" * 150))
    store.path.write_bytes(harmed(store.path.read_bytes(), random.Random(seed)))
    for look in (store.jobs, store.drafts, store.items, lambda: store.job(3)):
        said = refusal_of(look)
        assert said.isprintable()
        assert said[-1:] in ("", ".")


def test_a_file_that_is_no_database_is_refused_and_stays(tmp_path: Path) -> None:
    """A file that is no database at all is refused with the way out, and stays as it was."""
    path = tmp_path / "records.sqlite"
    path.write_bytes(b"not a database, but a letter" * 200)
    for attempt in (Store(path).jobs, lambda: Store(path).add_job(titled("a"))):
        with pytest.raises(Unreadable, match=r"are damaged, or are no records .* jobs restore"):
            attempt()
    assert path.read_bytes() == b"not a database, but a letter" * 200


def test_a_fault_of_the_program_is_not_called_damage(store: Store) -> None:
    """A mistake in the program's own use of the database is not passed off as a damaged file."""
    store.jobs()
    with pytest.raises(sqlite3.ProgrammingError), writing(store.path) as connection:
        connection.execute("SELECT ?", ())


def test_the_settings_that_keep_data_safe_are_on(store: Store) -> None:
    """Each connection writes ahead, waits for the disk, and wipes what is deleted."""
    with writing(store.path) as connection:
        asked = ("journal_mode", "synchronous", "foreign_keys", "secure_delete", "trusted_schema")
        found = [connection.execute(f"PRAGMA {name}").fetchone()[0] for name in asked]
    assert found == ["wal", 2, 1, 1, 0]
