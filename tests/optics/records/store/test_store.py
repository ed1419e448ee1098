"""The store as the pages use it: nothing typed is lost, and every step can be taken back."""

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from optics.errors import NotKept, ShimwrightError, Unreadable
from optics.records.files import write_job
from optics.records.store import Store
from tests.optics.records.jobs import READINGS, record
from tests.optics.records.store.conftest import document, titled


def everything(store: Store) -> list[Any]:
    """Return what a store shows of its jobs."""
    lines = store.jobs() + store.jobs(archived=True) + store.jobs(deleted=True)
    return [(store.job(line.number).line, store.export_job(line.number)) for line in lines]


def test_a_kept_job_comes_back_byte_for_byte(store: Store) -> None:
    """A job with everything written down comes back as it was typed, in every text."""
    job = document(record())
    number = store.add_job(job)
    assert store.job(number).job == job
    assert store.export_job(number).decode() == write_job(job)
    again = store.import_job(store.export_job(number))
    assert store.export_job(again) == store.export_job(number)


@settings(max_examples=40, deadline=None)
@given(title=st.text(max_size=200), note=st.text(max_size=400))
def test_any_writing_comes_back(shared_store: Store, title: str, note: str) -> None:
    """Any text at all, unprintable signs too, comes back as it was typed, or is refused."""
    typed = record(title=title)
    typed["intake"]["condition"]["note"] = note
    try:
        number = shared_store.add_job(document(typed))
    except ShimwrightError:
        assert any(0xD800 <= ord(c) < 0xE000 for c in title + note)
        return
    kept = shared_store.job(number).job
    assert kept.intake is not None
    assert (kept.title, kept.intake.condition.note) == (title, note)


def test_a_line_shows_what_a_list_needs(store: Store) -> None:
    """A list shows customer, camera, serial, days and state, and text where nothing was given."""
    line = store.job(store.add_job(document(record()))).line
    assert (line.customer, line.serial, line.state) == ("Zoë Ångström", "No 41 207", "finished")
    assert (line.received, line.finished) == ("2026-03-02", "2026-03-06")
    assert line.camera == "Ostrin 35 — the “grey” one"
    bare = store.job(store.add_job(document({"format": "shimwright job", "version": 1}))).line
    assert (bare.customer, bare.camera, bare.received, bare.state) == ("", "", "", "booked in")


def test_every_save_keeps_a_revision(store: Store) -> None:
    """Saving keeps what was there before; saving the same again keeps nothing new."""
    number = store.add_job(titled("one"))
    assert store.save_job(number, titled("two")) == 2
    assert store.save_job(number, titled("two")) == 2
    assert [(r.number, r.is_current) for r in store.job_revisions(number)] == [
        (2, True),
        (1, False),
    ]
    assert store.job_at(number, 1).title == "one"


def test_undo_and_redo_walk_through_the_revisions(store: Store) -> None:
    """Undo goes back to the first state and stops, redo goes on to the last and stops."""
    number = store.add_job(titled("one"))
    for title in ("two", "three"):
        store.save_job(number, titled(title))
    assert [store.undo_job(number).job.title for _ in range(3)] == ["two", "one", "one"]
    assert not store.job(number).can_undo
    assert store.jobs("one")[0].title == "one"
    assert [store.redo_job(number).job.title for _ in range(3)] == ["two", "three", "three"]
    assert not store.job(number).can_redo


def test_saving_after_an_undo_loses_nothing(store: Store) -> None:
    """What was undone and then written over is still among the revisions."""
    number = store.add_job(titled("one"))
    store.save_job(number, titled("two"))
    store.undo_job(number)
    store.save_job(number, titled("other"))
    assert store.undo_job(number).job.title == "one"
    assert store.redo_job(number).job.title == "other"
    titles = [store.job_at(number, r.number).title for r in store.job_revisions(number)]
    assert titles == ["other", "two", "one"]


def test_a_job_saved_elsewhere_is_not_covered_up(store: Store) -> None:
    """A save that began from an older state is refused in a sentence, and changes nothing."""
    number = store.add_job(titled("one"))
    opened = store.job(number).revision
    store.save_job(number, titled("theirs"), based_on=opened)
    with pytest.raises(NotKept, match=r"^The job 1 was saved elsewhere since it was opened"):
        store.save_job(number, titled("mine"), based_on=opened)
    assert store.job(number).job.title == "theirs"


def test_a_deleted_job_can_be_restored(store: Store) -> None:
    """A deleted job leaves the list, is found among the deleted, and comes back whole."""
    number = store.add_job(titled("one"))
    store.save_job(number, titled("two"))
    store.delete_job(number)
    assert store.jobs() == []
    assert [line.number for line in store.jobs(deleted=True)] == [number]
    store.restore_job(number)
    assert [line.number for line in store.jobs()] == [number]
    assert store.undo_job(number).job.title == "one"


def test_only_a_deleted_job_is_purged_and_then_without_trace(store: Store) -> None:
    """A purged job is gone from the file to the last byte, and its number is not given again."""
    number = store.add_job(titled("a name nobody else has"))
    with pytest.raises(NotKept, match="must be deleted before"):
        store.purge_job(number)
    store.delete_job(number)
    store.purge_job(number)
    with pytest.raises(Unreadable, match=f"There is no job {number}"):
        store.job(number)
    files = list(store.path.parent.iterdir())
    assert all(b"a name nobody" not in file.read_bytes() for file in files)
    assert store.add_job(titled("next")) == number + 1


def test_an_archived_job_is_out_of_the_way_but_there(store: Store) -> None:
    """An archived job is found among the archived alone, until it is taken back."""
    number = store.add_job(titled("one"))
    store.archive_job(number)
    assert (store.count_jobs(), store.count_jobs(archived=True)) == (0, 1)
    store.archive_job(number, False)
    assert (store.count_jobs(), store.count_jobs(archived=True)) == (1, 0)


def test_a_duplicate_knows_nothing_of_the_customer(store: Store) -> None:
    """A duplicate has camera, trays and instruments, and nothing that belongs to one customer."""
    first = store.job(store.add_job(document(record()))).job
    copy = store.job(store.duplicate_job(1)).job
    assert (copy.camera, copy.trays, copy.readings) == (first.camera, first.trays, first.readings)
    assert copy.work is not None
    assert first.work is not None
    assert copy.work.instruments == first.work.instruments
    assert copy.intake is not None
    assert copy.intake.identity.camera == "Ostrin 35"
    text = write_job(copy)
    for private in (
        "Zoë",
        "LS-0147",
        "by post",
        "41 207",
        "88-1123",
        "W.H.",
        "2026-03",
        "IMG_",
        "soft at a distance",
        "scribe",
        "R. Vane",
    ):
        assert private not in text
    assert (copy.found, copy.left, copy.work.state) == ((), (), "booked in")


@pytest.mark.parametrize(
    "call",
    [
        Store.job,
        Store.job_revisions,
        Store.undo_job,
        Store.redo_job,
        Store.duplicate_job,
        Store.archive_job,
        Store.delete_job,
        Store.restore_job,
        Store.purge_job,
        Store.export_job,
    ],
    ids=lambda call: call.__name__,
)
def test_a_number_that_is_not_there_is_one_sentence(
    call: Callable[[Store, int], Any], store: Store
) -> None:
    """Whatever is asked of a job that is not there is refused with its number."""
    with pytest.raises(Unreadable, match=r"^There is no job 7: list what there is"):
        call(store, 7)
    with pytest.raises(Unreadable, match=r"^There is no job -1"):
        call(store, -1)


def test_a_job_too_large_to_be_read_again_is_not_kept(store: Store) -> None:
    """A job that would be too large for its own file is refused, and nothing is kept of it."""
    done = [{"done": "n" * 4000, "quantity": str(n)} for n in range(200)]
    trays = [{"part": str(n), "note": "n" * 4000} for n in range(200)]
    with pytest.raises(ShimwrightError, match=r"A job may take at most 1,000,000 bytes: got 1,"):
        store.add_job(document_unchecked(record(work={"done": done}, trays=trays)))
    assert everything(store) == []


def document_unchecked(typed: dict[str, Any]) -> Any:
    """Read a job that is too large for a file."""
    from optics.records.job import JobDocument

    return JobDocument.model_validate_json(json.dumps(typed))


def test_a_store_makes_its_folder(tmp_path: Path) -> None:
    """A store in a folder that is not there makes it at first use, for its owner alone."""
    store = Store(tmp_path / "a" / "b" / "records.sqlite")
    assert store.jobs() == []
    assert (tmp_path / "a" / "b").stat().st_mode & 0o077 == 0


class Walk(RuleBasedStateMachine):
    """Saves, undoes, redoes, deletes and restores at random, beside a list that does the same."""

    folder: Path
    count = 0

    def __init__(self) -> None:
        super().__init__()
        type(self).count += 1
        self.store = Store(self.folder / f"walk {self.count}.sqlite")
        self.number = self.store.add_job(titled("0"))
        self.past, self.future, self.is_deleted, self.saved = ["0"], [], False, 0

    @rule()
    def save(self) -> None:
        """Save something new."""
        self.saved += 1
        self.store.save_job(self.number, titled(str(self.saved)))
        self.past, self.future = [*self.past, str(self.saved)], []

    @rule()
    def undo(self) -> None:
        """Step back."""
        self.store.undo_job(self.number)
        if len(self.past) > 1:
            self.future.append(self.past.pop())

    @precondition(lambda self: self.future)
    @rule()
    def redo(self) -> None:
        """Step forward."""
        self.store.redo_job(self.number)
        self.past.append(self.future.pop())

    @rule()
    def delete_or_restore(self) -> None:
        """Delete, or take that back."""
        change = self.store.restore_job if self.is_deleted else self.store.delete_job
        change(self.number)
        self.is_deleted = not self.is_deleted

    @invariant()
    def is_as_it_should_be(self) -> None:
        """The job is where the list is, and no revision was ever lost."""
        assert self.store.job(self.number).job.title == self.past[-1]
        assert self.store.job(self.number).can_undo == (len(self.past) > 1)
        assert len(self.store.job_revisions(self.number)) == self.saved + 1
        assert self.store.count_jobs(deleted=True) == self.is_deleted


def test_any_walk_through_the_revisions_ends_where_it_should(tmp_path: Path) -> None:
    """However one saves, undoes, redoes, deletes and restores, the job is the one expected."""
    Walk.folder = tmp_path
    walk = Walk.TestCase()
    walk.settings = settings(max_examples=8, stateful_step_count=12, deadline=None)
    walk.runTest()


def test_readings_taken_as_found_and_as_left_are_kept_apart(store: Store) -> None:
    """Readings as found and as left, and those being worked with, each stay in their own list."""
    kept = store.job(store.add_job(document(record()))).job
    assert [len(kept.readings), len(kept.found), len(kept.left)] == [1, 2, 1]
    assert kept.readings[0].model_dump(exclude_unset=True) == READINGS[0]


def test_each_revision_says_who_saved_it(store: Store) -> None:
    """A revision bears the name of who saved it; saving nothing new takes no name away."""
    number = replace(store, by="Zoë").add_job(titled("a"))
    replace(store, by="Mira").save_job(number, titled("b"))
    replace(store, by="somebody").save_job(number, titled("b"))
    assert [one.author for one in store.job_revisions(number)] == ["Mira", "Zoë"]
    with pytest.raises(NotKept, match="saved elsewhere by Mira since"):
        store.save_job(number, titled("c"), based_on=1)


def test_a_kind_of_camera_is_known_from_the_last_job_that_describes_it(store: Store) -> None:
    """The job changed last that has the camera's figures is found, and never the one that asks."""
    first = store.add_job(document(record()))
    kind = store.job(first).line.camera
    asking = store.add_job(document(record(title="asks")))
    found = store.described_before(kind.upper(), asking)
    assert found is not None
    assert found.line.number == first
    store.delete_job(first)
    assert store.described_before(kind, asking) is None
