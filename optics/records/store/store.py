"""The store: everything that is kept, behind one small set of calls."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import Any

from optics.records.files import read_job, read_kept_job
from optics.records.job import JobDocument
from optics.records.library import Item
from optics.records.store import backup, bundle, drafts, jobs, library
from optics.records.store.connection import connected, reading, writing
from optics.records.store.importing import Imported, take_in
from optics.records.store.jobs import JobLine, KeptJob, Search
from optics.records.store.learned import ShopFigure, learned
from optics.records.store.library import ItemLine, KeptItem
from optics.records.store.place import default_path
from optics.records.store.versions import Revision

_BATCH = 100


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")


@dataclass(frozen=True)
class Store:
    """The records in one file, made at first use; every call is one transaction of its own.

    What is saved is signed with the name `by`, if one is given.

    Errors of every call: NotKept where nothing could be written, Unreadable for a number that
    is not there or a file that is damaged, newer or foreign; each one sentence, and what was
    kept before stays as it was.
    """

    path: Path = field(default_factory=default_path)
    now: Callable[[], str] = _now
    by: str = ""

    def add_job(self, job: JobDocument) -> int:
        """Keep a new job; its number, which is never given again."""
        with writing(self.path) as connection:
            now = self.now()
            number = jobs.add(connection, job, now)
            jobs.SHELF.sign(connection, number, now, self.by)
            return number

    def save_job(self, number: int, job: JobDocument, based_on: int | None = None) -> int:
        """Keep a job's new state as a revision; its number.

        With `based_on`, the revision that was opened, a job that was saved elsewhere meanwhile
        is refused (NotKept) rather than covered up.
        """
        with writing(self.path) as connection:
            now = self.now()
            revision = jobs.save(connection, number, job, now, based_on)
            jobs.SHELF.sign(connection, number, now, self.by)
            return revision

    def job(self, number: int) -> KeptJob:
        """A job as it is now."""
        with reading(self.path) as connection:
            return jobs.kept(connection, number)

    def jobs(
        self,
        words: str = "",
        *,
        state: str | None = None,
        archived: bool = False,
        deleted: bool = False,
        limit: int = 100,
        offset: int = 0,
    ) -> list[JobLine]:
        """Jobs that hold every one of the words, in whatever field; the last changed first."""
        with reading(self.path) as connection:
            search = Search(words, state, archived, deleted)
            return jobs.found(connection, search, limit, offset)

    def count_jobs(
        self,
        words: str = "",
        *,
        state: str | None = None,
        archived: bool = False,
        deleted: bool = False,
    ) -> int:
        """How many jobs a search finds in all."""
        with reading(self.path) as connection:
            return jobs.count(connection, Search(words, state, archived, deleted))

    def job_revisions(self, number: int) -> list[Revision]:
        """Every revision of a job, the newest first."""
        with reading(self.path) as connection:
            return jobs.SHELF.revisions(connection, number)

    def job_at(self, number: int, revision: int) -> JobDocument:
        """A job as it was at one revision."""
        with reading(self.path) as connection:
            return read_kept_job(jobs.SHELF.document(connection, number, revision).encode())

    def undo_job(self, number: int) -> KeptJob:
        """Step back to the revision before; at the first, nothing happens."""
        with writing(self.path) as connection:
            current = jobs.SHELF.current(connection, number)
            before = jobs.SHELF.before(connection, number, current)
            jobs.go_to(connection, number, before, self.now())
            return jobs.kept(connection, number)

    def redo_job(self, number: int) -> KeptJob:
        """Step forward again; at the last, nothing happens."""
        with writing(self.path) as connection:
            current = jobs.SHELF.current(connection, number)
            after = jobs.SHELF.after(connection, number, current)
            jobs.go_to(connection, number, after, self.now())
            return jobs.kept(connection, number)

    def duplicate_job(self, number: int) -> int:
        """A new job for another camera of the same kind, without the customer's data."""
        with writing(self.path) as connection:
            return jobs.add(connection, jobs.copied(jobs.kept(connection, number).job), self.now())

    def archive_job(self, number: int, archived: bool = True) -> None:
        """Take a job out of the usual list, or back into it."""
        with writing(self.path) as connection:
            jobs.SHELF.current(connection, number)
            when = self.now() if archived else None
            connection.execute("UPDATE job SET archived = ? WHERE id = ?", (when, number))

    def delete_job(self, number: int) -> None:
        """Delete a job so that it can be restored."""
        with writing(self.path) as connection:
            jobs.SHELF.mark_deleted(connection, number, self.now())

    def restore_job(self, number: int) -> None:
        """Take a deletion back."""
        with writing(self.path) as connection:
            jobs.SHELF.mark_deleted(connection, number, None)

    def purge_job(self, number: int) -> None:
        """Take a deleted job away for good, every trace of it overwritten in the file."""
        with writing(self.path) as connection:
            jobs.SHELF.purge(connection, number)
        self._scrub()

    def learned(self, camera: str) -> list[ShopFigure]:
        """What the jobs on a kind of camera, by its name, have shown; archived ones too."""
        with reading(self.path) as connection:
            return learned(connection, jobs.folded(camera))

    def described_before(self, camera: str, but: int) -> KeptJob | None:
        """The job changed last that describes a kind of camera, by its name; not job `but`."""
        with reading(self.path) as connection:
            others = jobs.of_kind(connection, jobs.folded(camera), but)
            return next((kept for kept in others if kept.job.camera is not None), None)

    def save_draft(self, key: str, typed: Mapping[str, Any]) -> None:
        """Keep what stands in a page's fields under a key."""
        with writing(self.path) as connection:
            drafts.save(connection, key, typed, self.now())

    def merge_draft(self, key: str, changed: Mapping[str, str | None]) -> None:
        """Change some fields of a draft and leave the others; None forgets a field."""
        with writing(self.path) as connection:
            drafts.merge(connection, key, changed, self.now())

    def draft(self, key: str) -> dict[str, Any] | None:
        """What was last kept under a key; None where there is nothing."""
        with reading(self.path) as connection:
            return drafts.typed(connection, key)

    def drafts(self) -> list[tuple[str, str]]:
        """Every draft's key and when it was kept (UTC), the newest first."""
        with reading(self.path) as connection:
            return drafts.keys(connection)

    def drop_draft(self, key: str) -> None:
        """Forget a draft, once what it held has been saved."""
        with writing(self.path) as connection:
            drafts.drop(connection, key)

    def add_item(self, item: Item) -> int:
        """Keep a new item of the library; its number. Its name must be new among its kind."""
        with writing(self.path) as connection:
            return library.add(connection, item, self.now())

    def save_item(self, number: int, item: Item, based_on: int | None = None) -> int:
        """Keep an item's new state as a revision, as `save_job` does."""
        with writing(self.path) as connection:
            now = self.now()
            revision = library.save(connection, number, item, now, based_on)
            library.SHELF.sign(connection, number, now, self.by)
            return revision

    def item(self, number: int) -> KeptItem:
        """An item as it is now."""
        with reading(self.path) as connection:
            return library.kept(connection, number)

    def items(self, kind: str | None = None, *, deleted: bool = False) -> list[ItemLine]:
        """The items of one kind, or of all, by name."""
        with reading(self.path) as connection:
            return library.lines(connection, kind, deleted)

    def delete_item(self, number: int) -> None:
        """Delete an item so that it can be restored."""
        with writing(self.path) as connection:
            library.SHELF.mark_deleted(connection, number, self.now())

    def restore_item(self, number: int) -> None:
        """Take a deletion back; NotKept where another item has the name now."""
        with writing(self.path) as connection:
            library.restore(connection, number)

    def export_job(self, number: int) -> bytes:
        """One job as the bytes of a job file."""
        with reading(self.path) as connection:
            current = jobs.SHELF.current(connection, number)
            return jobs.SHELF.document(connection, number, current).encode()

    def import_job(self, data: bytes) -> int:
        """Keep the job in a file's bytes as a new one; its number."""
        return self.add_job(read_job(data))

    def export_all(self, file: Path) -> int:
        """Write all jobs that are not deleted, and the library, to a new zip; how many jobs."""
        with reading(self.path) as connection:
            return bundle.write_new(file, lambda out: bundle.write_bundle(connection, out))

    def import_all(self, file: Path) -> Imported:
        """Take a zip of jobs in, once all of it has been checked; what is here is not doubled.

        It is taken in by the hundred, so that others can save meanwhile; where it was
        interrupted, importing again brings the rest.
        """
        bundle.check(file)
        done, here, members = Imported(), Counter[str](), bundle.members(file)
        while batch := list(islice(members, _BATCH)):
            with writing(self.path) as connection:
                done = done.plus(take_in(connection, batch, here, self.now()))
        return done

    def back_up(self, file: Path) -> None:
        """Copy the whole of the records, revisions and drafts too, to one new file."""
        backup.back_up(self.path, file)

    def restore(self, file: Path) -> Path | None:
        """Put a checked backup in place of the records; where the old ones now lie."""
        stamp = "".join(c for c in self.now() if c.isalnum())
        return backup.restore(self.path, file, stamp)

    def _scrub(self) -> None:
        """Have no deleted text left in the write-ahead log."""
        with connected(self.path) as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
