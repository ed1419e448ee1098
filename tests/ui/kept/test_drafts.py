"""What is typed in a browser is kept for that browser, field by field."""

from contextlib import suppress
from pathlib import Path

import pytest

from optics.records.store import Store
from tests.ui.windows import BROWSER, open_window
from ui.kept import drafts


def typed(key: str, text: str) -> None:
    """Type a text into a field that is empty at first, as one run of the page does."""
    with drafts.kept_while_drawn("Correction"):
        drafts.note(key, text, "")


def test_a_new_window_finds_what_was_typed(records: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a reload each field that was changed has its text again, before it is drawn."""
    open_window(monkeypatch)
    typed("mark.sharp_at", "18; 1")
    session = open_window(monkeypatch)
    assert drafts.recall("mark.sharp_at") == "18; 1"
    assert session["mark.sharp_at"] == "18; 1"
    assert drafts.recall("mark.limit") is None


class Told(dict[str, str]):
    """A session that remembers which texts the browser was told, as the page server does."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def __setitem__(self, key: str, text: str) -> None:
        self.told.append(key)
        super().__setitem__(key, text)


def test_a_field_is_told_its_text_once_on_every_page(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On another page a field has the text just typed in it told again, and then no more."""
    open_window(monkeypatch)
    session = Told()
    monkeypatch.setattr(drafts.st, "session_state", session)
    for page, cut_short in (("one", False), ("two", True), ("two", False), ("two", False)):
        with suppress(InterruptedError), drafts.kept_while_drawn(page):
            for key in ("early", "late"):
                drafts.recall(key)
                session.setdefault(key, "18 mm")
                if cut_short:
                    raise InterruptedError
    assert [key for key in session.told if key in ("early", "late")] == ["early", "late"]
    assert session["late"] == "18 mm"


def test_what_stands_there_untouched_is_not_written(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Showing a page writes nothing; changing a field back to what it was at first does."""
    open_window(monkeypatch)
    with drafts.kept_while_drawn("Correction"):
        drafts.note("lead", "18 mm", "18 mm")
    assert records.drafts() == []
    for text in ("12", "18 mm"):
        with drafts.kept_while_drawn("Correction"):
            drafts.note("lead", text, "18 mm")
    assert records.draft(BROWSER) == {"lead": "18 mm"}


def test_two_windows_of_one_browser_keep_each_other_s_fields(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each window writes only the fields changed in it, over whatever the other wrote before."""
    open_window(monkeypatch)
    first = drafts.draft()
    open_window(monkeypatch)
    second = drafts.draft()
    for window, key in ((first, "a"), (second, "b"), (first, "c")):
        window.change(key, "1")
        window.write()
    assert records.draft(BROWSER) == {"a": "1", "b": "1", "c": "1"}


def test_another_browser_sees_nothing_of_it(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A draft belongs to one browser."""
    open_window(monkeypatch)
    typed("a", "1")
    open_window(monkeypatch, "f" * 32)
    assert drafts.recall("a") is None


@pytest.mark.parametrize("name", ["", "x" * 32, "../../etc", "0123"])
def test_without_a_name_of_ours_nothing_is_written(
    name: str, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A browser without our cookie, or with one made up, works and leaves no trace."""
    open_window(monkeypatch, name)
    typed("a", "1")
    assert drafts.draft().texts == {"a": "1"}
    assert records.drafts() == []


def test_a_draft_is_written_although_the_page_was_cut_short(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was typed is kept also where drawing the page failed half-way."""
    open_window(monkeypatch)

    def draw() -> None:
        with drafts.kept_while_drawn("Correction"):
            drafts.note("a", "1", "")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        draw()
    assert records.draft(BROWSER) == {"a": "1"}


def test_records_that_cannot_be_written_are_said_and_nothing_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the store refuses, the page says so, keeps the texts, and writes them later."""
    in_the_way = tmp_path / "a file"
    in_the_way.touch()
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(in_the_way))
    open_window(monkeypatch)
    typed("a", "1")
    assert "not being kept" in drafts.draft().trouble
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path / "new"))
    typed("b", "2")
    assert drafts.draft().trouble == ""
    assert Store().draft(BROWSER) == {"a": "1", "b": "2"}


def test_fields_are_forgotten_by_their_prefix(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Forgetting the fields of job 1 leaves those of job 12."""
    open_window(monkeypatch)
    for key in ("record 1.title", "record 12.title"):
        typed(key, "x")
    with drafts.kept_while_drawn("Correction"):
        drafts.forget("record 1.")
    assert records.draft(BROWSER) == {"record 12.title": "x"}
