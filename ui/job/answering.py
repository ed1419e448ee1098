"""From what was typed to an answer, or to what is still needed for one: the same on every page."""

from collections.abc import Callable
from typing import Any, TypeVar

import streamlit as st
from pydantic import ValidationError

from optics.errors import ShimwrightError
from optics.records.files import problem_sentence, write_job
from optics.records.first import FirstSolution, answered
from optics.records.job import FORMAT, VERSION, JobDocument
from optics.records.solve import Solution, solve
from ui.answers import answer_panel
from ui.job.into_job import offer_to_job
from ui.terminal.plain_text import solution_text

Found = TypeVar("Found")


def found(problems: list[str], work: Callable[[], Found]) -> Found | None:
    """What the work finds; else None, and the page says what stands in its way."""
    if not problems:
        try:
            return work()
        except ValidationError as wrong:
            problems = [problem_sentence(wrong)]
        except ShimwrightError as refusal:
            problems = [str(refusal)]
    st.html(answer_panel.waiting_html(problems))
    return None


def answered_so_far(parts: dict[str, Any], problems: list[str]) -> Solution | FirstSolution | None:
    """As `solved`, and where the camera lacks figures, its readings as far as they go alone."""
    document = {"format": FORMAT, "version": VERSION} | parts
    return found(problems, lambda: answered(JobDocument.model_validate(document)))


def solved(parts: dict[str, Any], problems: list[str]) -> Solution | None:
    """The job made of these parts, worked out; else the page says what stands in the way."""
    document = {"format": FORMAT, "version": VERSION} | parts
    return found(problems, lambda: solve(JobDocument.model_validate(document)))


def offer_job_file(solution: Solution) -> None:
    """Buttons that carry the job away as a file, and its result into the job that is open."""
    offer_file(solution.job)
    offer_to_job(solution)


def offer_file(job: JobDocument) -> None:
    """A button that carries the job away as a file."""
    st.download_button(
        "Job file (JSON)",
        write_job(job),
        file_name="job.json",
        mime="application/json",
        on_click="ignore",
        key="job",
    )


def offer_text(solution: Solution | FirstSolution) -> None:
    """The answer in words, to copy; made only while it is unfolded."""
    text = st.expander("As plain text, to copy", key="text", on_change="rerun")
    if text.open:
        text.code(solution_text(solution), language=None, wrap_lines=True)
