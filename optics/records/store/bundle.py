"""All jobs and the library as one zip of JSON files, and such a zip read with suspicion."""

import os
import sqlite3
import stat
import zipfile
import zlib
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.files import LARGEST_FILE, one_line, read_kept_job
from optics.records.job import JobDocument
from optics.records.library import Item, read_item
from optics.records.store.jobs import SHELF as JOBS
from optics.records.store.jobs import checked_text, folded
from optics.records.store.library import SHELF as ITEMS
from optics.records.store.library import check_has_name

LARGEST_TOTAL = 500_000_000
MOST_FILES = 50_000
_PLAIN = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    IndexError,
    NotImplementedError,
    OSError,
    OverflowError,
    RuntimeError,
    ValueError,
)


@dataclass(frozen=True)
class Member:
    """One file of a bundle: a job, archived or not, or an item of the library."""

    content: JobDocument | Item
    is_archived: bool = False


def write_bundle(connection: sqlite3.Connection, file: BinaryIO) -> int:
    """Write every job that is not deleted, and the library; how many jobs there were."""
    jobs = 0
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as bundle:
        for number, archived, text in connection.execute(_all_of(JOBS.table, "archived")):
            folder = "archived" if archived else "jobs"
            _put(bundle, f"{folder}/{number:06}.json", text)
            jobs += 1
        for number, kind, text in connection.execute(_all_of(ITEMS.table, "kind")):
            _put(bundle, f"library/{kind.replace(' ', '-')}-{number:06}.json", text)
    return jobs


def _put(bundle: zipfile.ZipFile, name: str, text: str) -> None:
    # A bare ZipInfo bears a settled date, so the same records give the same bundle.
    bundle.writestr(zipfile.ZipInfo(name), text.encode(), zipfile.ZIP_DEFLATED)


def _all_of(table: str, column: str) -> str:
    return (
        f"SELECT t.id, t.{column}, r.document FROM {table} AS t JOIN {table}_revision AS r "
        "ON r.owner = t.id AND r.number = t.current WHERE t.deleted IS NULL ORDER BY t.id"
    )


def members(file: Path) -> Iterator[Member]:
    """Everything in a bundle, one after the other.

    Errors: Unreadable, one sentence, for whatever is not a whole and harmless bundle.
    """
    with _suspected(file), zipfile.ZipFile(file) as bundle:
        infos = [info for info in bundle.infolist() if not info.is_dir()]
        _check_all(infos)
        for info in infos:
            yield _member(bundle, info)


def check(file: Path) -> None:
    """Read a whole bundle and throw it away; Unreadable where anything in it is refused."""
    for _ in members(file):
        pass


@contextmanager
def _suspected(file: Path) -> Iterator[None]:
    try:
        yield
    except ShimwrightError:
        raise
    except _BROKEN as wrong:
        if isinstance(wrong, OSError) and wrong.strerror:
            raise Unreadable(f"The file {file} cannot be read: {wrong.strerror}.") from None
        raise Unreadable(
            f"The file {file} is not a whole zip of jobs: export it again, or check the file."
        ) from None


def _check_all(infos: list[zipfile.ZipInfo]) -> None:
    if len(infos) > MOST_FILES:
        raise _refused(f"it holds {len(infos):,} files, more than {MOST_FILES:,}")
    names = Counter(folded(info.filename) for info in infos)
    for info in infos:
        _check_name(info)
        if names[folded(info.filename)] > 1:
            raise _refused(f"it holds “{one_line(info.filename)}” twice")
        if info.flag_bits & 1 or info.compress_type not in _PLAIN:
            raise _refused(f"“{one_line(info.filename)}” is encrypted or packed in an unusual way")
        if info.file_size > LARGEST_FILE:
            raise _refused(
                f"“{one_line(info.filename)}” takes {info.file_size:,} bytes, more than "
                f"{LARGEST_FILE:,}"
            )
    total = sum(info.file_size for info in infos)
    if total > LARGEST_TOTAL:
        raise _refused(f"it would unpack to {total:,} bytes, more than {LARGEST_TOTAL:,}")


def _check_name(info: zipfile.ZipInfo) -> None:
    # Nothing is ever unpacked to disk; a name that tries to escape betrays the whole file.
    name = info.orig_filename
    steps = name.split("/")
    is_link = stat.S_ISLNK(info.external_attr >> 16)
    if "\\" in name or ":" in name or "\0" in name or {"", ".", ".."} & set(steps) or is_link:
        raise _refused(f"the name “{one_line(name)}” leads out of it")
    if not name.endswith(".json"):
        raise _refused(f"“{one_line(name)}” is not a JSON file")


def _refused(why: str) -> Unreadable:
    return Unreadable(f"The zip cannot be taken: {why}; nothing was imported.", quantity="zip")


def _member(bundle: zipfile.ZipFile, info: zipfile.ZipInfo) -> Member:
    with bundle.open(info) as packed:
        # The size that a zip declares need not be true.
        data = packed.read(LARGEST_FILE + 1)
    is_item = info.filename.startswith("library/")
    try:
        content = _checked_item(data) if is_item else _checked_job(data)
    except ShimwrightError as refusal:
        raise Unreadable(f"In {one_line(info.filename)}: {refusal}") from None
    return Member(content, info.filename.startswith("archived/"))


def _checked_job(data: bytes) -> JobDocument:
    job = read_kept_job(data)
    checked_text(job)
    return job


def _checked_item(data: bytes) -> Item:
    item = read_item(data)
    check_has_name(item)
    return item


def write_new(target: Path, write: Callable[[BinaryIO], int]) -> int:
    """Write a file that is not there yet, whole or not at all; what `write` returned."""
    if target.exists():
        raise NotKept(f"The file {target} is there already: choose another name.")
    part = target.with_name(target.name + ".part")
    try:
        with part.open("wb") as file:
            done = write(file)
            file.flush()
            os.fsync(file.fileno())
        part.replace(target)
    except OSError as wrong:
        raise NotKept(f"The file {target} cannot be written: {wrong.strerror}.") from wrong
    finally:
        part.unlink(missing_ok=True)
    return done
