"""All jobs: find, book in, open, copy, put away, delete and undo; files, backup, library."""

from collections.abc import Callable
from datetime import date
from html import escape
from typing import Any, get_args

import streamlit as st

from optics.errors import ShimwrightError
from optics.records.intake import CustomerPart, DatesPart, IdentityPart, IntakePart
from optics.records.job import JobDocument
from optics.records.states import State
from optics.records.store import JobLine, Store
from ui.answers import answer_panel
from ui.asking.fields import choice, name_field, plain_field
from ui.job.answering import found
from ui.job.files_form import files_form
from ui.job.from_job import open_here
from ui.job.library_form import library_form
from ui.job.record_draft import said, say
from ui.job.record_fields import PART, PARTS
from ui.kept import drafts
from ui.kept.open_job import WORKER, go_to, job_name, my_store, open_job, set_open

PAGE_SIZE = 20
_ANY = "any state"
_WHICH = {"in work": {}, "archived": {"archived": True}, "deleted": {"deleted": True}}
_NEW = "jobs.new"
_BOOKED_IN = "a job was booked in"
_PLACE = "jobs.place"
_SURE = "to be taken away for good"
_UNDONE = "the job deleted last"


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Jobs</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        st.html(answer_panel.group_html("Find"))
        with st.container(key="find"):
            words = plain_field("words in the job", "jobs.words", hint="all of them, in any field")
            left, right = st.columns(2)
            with left:
                which = choice("which", list(_WHICH), "jobs.which")
            with right:
                state = choice("state", [_ANY, *get_args(State)], "jobs.state")
        st.html(answer_panel.group_html("Book a new job in"))
        _new_form()
        st.html(answer_panel.group_html("This window"))
        name_field("your name, for what is saved here", WORKER, "so that others see who saved what")
        with st.expander("Files, backup and restore", key="files", on_change="rerun") as files:
            if files.open:
                files_form()
        with st.expander("Library", key="library", on_change="rerun") as library:
            if library.open:
                library_form()
    with answer:
        _say()
        _offer_open_job()
        search: dict[str, Any] = {"state": None if state == _ANY else state} | _WHICH[which]
        found([], lambda: _list(words, which, search))


def _say() -> None:
    sentence = said()
    deleted = st.session_state.get(_UNDONE)
    row = st.container(horizontal=True, key="said", vertical_alignment="center")
    if sentence:
        row.html(f"<p class='saved' role='status'>{escape(sentence)}</p>", width="content")
    if deleted is not None:
        row.button(f"Undo: bring {job_name(deleted)} back", on_click=_restore, args=[deleted])


def _new_form() -> None:
    left, right = st.columns(2)
    with left:
        reference = name_field("customer reference", f"{_NEW}.reference", None)
        camera = name_field("camera", f"{_NEW}.camera", None)
    with right:
        name = name_field("customer's name", f"{_NEW}.name", None)
        serial = name_field("serial number", f"{_NEW}.serial", None)
    job = JobDocument(
        intake=IntakePart(
            customer=CustomerPart(reference=reference, name=name),
            identity=IdentityPart(camera=camera, serial=serial),
            dates=DatesPart(received=date.today().isoformat()),
        )
    )
    is_blank = not any((reference, name, camera, serial))
    st.button("Book in", on_click=_book_in, args=[job], disabled=is_blank, type="primary")
    if st.session_state.pop(_BOOKED_IN, False):
        go_to("Record")


def _book_in(job: JobDocument) -> None:
    number = _tried(lambda: my_store().add_job(job))
    if number is not None:
        for name in ("reference", "camera", "name", "serial"):
            drafts.put(f"{_NEW}.{name}", "")
        open_here(number)
        # A new job's record begins at its beginning, wherever the last one was left.
        drafts.put(PART, next(iter(PARTS)))
        st.session_state[_BOOKED_IN] = True


def _offer_open_job() -> None:
    """What can be done with the job that is open."""
    kept = open_job()
    if kept is None:
        return
    number = kept.line.number
    row = st.container(horizontal=True, key="with_open", vertical_alignment="center")
    row.html(f"<p class='saved'><b>{job_name(number)}</b></p>", width="content")
    if row.button("Record", key="to_record"):
        go_to("Record")
    row.button(
        "Copy for another",
        key="copy",
        on_click=_copy,
        args=[number],
        help="A new job with the same camera, without the customer's data",
    )
    away = kept.line.archived is None
    row.button(
        "Archive" if away else "Take out of the archive",
        key="archive",
        on_click=_archive,
        args=[number, away],
    )
    row.button("Delete", key="delete", on_click=_delete, args=[number])
    row.button("Close", key="close", on_click=_close)


def _close() -> None:
    set_open(None)


def _list(words: str, which: str, search: dict[str, Any]) -> None:
    store = Store()
    count = store.count_jobs(words, **search)
    pages = max(1, -(-count // PAGE_SIZE))
    if count == 0:
        is_new = not words.strip() and search == {"state": None} and not store.count_jobs("")
        said = "No job yet: book the first one in." if is_new else "No job is found."
        st.html(f"<p class='quiet'>{said}</p>")
        return
    place = min(_place(words, which, search["state"]), pages - 1)
    for line in store.jobs(words, **search, limit=PAGE_SIZE, offset=place * PAGE_SIZE):
        _job_row(line, which)
    first = place * PAGE_SIZE + 1
    row = st.container(horizontal=True, key="turning", vertical_alignment="center")
    row.html(
        f"<p class='saved' role='status'>{first} to {min(first + PAGE_SIZE - 1, count)} of "
        f"{count}</p>"
    )
    if pages > 1:
        row.button("Back", key="back", disabled=not place, on_click=_turn, args=[place - 1])
        row.button("On", key="on", disabled=place + 1 >= pages, on_click=_turn, args=[place + 1])


def _place(*asked: str | None) -> int:
    """Which page of the list is shown; another search begins at its first."""
    if st.session_state.get("jobs.asked") != asked:
        st.session_state["jobs.asked"], st.session_state[_PLACE] = asked, 0
    return int(st.session_state[_PLACE])


def _turn(place: int) -> None:
    st.session_state[_PLACE] = place


def _job_row(line: JobLine, which: str) -> None:
    row = st.container(horizontal=True, key=f"job_{line.number}", vertical_alignment="center")
    number = line.number
    if which == "deleted":
        row.button(
            f"Bring {number} back", key=f"restore_{number}", on_click=_restore, args=[number]
        )
        is_sure = st.session_state.get(_SURE) == number
        words = f"Yes, nothing of {number} can come back" if is_sure else f"For good: {number}"
        row.button(
            words,
            key=f"purge_{number}",
            on_click=_purge if is_sure else _ask_to_purge,
            args=[number],
        )
    else:
        row.button(f"Open {number}", key=f"open_{number}", on_click=open_here, args=[number])
    row.html(_line_html(line))


def _line_html(line: JobLine) -> str:
    about = (line.serial, line.title, line.state, line.received and f"received {line.received}")
    names = " · ".join(escape(text) for text in (line.camera, line.customer) if text.strip())
    rest = " · ".join(escape(text) for text in about if text.strip())
    return f"<p class='job-line'><b>{names or 'Without a name'}</b><br>{rest}</p>"


def _tried(work: Callable[[], Any]) -> Any:
    """What the work gives; None where it was refused, and the page says why."""
    try:
        return work()
    except ShimwrightError as refusal:
        say(str(refusal))
        return None


def _copy(number: int) -> None:
    copy = _tried(lambda: Store().duplicate_job(number))
    if copy is not None:
        open_here(copy)
        say(f"{job_name(copy)} is a copy of {job_name(number)}, without the customer's data.")


def _archive(number: int, archived: bool) -> None:
    _tried(lambda: Store().archive_job(number, archived))
    say(f"{job_name(number)} is {'in the archive' if archived else 'in work again'}.")


def _delete(number: int) -> None:
    _tried(lambda: Store().delete_job(number))
    st.session_state[_UNDONE] = number
    set_open(None)
    say(f"{job_name(number)} is deleted.")


def _restore(number: int) -> None:
    _tried(lambda: Store().restore_job(number))
    st.session_state.pop(_UNDONE, None)
    open_here(number)
    say(f"{job_name(number)} is back.")


def _ask_to_purge(number: int) -> None:
    st.session_state[_SURE] = number
    say(f"{job_name(number)} would be taken away for good, with every earlier state of it.")


def _purge(number: int) -> None:
    _tried(lambda: Store().purge_job(number))
    st.session_state.pop(_UNDONE, None)
    say(f"{job_name(number)} is gone for good.")
