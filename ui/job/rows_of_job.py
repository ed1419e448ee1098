"""A job's readings as the rows of the Whole camera page: reading_rows.py the other way round.

Rows of which one was typed are left alone; where they are not the job's, its own are offered.
"""

import streamlit as st

from optics.records.job import JobDocument
from optics.records.store import KeptJob
from ui.asking.reading_rows import next_row, row_texts, rows_of, take_all_away
from ui.kept import drafts
from ui.kept.open_job import job_name, open_job

ROWS = "whole.row"


def offer_rows(name: str, shown: JobDocument | None) -> None:
    """Where the open job holds other readings than those shown of it, say so and offer its own.

    Rows that make no job yet are not the job's either.
    """
    kept = open_job()
    if kept is None or name != job_name(kept.line.number):
        return
    held = _in_any_order(kept.job)
    if held and (shown is None or held != _in_any_order(shown)):
        with st.container(horizontal=True, vertical_alignment="center", key="other_rows"):
            st.html(f"<p class='saved'>{name} holds other readings than these.</p>")
            st.button(
                "Show the job's",
                key="show_rows",
                on_click=show_rows,
                args=[kept],
                help="The rows that stand here can be put back one by one.",
            )


def show_rows(kept: KeptJob) -> None:
    """Put the job's rows in the place of those that were typed; for a callback."""
    name = job_name(kept.line.number)
    texts = row_texts(rows_of(kept.job), ROWS, next_row(name))
    if texts:
        take_all_away(name)
    for key, text in texts.items():
        drafts.put(f"{name}.{key}", text)


def _in_any_order(job: JobDocument) -> list[dict[str, str]]:
    """The rows of a job, each as the texts of its fields, in whichever order they stand."""
    return sorted((row_texts([row], "") for row in rows_of(job)), key=lambda one: [*one.items()])
