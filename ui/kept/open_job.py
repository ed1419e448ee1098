"""The job that is open at this browser, and the quiet line that says so on every page."""

from html import escape
from typing import Any

import streamlit as st

from optics.errors import ShimwrightError
from optics.records.store import KeptJob, Store
from ui.kept import drafts

WORKER = "jobs.worker"
_NUMBER = "open job"
_NOW = "the open job"
_PAGES = "the pages"


def my_store() -> Store:
    """The records, for saving: signed with the name given at this window."""
    return Store(by=drafts.draft().texts.get(WORKER, "").strip())


def job_name(number: int) -> str:
    """How a job is called in a choice; its fields' keys begin with it."""
    return f"Job {number}"


def open_job() -> KeptJob | None:
    """The job that is open, as it was when this run of the page began."""
    found: KeptJob | None = st.session_state.get(_NOW)
    return found


def set_open(number: int | None) -> KeptJob | None:
    """Open a job, or with None close the one that is open; the job."""
    drafts.draft().change(_NUMBER, None if number is None else str(number))
    return look_again()


def look_again() -> KeptJob | None:
    """Read the open job from the store; a job that was deleted is no longer open."""
    number = drafts.draft().texts.get(_NUMBER)
    st.session_state[_NOW] = _living(int(number)) if number else None
    return open_job()


def _living(number: int) -> KeptJob | None:
    try:
        kept = Store().job(number)
    except ShimwrightError:
        return None
    return kept if kept.line.deleted is None else None


def said_job(kept: KeptJob) -> str:
    """The job in a few words: number, reference, whose or what it is, camera."""
    customer = kept.job.intake.customer if kept.job.intake else None
    reference, name = (customer.reference, customer.name) if customer else ("", "")
    words = (job_name(kept.line.number), reference, name or kept.job.title, kept.line.camera)
    return " · ".join(word.strip() for word in words if word.strip())


def strip(pages: dict[str, Any], shown: str) -> None:
    """Say on every page which job is open, and lead to it; `shown` is the page's title."""
    st.session_state[_PAGES] = pages
    kept, trouble = look_again(), drafts.draft().trouble
    with st.container(horizontal=True, key="open_job", gap="small"):
        said = "No job open" if kept is None else f"<b>Open:</b> {escape(said_job(kept))}"
        st.html(f"<p class='open-job'>{said}</p>")
        title, label = ("Jobs", "Choose one") if kept is None else ("Record", "Its record")
        if shown != title:
            st.page_link(pages[title], label=label)
        if trouble:
            st.html(f"<p class='open-job trouble' role='alert'>{escape(trouble)}</p>")


def go_to(title: str) -> None:
    """Show another page."""
    st.switch_page(st.session_state[_PAGES][title])
