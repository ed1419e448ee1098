"""The record of the open job: as found, done, as left, the decision, and its three sheets."""

from collections.abc import Callable
from datetime import date
from functools import partial
from html import escape

import streamlit as st

from optics.records.files import write_job
from optics.records.job import CameraPart, JobDocument
from optics.records.report import report_of
from optics.records.store import Store
from optics.records.suggested_work import work_asked
from ui.answers import answer_panel
from ui.asking.fields import choice
from ui.job import record_panel
from ui.job.answering import found
from ui.job.from_job import fill
from ui.job.record_draft import RecordDraft, said
from ui.job.record_fields import DONE, PART, PARTS, READINGS
from ui.job.record_form import part_form, taken_form
from ui.job.record_sheets import offer_sheets
from ui.kept.library import known_cameras
from ui.kept.open_job import go_to, open_job


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Record</h1>")
    kept = open_job()
    if kept is None:
        st.html("<p>No job is open: choose one, or book a new one in.</p>")
        if st.button("To the jobs", key="record.to_jobs", type="primary"):
            go_to("Jobs")
        return
    record = RecordDraft(kept)
    collisions = record.settle()
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        with st.container(key="choices"):
            part = choice("part of the record", list(PARTS), PART)
        refusals = _draw_part(record, part)
    with answer:
        if collisions:
            st.html(record_panel.collisions_html(collisions, record.saved_by()))
            row = st.container(horizontal=True, key="settle")
            row.button("Keep what is typed here", on_click=record.keep_mine)
            row.button("Take what was saved there", on_click=record.take_theirs, args=[collisions])
        _offer_saving(record, bool(collisions), refusals)
        _tell(record, refusals)


def _draw_part(record: RecordDraft, part: str) -> list[str]:
    if part == READINGS:
        return _draw_readings(record)
    return part_form(record, part)


def _draw_readings(record: RecordDraft) -> list[str]:
    refusals: list[str] = []
    job = record.kept.job
    for where, taken in (("found", job.found), ("left", job.left)):
        st.html(answer_panel.group_html(f"As {where}"))
        if not taken:
            st.caption(f"Nothing read as {where} yet: take it on the page Correction.")
        refusals += taken_form(record, where, taken)
    st.html(answer_panel.group_html("The camera"))
    st.caption(_said_camera(job))
    _offer_known_camera(record)
    row = st.container(horizontal=True)
    if row.button("Take a reading", key="to_correction"):
        go_to("Correction")
    row.button(
        "Fill the calculators in from this job again",
        key="fill",
        on_click=fill,
        args=[record.kept],
    )
    return refusals


def _offer_known_camera(record: RecordDraft) -> None:
    """Offer the figures that are known of this kind of camera, while the job has none."""
    job, line = record.kept.job, record.kept.line
    if job.camera is not None or not line.camera.strip():
        return
    for place, camera in known_cameras(line.camera, line.number):
        st.button(
            f"Take its figures from {place}",
            key=f"take_{place}",
            on_click=_take_camera,
            args=[record, camera],
        )


def _take_camera(record: RecordDraft, camera: CameraPart) -> None:
    record.change(record.kept.job.model_copy(update={"camera": camera}))
    kept = open_job()
    if kept is not None:
        fill(kept)


def _said_camera(job: JobDocument) -> str:
    if job.camera is None:
        return (
            "Not described yet: fill it in on the page Correction, where this job's camera is "
            "chosen, and put it into the job with its first reading."
        )
    return f"{job.camera.name or 'The camera'}: changed where its readings are worked out."


def _offer_saving(record: RecordDraft, is_blocked: bool, refusals: list[str]) -> None:
    """Save, drop, undo and redo, and whether anything is not saved."""
    count = len(record.mine)
    kept = record.kept
    words = (
        f"Not saved yet: {count} field{'s' * (count != 1)}." if count else "Everything is saved."
    )
    row = st.container(horizontal=True, key="saving", vertical_alignment="center")
    row.button(
        "Save the record",
        key="save",
        type="primary",
        on_click=record.save,
        disabled=not count or is_blocked or bool(refusals),
    )
    if count:
        row.button("Discard changes", key="drop", on_click=record.drop)
    else:
        row.button("Undo", key="undo", on_click=record.undo, disabled=not kept.can_undo)
        row.button("Redo", key="redo", on_click=record.redo, disabled=not kept.can_redo)
    row.html(f"<p class='saved' role='status'>{words} {escape(said())}</p>", width="content")


def _tell(record: RecordDraft, refusals: list[str]) -> None:
    """The record so far, its plan, the sheets, and what earlier jobs taught.

    What the fields in sight refuse is said once; the whole job would refuse it again.
    """
    job = found(refusals, lambda: record.job)
    if job is None:
        return
    report = found([], partial(report_of, job))
    if report is not None:
        st.html(record_panel.record_html(report))
    _fold("Plan", "plan", lambda: _show_plan(record, job))
    if report is not None:
        offer_sheets(record)
    _fold("Earlier jobs on this kind of camera", "learned", lambda: _show_learned(record))
    st.download_button(
        "Job file (JSON)",
        write_job(record.kept.job),
        key="job",
        mime="application/json",
        file_name=f"job-{record.kept.line.number}-{date.today()}.json",
        on_click="ignore",
    )


def _fold(title: str, key: str, draw: Callable[[], None]) -> None:
    """Drawn only while it is unfolded."""
    fold = st.expander(title, key=key, on_change="rerun")
    if fold.open:
        with fold:
            draw()


def _show_plan(record: RecordDraft, job: JobDocument) -> None:
    asked = found([], partial(work_asked, job))
    if asked == []:
        st.caption("No reading is being worked with: put one into the job on Correction.")
    for number, one in enumerate(asked or ()):
        st.markdown(f"**{one.said}**")
        for place, work in enumerate(one.work):
            st.caption(f"{work.title}: {work.instruction}")
            row = {"done": work.instruction, "day": date.today().isoformat()}
            st.button(
                f"Note as done: {work.title.lower()}",
                key=f"done_{number}_{place}",
                on_click=record.append,
                args=[DONE, row],
            )


def _show_learned(record: RecordDraft) -> None:
    camera = record.kept.line.camera
    rows = found([], partial(Store().learned, camera))
    if rows is not None:
        st.html(record_panel.learned_html(camera, rows))
