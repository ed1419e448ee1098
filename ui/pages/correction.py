"""The opening page: lens and measured error in, correction out."""

from datetime import date
from functools import partial
from typing import Any

import streamlit as st

from optics.camera.cautions import SUN
from optics.readings.correction import Correction
from optics.readings.directions import Direction
from optics.readings.readings import Step
from optics.records.first import FirstSolution, told_of_all
from optics.records.solve import Answer, Solution
from optics.sheets.note import correction_note
from ui.answers import answer_panel
from ui.answers.account_panel import account_html
from ui.asking.camera_form import camera_form, choose_camera, workshop_form
from ui.asking.reading_form import choose_reading, reading_form
from ui.job.answering import answered_so_far, offer_file, offer_job_file, offer_text
from ui.school.why import offer_why


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Correction</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        parts, problems = _entered()
        care = st.empty()
    with answer:
        found = _answered(parts, problems)
    care.html(answer_panel.cautions_html(found.cautions if found else (SUN,)))


def _entered() -> tuple[dict[str, Any], list[str]]:
    """Draw every field; the job as typed, and what stands in the way of an answer."""
    with st.container(key="choices"):
        first, second = st.columns(2)
    with first:
        name = choose_camera()
    with second:
        kind = choose_reading(name)
    st.html(answer_panel.group_html("What was measured"))
    reading, reading_problems = reading_form(name, kind)
    st.html(answer_panel.group_html("The camera"))
    camera = camera_form(name, needs_all=False)
    st.html(answer_panel.group_html("Shims at hand"))
    workshop = workshop_form(name)
    parts = {"camera": camera.part, "workshop": workshop.part, "readings": [reading]}
    return parts, [*reading_problems, *camera.problems, *workshop.problems]


def _answered(parts: dict[str, Any], problems: list[str]) -> Correction | None:
    """Show the answer, or what is still needed; the correction if there is one."""
    solution = answered_so_far(parts, problems)
    if solution is None:
        return None
    (account,) = told_of_all(solution)
    st.html(account_html(account))
    if isinstance(solution, FirstSolution):
        with st.container(horizontal=True, key="keep"):
            offer_file(solution.job)
        offer_text(solution)
        return None
    (answer,) = solution.answers
    _keep(solution, answer)
    _explain(solution, answer)
    return None if isinstance(answer, Direction) else answer


def _keep(solution: Solution, answer: Answer) -> None:
    """What can be carried away."""
    row = st.container(horizontal=True, key="keep")
    if not isinstance(answer, Direction):
        row.download_button(
            "One-page note (PDF)",
            partial(
                correction_note,
                answer,
                title=solution.camera.name or "Correction",
                reading_title=solution.job.readings[0].title,
                made=date.today(),
            ),
            file_name="correction.pdf",
            mime="application/pdf",
            on_click="ignore",
            key="note",
        )
    with row:
        offer_job_file(solution)


def _explain(solution: Solution, answer: Answer) -> None:
    """Working and text to copy; made only while they are unfolded."""
    if not isinstance(answer, Direction):
        working = st.expander("Show the working", key="working", on_change="rerun")
        if working.open:
            with working:
                for number, step in enumerate(answer.steps):
                    _show_step(step, number)
    offer_text(solution)


def _show_step(step: Step, number: int) -> None:
    relation = step.formula.relation
    with st.container(horizontal=True, vertical_alignment="center"):
        st.caption(relation.answers, width="content")
        figures = {name: estimate.value for name, estimate in step.inputs.items()}
        offer_why(step.formula, figures, f"why_{number}")
    for line in step.working():
        st.latex(line)
    st.caption(f"Source: {relation.source}. Limits: {relation.limits}")
