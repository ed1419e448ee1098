"""Lens standard, film gate, thread starts and witness marks, error budget, witness card."""

from collections.abc import Callable
from functools import partial
from typing import Any, TypeAlias

import streamlit as st

from optics.body.standard.cautions import ADHESIVES
from optics.body.standard.cautions import CAUTIONS as STANDARD_CAUTIONS
from optics.body.witness.wording import CAUTIONS as WITNESS_CAUTIONS
from optics.camera.cautions import Caution
from optics.records.accounts import accounts_of
from optics.records.job import CameraPart
from optics.records.to_bench import camera_of
from optics.relation import Formula
from optics.theory import certainty, gate, helicoid, lens, standard
from ui.answers import answer_panel
from ui.answers.account_panel import account_html
from ui.answers.bench_panel import captions_html
from ui.asking.camera_form import camera_and_task, camera_form, drawer_form
from ui.body.budget_form import budget_form
from ui.body.gate_form import gate_form
from ui.body.standard_form import standard_form
from ui.body.witness_form import witness_form
from ui.depth.card_form import card_form
from ui.depth.sheet_form import SheetWishes
from ui.depth.sheet_panel import show_sheet
from ui.job.answering import found, offer_job_file, offer_text, solved
from ui.school.why import camera_figures, offer_why

_STANDARD, _GATE, _STARTS, _BUDGET, _SHEET = (
    "Lens standard",
    "Film gate",
    "Starts and marks",
    "Error budget",
    "Sheet",
)
_GROUPS = {
    _STANDARD: "Depths from the film rails, seen from the front",
    _GATE: "What was measured",
    _STARTS: "What was found and measured",
    _BUDGET: "What each part adds at the film",
    _SHEET: "The witness card",
}
_CAUTIONS: dict[str, tuple[Caution, ...]] = {
    _STANDARD: STANDARD_CAUTIONS,
    _GATE: (ADHESIVES,),
    _STARTS: WITNESS_CAUTIONS,
    _SHEET: WITNESS_CAUTIONS,
}
_NO_THREAD = (
    "A lens on a bed or struts has no thread: choose a camera with a helicoid or a front cell, or "
    "say how yours focuses."
)
# What the classroom opens at for each answer.
_EXPLAINED: dict[str, Formula] = {
    "standard": standard.lens_tilt.solve_for(standard.image_tilt),
    "gate": gate.emulsion_error.solve_for(lens.focus_error),
    "witness": helicoid.start_shift.solve_for(helicoid.travel),
    "budget": certainty.mean_uncertainty.solve_for(certainty.standard_uncertainty),
}
Show: TypeAlias = Callable[[dict[str, Any], list[str]], None]


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Standard and marks</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        name, task = camera_and_task(_GROUPS, "marks.task")
        st.html(answer_panel.group_html(_GROUPS[task]))
        show_answer = _DRAW[task](name)
        st.html(answer_panel.group_html("The camera"))
        camera = camera_form(name)
        if task in _CAUTIONS:
            st.html(answer_panel.cautions_html(_CAUTIONS[task]))
    with answer:
        show_answer(camera.part, camera.problems)


def _draw_standard(name: str) -> Show:
    form = standard_form(name)
    workshop = drawer_form(name)
    more = {"standard": form.part, "workshop": workshop.part}
    amiss = [*form.problems, *workshop.problems]
    return partial(_show_solved, more, amiss, "standard")


def _draw_gate(name: str) -> Show:
    form = gate_form(name)
    return partial(_show_solved, {"gate": form.part}, form.problems, "gate")


def _draw_starts(name: str) -> Show:
    form = witness_form(name)
    return partial(_show_starts, {"witness": form.part}, form.problems)


def _show_starts(
    more: dict[str, Any], amiss: list[str], camera: dict[str, Any], problems: list[str]
) -> None:
    """A lens without a thread is told so before anything is asked of it."""
    if camera["focusing"]["kind"] == "bed":
        st.html(answer_panel.waiting_html([_NO_THREAD]))
        return
    _show_solved(more, amiss, "witness", camera, problems)


def _draw_budget(name: str) -> Show:
    form = budget_form(name)
    return partial(_show_solved, {"budget": form.part}, form.problems, "budget")


def _draw_sheet(name: str) -> Show:
    return partial(_show_card, card_form(name))


_DRAW: dict[str, Callable[[str], Show]] = {
    _STANDARD: _draw_standard,
    _GATE: _draw_gate,
    _STARTS: _draw_starts,
    _BUDGET: _draw_budget,
    _SHEET: _draw_sheet,
}


def _show_solved(
    more: dict[str, Any],
    amiss: list[str],
    topic: str,
    camera: dict[str, Any],
    problems: list[str],
) -> None:
    """Work the job out and show its answer, or what is still needed."""
    solution = solved({"camera": camera} | more, [*amiss, *problems])
    if solution is None:
        return
    (account,) = accounts_of(solution)
    st.html(account_html(account))
    offer_why(_EXPLAINED[topic], camera_figures(solution.camera), f"why_{topic}")
    offer_job_file(solution)
    with st.expander("What the words mean"):
        st.html(captions_html(topic))
    offer_text(solution)


def _show_card(wishes: SheetWishes, camera: dict[str, Any], problems: list[str]) -> None:
    sheet = found(
        [*wishes.problems, *problems],
        lambda: wishes.draw(camera_of(CameraPart.model_validate(camera))),
    )
    if sheet is not None:
        show_sheet(sheet, "sheet_pdf")
