"""Jobs as files: one or all out and in, and the whole of the records as a backup."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import streamlit as st

from optics.errors import ShimwrightError
from optics.records.store import Store
from ui.job.record_draft import say
from ui.kept.open_job import set_open

_JSON_OR_ZIP = ("json", "zip")


def files_form() -> None:
    """Draw what gives files and what takes them."""
    row = st.container(horizontal=True)
    row.download_button(
        "All jobs and the library (ZIP)",
        _all_jobs,
        file_name=f"jobs-{date.today()}.zip",
        mime="application/zip",
        key="export_all",
        on_click="ignore",
    )
    row.download_button(
        "Backup of everything",
        _backup,
        file_name=f"records-{date.today()}.sqlite",
        mime="application/vnd.sqlite3",
        key="backup",
        on_click="ignore",
    )
    taken = st.file_uploader("A job file, or a ZIP of jobs, to take in", _JSON_OR_ZIP, key="take")
    if taken is not None:
        st.button("Take it in", key="take_in", on_click=_take_in, args=[taken.getvalue()])
    st.caption("What is here stays; what is here already is not doubled.")
    backup = st.file_uploader("A backup to put in place of the records", "sqlite", key="put")
    if backup is not None:
        st.caption(
            "Every job here is replaced by those of the backup, at every window that is open. "
            "The records as they are now are kept beside it, under another name."
        )
        st.button(
            "Put the backup in place", key="restore", on_click=_restore, args=[backup.getvalue()]
        )
    st.caption("Larger files than 64 MB: with the commands “shimwright jobs import” and “restore”.")


def _written(write: Callable[[Path], object], name: str) -> bytes:
    """What is in the file that the store writes."""
    with TemporaryDirectory() as folder:
        file = Path(folder, name)
        write(file)
        return file.read_bytes()


def _all_jobs() -> bytes:
    return _written(Store().export_all, "jobs.zip")


def _backup() -> bytes:
    return _written(Store().back_up, "records.sqlite")


def _take_in(data: bytes) -> None:
    try:
        say(_taken(data))
    except ShimwrightError as refusal:
        say(str(refusal))


def _taken(data: bytes) -> str:
    if data[:2] != b"PK":
        return f"Taken in as Job {Store().import_job(data)}."
    with TemporaryDirectory() as folder:
        file = Path(folder, "jobs.zip")
        file.write_bytes(data)
        done = Store().import_all(file)
    return f"{done.jobs} jobs and {done.items} library items taken in; {done.already} were here."


def _restore(data: bytes) -> None:
    try:
        with TemporaryDirectory() as folder:
            file = Path(folder, "records.sqlite")
            file.write_bytes(data)
            aside = Store().restore(file)
    except ShimwrightError as refusal:
        say(str(refusal))
        return
    set_open(None)
    kept = f" The records before it are kept in {aside}." if aside else ""
    say(f"The backup is checked and in place.{kept}")
