"""Bundles: all jobs in one zip, and every zip that is not one refused in a sentence."""

import io
import json
import random
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.lantern_street import OSTRIN
from optics.records.library import CameraItem
from optics.records.store import Store
from tests.optics.records.jobs import record
from tests.optics.records.store.conftest import document, titled
from tests.optics.records.test_files import REFUSED, assert_is_a_sentence

GOOD = json.dumps(record(), ensure_ascii=False).encode()


def zipped(*files: tuple[str | zipfile.ZipInfo, bytes]) -> bytes:
    """Return a zip of these files, whatever they are called."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as bundle:
        for name, data in files:
            bundle.writestr(name, data)
    return out.getvalue()


def contents(store: Store) -> list[Any]:
    """Return everything a store holds, as it would be exported."""
    lines = store.jobs(limit=10_000) + store.jobs(archived=True, limit=10_000)
    jobs = [(store.export_job(line.number), bool(line.archived)) for line in lines]
    return sorted(jobs), [store.item(line.number).item for line in store.items()]


def refusal(store: Store, data: bytes) -> str:
    """Import a zip that must be refused, and return the sentence; nothing may have changed."""
    store.add_job(titled("here before"))
    before = contents(store)
    file = store.path.with_name("given.zip")
    file.write_bytes(data)
    with pytest.raises(Unreadable) as refused:
        store.import_all(file)
    assert contents(store) == before
    assert_is_a_sentence(str(refused.value))
    return str(refused.value).replace(str(file), "FILE")


def test_all_jobs_come_back_from_a_bundle(store: Store, tmp_path: Path) -> None:
    """Jobs, archived jobs and the library come back byte for byte; deleted ones stay behind."""
    store.add_job(document(record()))
    store.add_job(titled("archived"))
    store.archive_job(2)
    store.add_job(titled("deleted"))
    store.delete_job(3)
    store.add_item(CameraItem(name="Ours", part=OSTRIN))
    assert store.export_all(tmp_path / "all.zip") == 2
    other = Store(tmp_path / "other" / "records.sqlite")
    done = other.import_all(tmp_path / "all.zip")
    assert (done.jobs, done.items, done.already) == (2, 1, 0)
    assert contents(other) == contents(store)


def test_a_bundle_is_the_same_for_the_same_records(store: Store, tmp_path: Path) -> None:
    """Exported twice, the same records give the same bytes, and no file is written over."""
    store.add_job(document(record()))
    store.export_all(tmp_path / "a.zip")
    store.export_all(tmp_path / "b.zip")
    before = (tmp_path / "a.zip").read_bytes()
    assert before == (tmp_path / "b.zip").read_bytes()
    store.add_job(titled("more"))
    with pytest.raises(NotKept, match=r"a\.zip is there already: choose another name"):
        store.export_all(tmp_path / "a.zip")
    assert (tmp_path / "a.zip").read_bytes() == before
    with pytest.raises(NotKept, match=r"c\.zip cannot be written: No such file"):
        store.export_all(tmp_path / "none" / "c.zip")


def linked() -> zipfile.ZipInfo:
    """Return the entry of a symbolic link."""
    info = zipfile.ZipInfo("jobs/link.json")
    info.create_system, info.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
    return info


def lying(data: bytes) -> bytes:
    """Return a zip whose directory says that a file is smaller than it is."""
    bundle = bytearray(zipped(("jobs/1.json", data)))
    at = bundle.rfind(b"PK\x01\x02")
    bundle[at + 24 : at + 28] = (100).to_bytes(4, "little")
    return bytes(bundle)


def packed_oddly() -> bytes:
    """Return a zip packed by a method that no ordinary zip uses."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_LZMA) as bundle:
        bundle.writestr("jobs/1.json", GOOD)
    return out.getvalue()


def encrypted() -> bytes:
    """Return a zip whose directory says that its file is encrypted."""
    bundle = bytearray(zipped(("jobs/1.json", GOOD)))
    for mark, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        bundle[bundle.rfind(mark) + place] |= 1
    return bytes(bundle)


A = ("jobs/1.json", GOOD)


def swelling() -> bytes:
    """Return a job that fits a file as it is, and no longer once it is written out in lines."""
    trays = [{"part": "n" * 200, "note": "n" * 4000} for _ in range(200)]
    done = [{"done": "n" * 640, "quantity": "1"} for _ in range(200)]
    job = {"format": "shimwright job", "version": 1, "trays": trays, "work": {"done": done}}
    data = json.dumps(job, separators=(",", ":")).encode()
    return data + b" " * (1_000_000 - len(data))


NAMELESS = (
    b'{"format":"shimwright library item","version":1,'
    b'"item":{"kind":"target","name":" ","part":{"distance":"9 m"}}}'
)
# Each row: what is wrong, the zip, and what the sentence says.
HOSTILE: list[tuple[str, bytes, str]] = [
    ("no zip", b"PK\x03\x04 not really", "The file FILE is not a whole zip of jobs: export"),
    ("empty", b"", "The file FILE is not a whole zip of jobs"),
    ("truncated", zipped(A)[:-30], "The file FILE is not a whole zip of jobs"),
    ("up", zipped(A, ("../../x.json", GOOD)), "the name “../../x.json” leads out of it"),
    ("up inside", zipped(("jobs/../../x.json", GOOD)), "“jobs/../../x.json” leads out of it"),
    ("from the top", zipped(("/x.json", GOOD)), "the name “/x.json” leads out of it"),
    ("drive", zipped(("C:/x.json", GOOD)), "the name “C:/x.json” leads out of it"),
    ("backslash", zipped(("jobs\\..\\x.json", GOOD)), "leads out of it; nothing was imported."),
    ("a dot", zipped(("./x.json", GOOD)), "the name “./x.json” leads out of it"),
    ("link", zipped((linked(), b"secrets")), "the name “jobs/link.json” leads out of it"),
    ("twice", zipped(A, ("jobs/1.JSON", GOOD)), "it holds “jobs/1.json” twice"),
    ("no JSON name", zipped(A, ("run.exe", b"x")), "“run.exe” is not a JSON file"),
    ("oversize", zipped(("a.json", b" " * 1_000_001)), "“a.json” takes 1,000,001 bytes, more"),
    (
        "bomb",
        zipped(*((f"{n}.json", b" " * 1_000_000) for n in range(501))),
        "it would unpack to 501,000,000 bytes, more than 500,000,000",
    ),
    ("many", zipped(*((f"{n}.json", b"") for n in range(50_001))), "it holds 50,001 files, more"),
    ("lying", lying(GOOD), "The file FILE is not a whole zip of jobs"),
    ("encrypted", encrypted(), "“jobs/1.json” is encrypted or packed in an unusual way"),
    ("odd method", packed_oddly(), "“jobs/1.json” is encrypted or packed in an unusual way"),
    ("one bad of two", zipped(A, ("jobs/2.json", b"{}")), "In jobs/2.json: The file is not a job"),
    ("job as item", zipped(("library/1.json", GOOD)), "In library/1.json: The file is not a lib"),
    ("swelling", zipped(A, ("b.json", swelling())), "In b.json: A job may take at most 1,000,000"),
    ("nameless", zipped(A, ("library/1.json", NAMELESS)), "In library/1.json: The target needs a"),
    ("HTML", zipped(("<img src=x>.json", b"<html>")), "In <img src=x>.json: The job file is not"),
    ("formula", zipped(("=1+1.json", b"=1+1")), "In =1+1.json: The job file is not JSON"),
    ("escape signs", zipped(("\x1b[2J.json", b"x")), "In ?[2J.json: The job file is not JSON"),
]


@pytest.mark.parametrize(
    ("data", "says"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE]
)
def test_a_hostile_zip_is_refused_whole(data: bytes, says: str, store: Store) -> None:
    """A zip that escapes, explodes, repeats itself or is damaged is refused, whole."""
    assert says in refusal(store, data)


@pytest.mark.parametrize(
    ("data", "begins"), [row[1:] for row in REFUSED[:24]], ids=[row[0] for row in REFUSED[:24]]
)
def test_a_hostile_job_is_refused_alone_and_in_a_zip(
    data: bytes, begins: str, store: Store
) -> None:
    """Whatever is refused as a job file is refused by the store, alone and beside a good job."""
    with pytest.raises(Unreadable) as refused:
        store.import_job(data)
    assert str(refused.value).startswith(begins)
    assert store.count_jobs() == 0
    said = refusal(store, zipped(A, ("jobs/2.json", data)))
    assert said.startswith(("In jobs/2.json: ", "The zip cannot be taken: “jobs/2.json” takes"))


def spoilt(data: bytes, seed: int) -> bytes:
    """Return bytes changed, cut and doubled in a few places."""
    rng, out = random.Random(seed), bytearray(data)
    for _ in range(rng.randrange(1, 6)):
        at = rng.randrange(len(out))
        match rng.randrange(4):
            case 0:
                out[at] = rng.randrange(256)
            case 1:
                del out[at : at + rng.randrange(1, 30)]
            case 2:
                out[at:at] = out[max(0, at - 20) : at]
            case _:
                out[at : at + 4] = rng.choice((0, 1, 0xFFFF, 0xFFFFFFFF)).to_bytes(4, "little")
        if not out:
            break
    return bytes(out)


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_any_spoilt_zip_is_taken_or_refused(seed: int, shared_store: Store) -> None:
    """A zip spoilt anywhere is taken or refused in a sentence, and never half taken."""
    file, before = shared_store.path.with_name("a.zip"), shared_store.count_jobs()
    file.write_bytes(spoilt(zipped(A, ("jobs/2.json", GOOD)), seed))
    try:
        taken = shared_store.import_all(file).jobs
    except ShimwrightError as refused:
        said, taken = str(refused), 0
        assert_is_a_sentence(said.replace(str(file), "FILE"))
    assert shared_store.count_jobs() == before + taken


@pytest.mark.parametrize(
    "name", ["/etc/passwd", "..", "a\\b.jpg", "C:x.jpg", "a/b.jpg", "", " ", "a\nb.jpg", "\x00"]
)
def test_a_photo_is_the_name_of_a_file_alone(name: str, store: Store) -> None:
    """A photo's name that leads into a folder, or cannot be seen, is refused in a sentence."""
    typed = record()
    typed["intake"]["photos"] = [{"file": name}]
    with pytest.raises(
        Unreadable, match=r"^In intake → photos no\. 1 → file: The photo's file name"
    ):
        store.import_job(json.dumps(typed).encode())


@pytest.mark.parametrize("figure", ["1e308", "NaN", "1e999", "-1e308 mm", "0x10", "１２", "inf"])
def test_a_figure_that_cannot_be_is_refused(figure: str, store: Store) -> None:
    """A leaf thickness or limit that cannot be is refused in a sentence, and nothing is kept."""
    change: tuple[Callable[[dict[str, Any]], None], ...] = (
        lambda typed: typed["work"]["done"][0].update(added=figure),
        lambda typed: typed["work"]["instruments"][0].update(limit=figure),
        lambda typed: typed["intake"]["dates"].update(received=figure),
    )
    for apply in change:
        typed = record()
        apply(typed)
        with pytest.raises(Unreadable) as refused:
            store.import_job(json.dumps(typed).encode())
        assert_is_a_sentence(str(refused.value))
    assert store.count_jobs() == 0
