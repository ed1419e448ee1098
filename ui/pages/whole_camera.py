"""All readings of a camera weighed together: what it is, what cannot be told, and the plan."""

from typing import Any

import streamlit as st

from optics.camera.cautions import SUN
from optics.finding.account import whole_account
from optics.finding.causes import owner_of
from optics.finding.diagnosis import Diagnosis
from optics.finding.diagnosis.reading_wording import movable_faults, would_show_cells
from optics.finding.diagnosis.what_if import what_if
from optics.finding.part import amount_of_fault
from optics.finding.whole import WholeCamera
from optics.records.solve import Solution
from ui.answers import answer_panel
from ui.answers.account_panel import account_html
from ui.answers.bench_panel import table_html
from ui.asking.camera_form import camera_form, choose_camera
from ui.asking.fields import choice, field
from ui.asking.reading_rows import rows_form
from ui.job.answering import found, offer_job_file, offer_text, solved
from ui.job.rows_of_job import offer_rows
from ui.whole_camera.whole_camera_form import beside_form

_HEADS = ("reading", "expected now", "expected then", "at the film")


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Whole camera</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        name = choose_camera()
        other_rows = st.container()
        parts, problems = _entered(name)
        st.html(answer_panel.cautions_html((SUN,)))
    with answer:
        solution = solved(parts, problems)
        if solution is not None and solution.whole is not None:
            _answered(solution, solution.whole)
    with other_rows:
        offer_rows(name, solution.job if solution is not None else None)


def _entered(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw every field; the job as typed, and what stands in the way of an answer."""
    st.html(answer_panel.group_html("What was read, seen from the front"))
    with st.container():
        rows = rows_form(name)
    beside, amiss = beside_form(name, rows.pairs)
    st.html(answer_panel.group_html("The camera"))
    camera = camera_form(name)
    parts = {"camera": camera.part} | rows.parts | beside
    return parts, [*rows.problems, *amiss, *camera.problems]


def _answered(solution: Solution, whole: WholeCamera) -> None:
    """Show the answer; each step carries its own cautions."""
    st.html(account_html(whole_account(whole)))
    offer_job_file(solution)
    moved = st.expander("What if …", key="what_if", on_change="rerun")
    if moved.open:
        with moved:
            _what_if(whole.diagnosis)
    offer_text(solution)


def _what_if(diagnosis: Diagnosis) -> None:
    """One fault moved by what is typed, and every reading with it."""
    faults = {owner_of(name).figures[name]: name for name in movable_faults(diagnosis)}
    left, right = st.columns(2)
    with left:
        fault = faults[choice("part to move", list(faults), "what_if.fault")]
    quantity, usual = amount_of_fault(fault)
    with right:
        entry = field(quantity, f"what_if.{fault}", typed=usual, label="by")
    if entry.is_good:
        amount = float(quantity.read(entry.text).value)
        amount *= diagnosis.priors.step(owner_of(fault)) or 1.0
        would = found([], lambda: what_if(diagnosis, fault, amount))
        if would is not None:
            st.html(table_html(_HEADS, (would_show_cells(one, diagnosis.camera) for one in would)))
