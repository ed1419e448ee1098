"""The store under load: sudden ends, many writers, ten thousand jobs, and spoilt files."""

import json
import os
import random
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

from optics.errors import ShimwrightError
from optics.records.files import read_job
from optics.records.library import read_item
from optics.records.store import Store, jobs
from optics.records.store.connection import writing
from tests.optics.records.jobs import record
from tests.optics.records.store.conftest import document, titled
from tests.optics.records.store.test_bundle import spoilt, zipped
from tests.optics.records.store.test_connection import integrity
from tests.optics.records.store.workers import kill_a_writer, write_together

JOBS = 10_000
QUICK_SEARCH, QUICK_OPEN, QUICK_SUM = 0.050, 0.100, 0.200
FUZZED = 4000
CAMERA = "Ostrin 35 — the “grey” one"


def test_two_hundred_sudden_ends(tmp_path: Path) -> None:
    """A writer killed at any of two hundred moments leaves every acknowledged save."""
    store, rng = Store(tmp_path / "records.sqlite"), random.Random(1)
    saved: dict[int, str] = {}
    for moment in range(200):
        saved |= kill_a_writer(store.path, rng, 1000 * moment)
        if store.path.exists():
            assert integrity(store.path) == "ok"
    first = [store.job_at(1, r.number).title for r in store.job_revisions(1)]
    assert saved.pop(1) in first
    assert {number: store.job(number).job.title for number in saved} == saved
    print(f"200 sudden ends: {len(saved) + 1} acknowledged jobs, all there")


def test_eight_writers_together(tmp_path: Path) -> None:
    """Eight processes that begin on a new store together keep all five hundred saves each."""
    store, begun = Store(tmp_path / "records.sqlite"), time.perf_counter()
    write_together(store.path, writers=8, saves=500)
    taken = time.perf_counter() - begun
    assert integrity(store.path) == "ok"
    lines = store.jobs()
    assert {line.title for line in lines} == {f"writer {w}, save 499" for w in range(8)}
    assert [len(store.job_revisions(line.number)) for line in lines] == [500] * 8
    print(f"8 writers × 500 saves: {taken:.1f} s, {1000 * taken / 4000:.1f} ms a save")


def filled(path: Path) -> Store:
    """Give a store with ten thousand whole jobs, each with a serial number of its own."""
    store = Store(path)
    store.jobs()
    text = json.dumps(record(), ensure_ascii=False)
    for first in range(0, JOBS, 500):
        with writing(path) as connection:
            for n in range(first, first + 500):
                job = read_job(text.replace("No 41 207", f"No {n:06}").encode())
                jobs.add(connection, job, f"2026-03-06T{n:08}")
    return store


def median(work: Callable[[], Any], times: int = 9) -> float:
    """Return the middle of several times that some work takes, by the processor's clock."""
    taken = []
    for _ in range(times):
        begun = time.process_time()
        work()
        taken.append(time.process_time() - begun)
    return sorted(taken)[times // 2]


def page_of(store: Store, words: str) -> int:
    """Look for what the page Jobs shows: how many there are, and the first twenty."""
    return store.count_jobs(words) + len(store.jobs(words, limit=20))


def test_ten_thousand_jobs(tmp_path: Path) -> None:
    """Among ten thousand jobs a search takes under 50 ms and opening one under 100 ms."""
    store = filled(tmp_path / "records.sqlite")
    assert [line.serial for line in store.jobs("zoe 007777")] == ["No 007777"]
    size = store.path.stat().st_size / 1e6
    figures = {
        "list": (median(store.jobs), QUICK_SEARCH),
        "search, one hit": (median(lambda: store.jobs("zoë 007777")), QUICK_SEARCH),
        "search, all hit": (median(lambda: store.jobs("angstrom helicoid")), QUICK_SEARCH),
        "search, no hit": (median(lambda: store.jobs("nobody")), QUICK_SEARCH),
        "count": (median(lambda: store.count_jobs("angstrom")), QUICK_SEARCH),
        "a page of a search": (median(lambda: page_of(store, "angstrom nobody")), QUICK_SEARCH),
        "open": (median(lambda: store.job(5000)), QUICK_OPEN),
        "learned from all": (median(lambda: store.learned(CAMERA)), QUICK_SUM),
        "save": (median(lambda: store.save_job(1, titled(os.urandom(4).hex()))), QUICK_OPEN),
        "draft": (median(lambda: store.merge_draft("k", {"x": os.urandom(4).hex()})), QUICK_OPEN),
    }
    print(f"{JOBS:,} jobs, {size:.0f} MB")
    for name, (taken, _) in figures.items():
        print(f"  {name}: {1000 * taken:.1f} ms")
    begun = time.perf_counter()
    store.back_up(tmp_path / "b.sqlite")
    print(f"  backup: {time.perf_counter() - begun:.1f} s")
    begun = time.perf_counter()
    store.export_all(tmp_path / "all.zip")
    print(f"  export of all: {time.perf_counter() - begun:.1f} s")
    begun = time.perf_counter()
    store.restore(tmp_path / "b.sqlite")
    print(f"  checked restore: {time.perf_counter() - begun:.1f} s")
    assert {name: taken for name, (taken, most) in figures.items() if taken > most} == {}


class Coverage:
    """Which lines of the records' reading have been run, to tell an input that found a new way."""

    def __init__(self) -> None:
        self.seen: set[tuple[str, int]] = set()
        self.new = 0

    def trace(self, frame: FrameType, event: str, _: Any) -> Any:
        """Follow the records' own modules alone."""
        if "optics/records" not in frame.f_code.co_filename.replace(os.sep, "/"):
            return None
        place = (frame.f_code.co_filename, frame.f_lineno)
        if place not in self.seen:
            self.seen.add(place)
            self.new += 1
        return self.trace

    def found_by(self, work: Callable[[bytes], Any], data: bytes) -> int:
        """Run some work on an input; how many lines it was the first to reach."""
        self.new = 0
        sys.settrace(self.trace)
        try:
            work(data)
        except ShimwrightError as refusal:
            said = str(refusal)
            assert said.isprintable(), said
            assert said.endswith("."), said
        finally:
            sys.settrace(None)
        return self.new


def fuzz(work: Callable[[bytes], Any], corpus: list[bytes], times: int, name: str) -> None:
    """Spoil inputs at random, keep those that reach something new, and spoil these further."""
    coverage, rng = Coverage(), random.Random(20260306)
    for data in corpus:
        coverage.found_by(work, data)
    for n in range(times):
        data = spoilt(rng.choice(corpus), rng.randrange(10**9))
        if data and coverage.found_by(work, data):
            corpus.append(data)
        if n == times // 2:
            half = len(coverage.seen)
    print(
        f"{name}: {times:,} spoilt inputs, {len(corpus)} of them new ways, {len(coverage.seen)} "
        f"lines reached ({half} at half time), nothing but sentences"
    )


def test_spoilt_files_give_sentences(tmp_path: Path) -> None:
    """Jobs, items, zips and databases spoilt by a coverage-guided fuzzer give only sentences."""
    text = json.dumps(record(), ensure_ascii=False).encode()
    item = (
        b'{"format":"shimwright library item","version":1,"item":{"kind":"target","name":"a",'
        b'"part":{"distance":"12 m"}}}'
    )
    fuzz(read_job, [text, json.dumps(record()).encode()], FUZZED, "job files")
    fuzz(read_item, [item], FUZZED, "item files")

    store = Store(tmp_path / "records.sqlite")
    for n in range(4):
        store.add_job(document(record(title=str(n))))
        store.save_draft(str(n), {"a": "1"})
    before = store.export_job(2)
    store.back_up(tmp_path / "good.sqlite")
    given = tmp_path / "given"

    def import_zip(data: bytes) -> None:
        given.write_bytes(data)
        Store(tmp_path / "zips.sqlite").import_all(given)

    def restore(data: bytes) -> None:
        given.write_bytes(data)
        aside = store.restore(given)
        if aside is not None:
            aside.unlink()

    fuzz(import_zip, [zipped(("jobs/1.json", text), ("library/1.json", item))], 800, "zips")
    fuzz(restore, [(tmp_path / "good.sqlite").read_bytes()], 400, "backups")
    assert integrity(store.path) == "ok"
    store.restore(tmp_path / "good.sqlite")
    assert store.export_job(2) == before
