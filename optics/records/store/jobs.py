"""Jobs in the database: the document with every revision, and the columns to search by."""

import hashlib
import sqlite3
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Any

from optics.errors import OutOfRange
from optics.records.files import LARGEST_FILE, read_kept_job, write_job
from optics.records.intake import CustomerPart, IdentityPart, IntakePart
from optics.records.job import JobDocument
from optics.records.store.learned import keep_figures
from optics.records.store.versions import Shelf
from optics.records.work import WorkPart
from optics.typed.day import said_day

SHELF = Shelf("job", "job")


@dataclass(frozen=True)
class JobLine:
    """One job as a list shows it; times in UTC, empty text where nothing was given."""

    number: int
    title: str
    customer: str
    camera: str
    serial: str
    state: str
    received: str
    finished: str
    created: str
    changed: str
    archived: str | None
    deleted: str | None


@dataclass(frozen=True)
class KeptJob:
    """A job as it is kept: the document of its present revision, and which ways lead on."""

    line: JobLine
    revision: int
    job: JobDocument
    can_undo: bool
    can_redo: bool


_LINE = ", ".join("id" if f.name == "number" else f.name for f in fields(JobLine))


def checked_text(job: JobDocument) -> str:
    """The job as it is stored; OutOfRange where it is too large to be read again."""
    text = write_job(job)
    size = len(text.encode())
    if size > LARGEST_FILE:
        raise OutOfRange(
            f"A job may take at most {LARGEST_FILE:,} bytes: got {size:,}; shorten its notes.",
            quantity="job",
            value=size,
            limit=LARGEST_FILE,
        )
    return text


def digest(text: str) -> str:
    """What tells two stored documents apart."""
    return hashlib.sha256(text.encode()).hexdigest()


def folded(text: str) -> str:
    """Text as a search compares it: without accents, case or doubled blanks."""
    parts = unicodedata.normalize("NFKD", text.replace("\0", " ")).casefold()
    return " ".join("".join(c for c in parts if not unicodedata.combining(c)).split())


def joined(text: str) -> str:
    """A serial number as a search compares it: without the blanks and marks that group it."""
    return "".join(c for c in folded(text) if c.isalnum())


def camera_name(job: JobDocument) -> str:
    """What kind of camera it is: as it was described, else as it was booked in."""
    described = job.camera.name.strip() if job.camera else ""
    return described or (job.intake.identity.camera.strip() if job.intake else "")


def columns(job: JobDocument, text: str) -> dict[str, str]:
    """What a job can be found by."""
    intake = job.intake or IntakePart()
    customer = intake.customer
    name = camera_name(job)
    return {
        "title": job.title,
        "customer": customer.name.strip() or customer.reference.strip(),
        "camera": name,
        "camera_kind": folded(name),
        "serial": intake.identity.serial,
        "state": (job.work or WorkPart()).state,
        "received": said_day(intake.dates.received),
        "finished": said_day(intake.dates.finished),
        "digest": digest(text),
        "words": _words(job, intake.identity),
    }


def _words(job: JobDocument, camera: IdentityPart) -> str:
    """Every text of a job, and its serial numbers once more without blanks."""
    numbers = map(joined, (camera.serial, camera.lens_serial))
    return " ".join([folded(" ".join(_texts(job.model_dump()))), *filter(None, numbers)])


def _texts(value: Any) -> Iterator[str]:
    """Every text in a document, in order."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _texts(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _texts(inner)


def add(
    connection: sqlite3.Connection, job: JobDocument, now: str, archived: str | None = None
) -> int:
    """Keep a new job; its number."""
    text = checked_text(job)
    values = columns(job, text) | {"current": 1, "created": now, "changed": now}
    values["archived"] = archived
    names, marks = ", ".join(values), ", ".join(f":{name}" for name in values)
    done = connection.execute(f"INSERT INTO job ({names}) VALUES ({marks})", values)
    number = int(done.lastrowid or 0)
    SHELF.add(connection, number, text, now, None)
    keep_figures(connection, number, job)
    return number


def save(
    connection: sqlite3.Connection, number: int, job: JobDocument, now: str, based_on: int | None
) -> int:
    """Keep a new revision, unless nothing has changed; the revision's number."""
    current = SHELF.check_unchanged(connection, number, based_on)
    text = checked_text(job)
    if text == SHELF.document(connection, number, current):
        return current
    revision = SHELF.add(connection, number, text, now, current)
    _make_current(connection, number, revision, job, text, now)
    return revision


def go_to(connection: sqlite3.Connection, number: int, revision: int | None, now: str) -> None:
    """Make another revision the present one; nothing is done at either end."""
    if revision is None:
        return
    text = SHELF.document(connection, number, revision)
    _make_current(connection, number, revision, read_kept_job(text.encode()), text, now)


def _make_current(
    connection: sqlite3.Connection,
    number: int,
    revision: int,
    job: JobDocument,
    text: str,
    now: str,
) -> None:
    values = columns(job, text) | {"current": revision, "changed": now}
    settings = ", ".join(f"{name} = :{name}" for name in values)
    connection.execute(f"UPDATE job SET {settings} WHERE id = :id", values | {"id": number})
    keep_figures(connection, number, job)


def kept(connection: sqlite3.Connection, number: int) -> KeptJob:
    """A job with its present document; Unreadable where there is none of that number."""
    revision = SHELF.current(connection, number)
    row = connection.execute(f"SELECT {_LINE} FROM job WHERE id = ?", (number,)).fetchone()
    return KeptJob(
        JobLine(*row),
        revision,
        read_kept_job(SHELF.document(connection, number, revision).encode()),
        SHELF.before(connection, number, revision) is not None,
        SHELF.after(connection, number, revision) is not None,
    )


@dataclass(frozen=True)
class Search:
    """What is looked for: every word somewhere in the job, and the state if one is given.

    A serial number is found however its digits are grouped, there or here.
    """

    words: str = ""
    state: str | None = None
    archived: bool = False
    deleted: bool = False

    @property
    def condition(self) -> tuple[str, list[str]]:
        """The condition in SQL and what fills its marks."""
        conditions = [f"deleted IS {'NOT ' if self.deleted else ''}NULL"]
        if not self.deleted:
            conditions.append(f"archived IS {'NOT ' if self.archived else ''}NULL")
        filled = []
        if self.state is not None:
            conditions.append("state = ?")
            filled.append(self.state)
        for word in folded(self.words).split():
            is_number = any(c.isdigit() for c in word)
            ways = [word, *({joined(word)} - {word} if is_number else ())]
            conditions.append(f"({' OR '.join(['instr(words, ?)'] * len(ways))})")
            filled += ways
        return " AND ".join(conditions), filled


def found(
    connection: sqlite3.Connection, search: Search, limit: int, offset: int = 0
) -> list[JobLine]:
    """The jobs that are looked for, the one changed last first."""
    condition, filled = search.condition
    rows = connection.execute(
        f"SELECT {_LINE} FROM job WHERE {condition} ORDER BY changed DESC, id DESC "
        "LIMIT ? OFFSET ?",
        (*filled, limit, offset),
    )
    return [JobLine(*row) for row in rows]


def of_kind(connection: sqlite3.Connection, camera_kind: str, but: int) -> Iterator[KeptJob]:
    """The last hundred other jobs on a kind of camera, newest first; archived ones too."""
    rows = connection.execute(
        "SELECT id FROM job WHERE camera_kind = ? AND deleted IS NULL AND id <> ? "
        "ORDER BY changed DESC, id DESC LIMIT 100",
        (camera_kind, but),
    )
    return (kept(connection, number) for (number,) in rows)


def count(connection: sqlite3.Connection, search: Search) -> int:
    """How many jobs are looked for."""
    condition, filled = search.condition
    (number,) = connection.execute(f"SELECT count(*) FROM job WHERE {condition}", filled).fetchone()
    return int(number)


def copied(job: JobDocument) -> JobDocument:
    """A job to start another camera of the same kind from.

    Camera, marks, shims, trays, instruments and the readings being worked with are copied.
    What belongs to the customer or to that one camera is not: names, numbers, days, condition,
    photos, readings as found and as left, work and decision.
    """
    intake = job.intake and IntakePart(
        customer=CustomerPart(), identity=IdentityPart(camera=job.intake.identity.camera)
    )
    work = job.work and WorkPart(instruments=job.work.instruments)
    return job.model_copy(update={"intake": intake, "work": work, "found": (), "left": ()})
