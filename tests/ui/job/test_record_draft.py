"""Two windows on one record, without a browser."""

from dataclasses import replace
from typing import Any

import pytest
import streamlit as st

from optics.records.job import JobDocument
from optics.records.store import Store
from tests.ui.windows import open_window
from ui.job.record_draft import RecordDraft, said
from ui.kept import drafts
from ui.kept.open_job import open_job, set_open

NAME, SERIAL = "intake.customer.name", "intake.identity.serial"


@pytest.fixture
def number(records: Store) -> int:
    """A job that was booked in."""
    return records.add_job(JobDocument(title="shutter and focus"))


def window(patch: pytest.MonkeyPatch, number: int, browser: str) -> dict[str, Any]:
    """Open the job in a browser and look at its record."""
    session = open_window(patch, browser * 32)
    set_open(number)
    record().settle()
    return session


def record() -> RecordDraft:
    """The record as the window that is in front sees it."""
    kept = open_job()
    assert kept is not None
    return RecordDraft(kept)


def type_in(path: str, text: str) -> None:
    """Type into a field of the record."""
    key = record().key(path)
    st.session_state[key] = text
    drafts.note(key, text, record().texts.get(path, ""))


def front(patch: pytest.MonkeyPatch, session: dict[str, Any]) -> list[Any]:
    """Bring a window to the front and run its page; the collisions it shows."""
    patch.setattr(st, "session_state", session)
    number = record().kept.line.number
    set_open(number)
    return record().settle()


def test_what_is_typed_is_saved_and_then_no_longer_a_draft(
    number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Saving makes one revision of all that was typed, and leaves nothing to save."""
    window(monkeypatch, number, "a")
    type_in(NAME, "Zoë")
    assert record().mine == {NAME: "Zoë"}
    record().save()
    assert said() == f"Job {number} is saved."
    assert record().mine == {}
    intake = records.job(number).job.intake
    assert intake is not None
    assert intake.customer.name == "Zoë"


def test_different_fields_of_two_windows_are_both_kept(
    number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A window that saves last changes only what was typed in it, and shows the rest anew."""
    one = window(monkeypatch, number, "a")
    type_in(NAME, "Zoë")
    other = window(monkeypatch, number, "b")
    type_in(SERIAL, "41 207")
    record().save()
    assert other
    assert front(monkeypatch, one) == []
    record().save()
    intake = records.job(number).job.intake
    assert intake is not None
    assert (intake.customer.name, intake.identity.serial) == ("Zoë", "41 207")


@pytest.mark.parametrize("keep_mine", [True, False])
def test_one_field_of_two_windows_is_asked_about(
    keep_mine: bool, number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second to save is shown both texts, and the one that is chosen is saved."""
    one = window(monkeypatch, number, "a")
    type_in(NAME, "Zoë")
    window(monkeypatch, number, "b")
    type_in(NAME, "Zoe A.")
    record().save()
    found = front(monkeypatch, one)
    assert [(c.before, c.here, c.there) for c in found] == [("", "Zoë", "Zoe A.")]
    assert front(monkeypatch, one) == found
    if keep_mine:
        record().keep_mine()
    else:
        record().take_theirs(found)
    assert front(monkeypatch, one) == []
    record().save()
    intake = records.job(number).job.intake
    assert intake is not None
    assert intake.customer.name == ("Zoë" if keep_mine else "Zoe A.")


def test_a_save_that_comes_between_is_not_covered_up(
    number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A record saved elsewhere after this window was drawn refuses to be saved over."""
    window(monkeypatch, number, "a")
    type_in(NAME, "Zoë")
    drawn = record()
    replace(records, by="Mira").save_job(number, JobDocument(title="saved elsewhere"))
    drawn.save()
    assert "saved elsewhere by Mira since it was opened" in said()
    assert records.job(number).job == JobDocument(title="saved elsewhere")


def test_a_row_is_appended_after_those_typed(
    number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each further row of work stands after what is there, saved or only typed."""
    window(monkeypatch, number, "a")
    for text in ("cleaned", "greased"):
        record().append("work.done", {"done": text})
    record().save()
    work = records.job(number).job.work
    assert work is not None
    assert [one.done for one in work.done] == ["cleaned", "greased"]


def test_dropping_brings_back_what_is_kept(
    number: int, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was typed and dropped is gone from the field and from the draft."""
    session = window(monkeypatch, number, "a")
    type_in("title", "something else")
    record().drop()
    assert session[record().key("title")] == "shutter and focus"
    assert record().mine == {}
