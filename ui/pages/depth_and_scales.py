"""Depth of field, the engraved scale, and sheets to cut out at true size."""

from typing import Any

import streamlit as st
from pydantic import ValidationError

from optics.bench.camera import Camera
from optics.errors import ShimwrightError
from optics.records.files import problem_sentence
from optics.records.job import FORMAT, VERSION, CameraPart, JobDocument
from optics.records.solve import solve
from optics.records.to_bench import camera_of
from ui import answer_panel
from ui.camera_form import camera_form, choose_camera
from ui.depth_form import DepthWishes, depth_form, wished_table
from ui.depth_panel import depth_csv, depth_html
from ui.fields import choice
from ui.figures.depth_plot import depth_plot
from ui.scale_form import scale_form
from ui.scale_panel import scale_html
from ui.theme import palette_in_use

_DEPTH, _SCALE = "Depth of field", "Check an engraved scale"


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Depth and scales</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        first, second = st.columns(2)
        with first:
            name = choose_camera()
        with second:
            task = choice("task", [_DEPTH, _SCALE], "depth.task")
        if task == _DEPTH:
            wishes = depth_form(name)
        else:
            scale, scale_problems = scale_form(name)
        camera, problems = camera_form(name)
    with answer:
        if task == _DEPTH:
            _show_depth(name, camera, wishes, [*wishes.form.problems, *problems])
        else:
            _show_scale(camera, scale, [*scale_problems, *problems])


def _show_depth(name: str, part: dict[str, Any], wishes: DepthWishes, problems: list[str]) -> None:
    camera = _camera(part, problems)
    if camera is None:
        st.html(answer_panel.waiting_html(problems))
        return
    try:
        table = wished_table(camera, wishes)
    except ShimwrightError as refusal:
        st.html(answer_panel.waiting_html([str(refusal)]))
        return
    stops = wishes.stop_names
    st.html(depth_html(table, stops, wishes.system))
    left, right = st.columns([1, 2], vertical_alignment="bottom")
    with left:
        chosen = stops.index(choice("band drawn for", stops, f"{name}.depth.band"))
    right.download_button(
        "Table (CSV)",
        depth_csv(table, camera.name, stops, wishes.system).encode("utf-8-sig"),
        file_name="depth.csv",
        mime="text/csv",
        on_click="ignore",
        key="depth_csv",
    )
    figure = depth_plot(table, stops, chosen, palette_in_use(), wishes.system)
    st.plotly_chart(figure, key="depth_plot", theme=None, height=330, config=_QUIET_CHART)


def _show_scale(part: dict[str, Any], scale: dict[str, Any], problems: list[str]) -> None:
    if problems:
        st.html(answer_panel.waiting_html(problems))
        return
    document = {"format": FORMAT, "version": VERSION, "camera": part, "scale": scale}
    try:
        solution = solve(JobDocument.model_validate(document))
    except ValidationError as wrong:
        st.html(answer_panel.waiting_html([problem_sentence(wrong)]))
        return
    except ShimwrightError as refusal:
        st.html(answer_panel.waiting_html([str(refusal)]))
        return
    assert solution.scale is not None
    st.html(scale_html(solution.scale, solution.confusion, "24×36 mm"))


def _camera(part: dict[str, Any], problems: list[str]) -> Camera | None:
    """The camera, or None and one more problem."""
    if problems:
        return None
    try:
        return camera_of(CameraPart.model_validate(part))
    except ValidationError as wrong:
        problems.append(problem_sentence(wrong))
    except ShimwrightError as refusal:
        problems.append(str(refusal))
    return None


_QUIET_CHART = {"displaylogo": False, "modeBarButtonsToRemove": ["lasso2d", "select2d"]}
