"""Depth of field, the engraved scale, and sheets to cut out at true size."""

from collections.abc import Callable
from functools import partial
from typing import Any, TypeVar

import streamlit as st
from pydantic import ValidationError

from optics.bench.camera import Camera
from optics.bench.depth_table import DepthTable
from optics.errors import ShimwrightError
from optics.records.files import problem_sentence, write_job
from optics.records.job import FORMAT, VERSION, CameraPart, JobDocument
from optics.records.solve import Solution, solve
from optics.records.to_bench import camera_of
from ui import answer_panel
from ui.camera_form import camera_form, choose_camera
from ui.depth_form import DepthWishes, depth_form, wished_table
from ui.depth_panel import depth_csv, depth_html
from ui.fields import choice
from ui.figures.depth_plot import HEIGHT, depth_plot
from ui.plain_text import solution_text
from ui.scale_form import scale_form
from ui.scale_panel import scale_html
from ui.sheet_form import SheetWishes, sheet_form
from ui.sheet_panel import sheet_html
from ui.theme import palette_in_use

_DEPTH, _SCALE, _PRINT = "Depth of field", "Check an engraved scale", "Print at true size"
_TASKS = {
    _DEPTH: "What the table holds",
    _SCALE: "What was measured",
    _PRINT: "The sheet",
}
_QUIET_CHART = {"displaylogo": False, "modeBarButtonsToRemove": ["lasso2d", "select2d"]}
_PRINT_ADVICE = "Print at 100 %, unscaled, then measure both rulers before you trust it."

Found = TypeVar("Found")


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Depth and scales</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        with st.container(key="choices"):
            first, second = st.columns(2)
        with first:
            name = choose_camera()
        with second:
            task = choice("task", list(_TASKS), "depth.task")
        st.html(answer_panel.group_html(_TASKS[task]))
        show_answer = _draw_task(task, name)
        st.html(answer_panel.group_html("The camera"))
        part, problems = camera_form(name)
    with answer:
        show_answer(part, problems)


def _draw_task(task: str, name: str) -> Callable[[dict[str, Any], list[str]], None]:
    """Draw the task's fields; what then shows its answer for a camera."""
    if task == _DEPTH:
        return partial(_show_depth, name, depth_form(name))
    if task == _SCALE:
        return partial(_show_scale, *scale_form(name))
    return partial(_show_sheet, sheet_form(name))


def _show_depth(name: str, wishes: DepthWishes, part: dict[str, Any], problems: list[str]) -> None:
    table = _found([*wishes.form.problems, *problems], lambda: wished_table(_camera(part), wishes))
    if table is None:
        return
    st.html(depth_html(table, wishes.stop_names, wishes.system))
    _offer_depth(name, table, wishes)


def _offer_depth(name: str, table: DepthTable, wishes: DepthWishes) -> None:
    """The table to carry away, and the plot."""
    stops = wishes.stop_names
    left, right = st.columns([1, 2], vertical_alignment="bottom")
    with left:
        chosen = stops.index(choice("band drawn for", stops, f"{name}.depth.band"))
    right.download_button(
        "Table (CSV)",
        depth_csv(table, table.camera.name, stops, wishes.system).encode("utf-8-sig"),
        file_name="depth.csv",
        mime="text/csv",
        on_click="ignore",
        key="depth_csv",
    )
    figure = depth_plot(table, stops, chosen, palette_in_use(), wishes.system)
    st.plotly_chart(figure, key="depth_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)


def _show_scale(
    scale: dict[str, Any], amiss: list[str], part: dict[str, Any], problems: list[str]
) -> None:
    document = {"format": FORMAT, "version": VERSION, "camera": part, "scale": scale}
    solution = _found([*amiss, *problems], lambda: solve(JobDocument.model_validate(document)))
    if solution is None:
        return
    st.html(scale_html(solution))
    _keep_scale(solution)


def _keep_scale(solution: Solution) -> None:
    """What can be carried away of a scale check."""
    st.download_button(
        "Job file (JSON)",
        write_job(solution.job),
        file_name="job.json",
        mime="application/json",
        on_click="ignore",
        key="scale_job",
    )
    with st.expander("As plain text, to copy"):
        st.code(solution_text(solution), language=None, wrap_lines=True)


def _show_sheet(wishes: SheetWishes, part: dict[str, Any], problems: list[str]) -> None:
    sheet = _found([*wishes.problems, *problems], lambda: wishes.draw(_camera(part)))
    if sheet is None:
        return
    row = st.container(horizontal=True, vertical_alignment="center", key="print")
    row.download_button(
        "Sheet (PDF)",
        sheet.pdf,
        file_name="sheet.pdf",
        mime="application/pdf",
        on_click="ignore",
        key="sheet_pdf",
    )
    row.html(f'<p class="advice">{_PRINT_ADVICE}</p>')
    st.html("".join(sheet_html(sheet.svg(page), page) for page in range(sheet.page_count)))


def _camera(part: dict[str, Any]) -> Camera:
    return camera_of(CameraPart.model_validate(part))


def _found(problems: list[str], work: Callable[[], Found]) -> Found | None:
    """What the work finds; else the page says what stands in its way."""
    if not problems:
        try:
            return work()
        except ValidationError as wrong:
            problems = [problem_sentence(wrong)]
        except ShimwrightError as refusal:
            problems = [str(refusal)]
    st.html(answer_panel.waiting_html(problems))
    return None
