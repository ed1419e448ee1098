"""Depth of field, the engraved scale, and sheets to cut out at true size."""

from collections.abc import Callable
from functools import partial
from typing import Any

import streamlit as st

from optics.camera.camera import Camera, FrontCell
from optics.records.accounts import accounts_of
from optics.records.csv_export import csv_text
from optics.records.job import CameraPart
from optics.records.to_bench import camera_of
from optics.scales.depth_account import depth_account, depth_lines
from optics.scales.depth_part import DepthPart, table_of
from optics.scales.depth_table import DepthTable
from optics.theory import scale as scale_theory
from ui.answers import answer_panel
from ui.answers.account_panel import account_html
from ui.asking.camera_form import camera_and_task, camera_form
from ui.asking.fields import choice
from ui.asking.part_form import PartForm
from ui.depth.depth_form import depth_form
from ui.depth.scale_form import scale_form
from ui.depth.sheet_form import SheetWishes, sheet_form
from ui.depth.sheet_panel import show_sheet
from ui.figures.depth_plot import HEIGHT, depth_plot
from ui.job.answering import found, offer_job_file, offer_text, solved
from ui.school.why import camera_figures, offer_why
from ui.theme import palette_in_use

_DEPTH, _SCALE, _PRINT = "Depth of field", "Check an engraved scale", "Print at true size"
_TASKS = {
    _DEPTH: "What the table holds",
    _SCALE: "What was measured",
    _PRINT: "The sheet",
}
_QUIET_CHART = {"displaylogo": False, "modeBarButtonsToRemove": ["lasso2d", "select2d"]}


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Depth and scales</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        name, task = camera_and_task(_TASKS, "depth.task")
        st.html(answer_panel.group_html(_TASKS[task]))
        show_answer = _draw_task(task, name)
        st.html(answer_panel.group_html("The camera"))
        camera = camera_form(name)
    with answer:
        show_answer(camera.part, camera.problems)


def _draw_task(task: str, name: str) -> Callable[[dict[str, Any], list[str]], None]:
    """Draw the task's fields; what then shows its answer for a camera."""
    if task == _DEPTH:
        return partial(_show_depth, name, depth_form(name))
    if task == _SCALE:
        return partial(_show_scale, scale_form(name))
    return partial(_show_sheet, sheet_form(name))


def _show_depth(name: str, form: PartForm, camera: dict[str, Any], problems: list[str]) -> None:
    worked = found([*form.problems, *problems], lambda: _worked_out(form, camera))
    if worked is None:
        return
    part, table = worked
    st.html(account_html(depth_account(part, table)))
    left, right = st.columns([1, 2], vertical_alignment="bottom")
    with left:
        stops = part.stop_names
        chosen = stops.index(choice("band drawn for", stops, f"{name}.depth.band"))
    right.download_button(
        "Table (CSV)",
        csv_text(depth_lines(part, table)).encode("utf-8-sig"),
        file_name="depth.csv",
        mime="text/csv",
        on_click="ignore",
        key="depth_csv",
    )
    figure = depth_plot(table, stops, chosen, palette_in_use(), part.units)
    st.plotly_chart(figure, key="depth_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)
    figures = camera_figures(table.camera) | {
        "f_number": float(table.f_numbers[chosen]),
        "circle_of_confusion": table.circle_of_confusion,
        "object_distance": float(table.object_distances[0]),
        "movement": float(table.moved[0]),
    }
    near, _ = table.camera.depth_of_field_formulas
    offer_why(near, figures, "why_depth")


def _worked_out(form: PartForm, camera: dict[str, Any]) -> tuple[DepthPart, DepthTable]:
    part = DepthPart.model_validate(form.part)
    return part, table_of(part, _camera(camera))


def _show_scale(scale: PartForm, part: dict[str, Any], problems: list[str]) -> None:
    solution = solved({"camera": part, "scale": scale.part}, [*scale.problems, *problems])
    if solution is None:
        return
    (account,) = accounts_of(solution)
    st.html(account_html(account))
    is_cell = isinstance(solution.camera.focusing, FrontCell)
    relation = scale_theory.cell_scale_mark if is_cell else scale_theory.scale_mark
    offer_why(
        relation.solve_for(scale_theory.mark_angle), camera_figures(solution.camera), "why_scale"
    )
    offer_job_file(solution)
    offer_text(solution)


def _show_sheet(wishes: SheetWishes, part: dict[str, Any], problems: list[str]) -> None:
    sheet = found([*wishes.problems, *problems], lambda: wishes.draw(_camera(part)))
    if sheet is None:
        return
    show_sheet(sheet, "sheet_pdf")


def _camera(part: dict[str, Any]) -> Camera:
    return camera_of(CameraPart.model_validate(part))
