"""The record of the open job in this browser: what is typed and not saved, and saving it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

import streamlit as st
from pydantic import ValidationError

from optics.errors import ShimwrightError
from optics.records.files import problem_sentence
from optics.records.job import JobDocument
from optics.records.store import KeptJob, Store
from ui.job.record_changes import Collision, Texts, changed, collisions, flat, with_changes
from ui.kept import drafts
from ui.kept.open_job import look_again, my_store

_BASE = "began at revision"
_SAID = "said of the record"


@dataclass(frozen=True)
class RecordDraft:
    """A kept job and what was typed on it here."""

    kept: KeptJob

    @property
    def prefix(self) -> str:
        """What the keys of the record's fields begin with."""
        return f"{self.root}."

    @property
    def root(self) -> str:
        """The job itself, as a key."""
        return f"record {self.kept.line.number}"

    @cached_property
    def texts(self) -> Texts:
        """The texts as they are kept."""
        return flat(self.kept.job)

    @property
    def mine(self) -> Texts:
        """The texts that were typed and are not saved."""
        typed = drafts.draft().under(self.prefix)
        typed.pop(_BASE, None)
        return changed(typed, self.texts)

    def key(self, path: str) -> str:
        """The key of a field."""
        return self.prefix + path

    def rows(self, path: str) -> int:
        """How many rows of a kind there are, kept or typed."""
        start = f"{path}."
        paths = (*self.texts, *(p for p, text in self.mine.items() if text.strip()))
        numbers = (p.removeprefix(start).split(".")[0] for p in paths if p.startswith(start))
        return max((int(number) + 1 for number in numbers), default=0)

    @property
    def job(self) -> JobDocument:
        """The job as it would be saved now."""
        return with_changes(self.kept.job, self.mine)

    def settle(self) -> list[Collision]:
        """Bring the fields in line with what is kept; what was typed here stays.

        Returns the texts that were changed both here and elsewhere, to be settled by hand.
        """
        number, revision = self.kept.line.number, self.kept.revision
        seen = st.session_state.get(self.key("seen"), revision)
        mine = self.mine
        if seen != revision:
            self._show_kept(but=mine)
        st.session_state[self.key("seen")] = revision
        began = int(drafts.draft().texts.get(self.key(_BASE), seen))
        found: list[Collision] = []
        if mine and began != revision:
            found = collisions(mine, flat(Store().job_at(number, began)), self.texts)
        if mine:
            self._begin_at(began if found else revision)
        return found

    def saved_by(self) -> str:
        """When and by whom the present revision was saved, in words."""
        revisions = Store().job_revisions(self.kept.line.number)
        now = next(one for one in revisions if one.is_current)
        time = datetime.fromisoformat(now.saved).astimezone().strftime("%Y-%m-%d %H:%M")
        return f"{time} by {now.author}" if now.author else time

    def _begin_at(self, revision: int) -> None:
        key, text = self.key(_BASE), str(revision)
        if drafts.draft().texts.get(key) != text:
            drafts.draft().change(key, text)

    def _show_kept(self, but: Texts) -> None:
        for key in [str(key) for key in st.session_state]:
            path = key.removeprefix(self.prefix)
            if key.startswith(self.prefix) and path not in (*but, "seen"):
                st.session_state[key] = self.texts.get(path, "")

    def append(self, path: str, texts: Texts) -> None:
        """Write one more row, as if it had been typed; for a callback."""
        number = self.rows(path)
        for name, text in texts.items():
            drafts.put(self.key(f"{path}.{number}.{name}"), text)

    def save(self) -> None:
        """Save what was typed; for a callback."""
        number = self.kept.line.number
        done = _tried(lambda: my_store().save_job(number, self.job, based_on=self.kept.revision))
        if done:
            drafts.forget(self.prefix)
            say(f"Job {number} is saved.")

    def keep_mine(self) -> None:
        """Settle collisions: what was typed here shall be saved over the other."""
        self._begin_at(self.kept.revision)

    def take_theirs(self, found: list[Collision]) -> None:
        """Settle collisions: what was saved elsewhere stands, what was typed here goes."""
        for one in found:
            drafts.draft().change(self.key(one.path), None)
            st.session_state[self.key(one.path)] = one.there

    def drop(self) -> None:
        """Forget what was typed and is not saved; for a callback."""
        drafts.forget(self.prefix)
        self._show_kept(but={})

    def change(self, job: JobDocument) -> None:
        """Save the kept job in another state, apart from what is typed; for a callback."""
        number, revision = self.kept.line.number, self.kept.revision
        _tried(lambda: my_store().save_job(number, job, based_on=revision))

    def undo(self) -> None:
        """Step back one revision; for a callback."""
        _tried(lambda: Store().undo_job(self.kept.line.number))

    def redo(self) -> None:
        """Step forward again; for a callback."""
        _tried(lambda: Store().redo_job(self.kept.line.number))


def say(text: str) -> None:
    """Have a sentence shown once on the next drawing of the page."""
    st.session_state[_SAID] = text


def said() -> str:
    """The sentence to show, once."""
    return str(st.session_state.pop(_SAID, ""))


def _tried(work: Callable[[], object]) -> bool:
    try:
        work()
    except ValidationError as wrong:
        say(problem_sentence(wrong))
        return False
    except ShimwrightError as refusal:
        say(str(refusal))
        return False
    look_again()
    return True
