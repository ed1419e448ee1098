"""The coupled rangefinder: set it up, say where, say what it can tell, cut its cam, print."""

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any, TypeAlias

import streamlit as st

from optics.rangefinder import wording
from optics.rangefinder.account import base_account, near_account, set_up_account
from optics.rangefinder.cam_account import cam_account
from optics.rangefinder.coupling import Coupling
from optics.rangefinder.curve import curve, far_target, height_effect
from optics.rangefinder.set_up import CoupledCamera, SetUp, near_advice
from optics.records.solve import Solution
from optics.sheets.cam_sheet import cam_sheet
from optics.theory import lens
from optics.theory import rangefinder as theory
from optics.typed import fields
from ui.answers import answer_panel
from ui.answers.account_panel import account_html
from ui.asking.camera_form import Texts, camera_and_task, camera_form
from ui.asking.part_form import PartForm
from ui.depth.sheet_panel import show_sheet
from ui.figures import cam_plot
from ui.figures.rangefinder_plot import HEIGHT, rangefinder_plot
from ui.job.answering import found, offer_job_file, offer_text, solved
from ui.rangefinder.cam_form import cam_form, cam_part
from ui.rangefinder.rangefinder_form import rangefinder_form, readings_form, told_form
from ui.rangefinder.rangefinder_sheets import sheets_form
from ui.school.why import camera_figures, offer_why
from ui.theme import palette_in_use

SET_UP, NEAR, BASE = "Set up", "Where to set near", "What the base can tell"
CAM, SHEETS = "Cam", "Sheets"
Answer: TypeAlias = Callable[[Solution], None]


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Rangefinder</h1>")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        name, task = camera_and_task(_TASKS, "rangefinder.task")
        title, draw = _TASKS[task]
        st.html(answer_panel.group_html(title))
        with st.container():
            part, problems, show_answer = draw(name)
        st.html(answer_panel.group_html("The rangefinder"))
        known = rangefinder_form(name)
        st.html(answer_panel.group_html("The camera"))
        camera = camera_form(name)
    parts = {"camera": camera.part, "rangefinder": known.part | part}
    with answer:
        solution = solved(parts, [*problems, *known.problems, *camera.problems])
        if solution is not None:
            found([], partial(show_answer, solution))
        if task in _LOOKED_THROUGH:
            st.html(answer_panel.cautions_html(wording.CAUTIONS))


def _set_up_task(name: str) -> tuple[Texts, list[str], Answer]:
    part, problems = readings_form(name, is_needed=True)
    return part, problems, _show_set_up


def _show_set_up(solution: Solution) -> None:
    set_up = solution.set_up
    assert set_up is not None
    st.html(account_html(set_up_account(set_up, solution.lens_out)))
    with st.container(horizontal=True, vertical_alignment="center"):
        offer_job_file(solution)
        _offer_coupling(set_up.bench, set_up.now.coupling)
    offer_text(solution)


def _near_task(name: str) -> tuple[Texts, list[str], Answer]:
    part, problems = readings_form(name, is_needed=False)
    return part, problems, _show_near


def _show_near(solution: Solution) -> None:
    bench, set_up = _bench(solution), solution.set_up
    advice = near_advice(bench) if set_up is None else set_up.where
    st.html(account_html(near_account(advice)))
    couplings = _read_couplings(set_up) | {
        "usual": advice.usual.coupling,
        "best near mark": advice.best_near.coupling,
        "best pair": advice.best_pair.coupling,
    }
    drawn = curve(bench.camera, bench.rangefinder, couplings, bench.near_end, bench.acuity)
    figure = rangefinder_plot(drawn, palette_in_use())
    st.plotly_chart(figure, key="rangefinder_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)
    _offer_coupling(bench, advice.best_near.coupling)


def _offer_coupling(bench: CoupledCamera, coupling: Coupling) -> None:
    """The classroom on a straight coupling, with this one's zero and gain."""
    known = _sights(bench) | {"zero_error": coupling.zero, "gain": coupling.gain}
    offer_why(theory.coupling_error.solve_for(lens.focus_error), known, "why_coupling")


def _sights(bench: CoupledCamera) -> dict[str, float]:
    sights = bench.rangefinder
    return camera_figures(bench.camera) | {
        "base": sights.base,
        "base_to_film": sights.base_to_film,
        "finder_magnification": sights.magnification,
        "eye_acuity": bench.acuity.angle,
    }


def _read_couplings(set_up: SetUp | None) -> dict[str, Any]:
    """The coupling as found and, once something was turned, as it stands now."""
    if set_up is None:
        return {}
    before = {"as found": set_up.found.coupling}
    return before | ({"now": set_up.now.coupling} if set_up.rounds else {})


def _base_task(name: str) -> tuple[Texts, list[str], Answer]:
    form = told_form(name)
    return {}, form.problems, partial(_show_base, form)


def _show_base(form: PartForm, solution: Solution) -> None:
    bench = _bench(solution)
    distances = [one.value for one in fields.TOLD_AT.read(form.text_at("distances"))]
    far = far_target(bench.camera, bench.rangefinder, bench.acuity, form.value("far_target", 0.0))
    lean = form.value("lean", 0.0)
    effect = height_effect(bench.camera, bench.design, form.value("height", 0.0), lean)
    further = (wording.far_target_line(far), wording.height_line(effect, lean))
    st.html(account_html(base_account(bench, distances, further)))
    offer_why(theory.triangle.solve_for(theory.convergence), _sights(bench), "why_base")


def _cam_task(name: str) -> tuple[Texts, list[str], Answer]:
    wishes = cam_form(name)
    return {"cam": cam_part(wishes)}, wishes.problems, partial(_show_cam, wishes)


def _show_cam(wishes: PartForm, solution: Solution) -> None:
    """The table, the map with its plot where lifts were read, and the sheet."""
    answer = solution.cam
    assert answer is not None
    cam, found = answer.cam, answer.stoning
    diameter, paper = wishes.value("diameter", 0.0), wishes.text_at("paper")
    sheet = cam_sheet(cam, diameter, found, title="", made=date.today(), page_size=paper)
    st.html(account_html(cam_account(answer)))
    if found is not None:
        figure, bare = cam_plot.cam_plot(found, palette_in_use()), {"displayModeBar": False}
        st.plotly_chart(figure, key="cam_plot", theme=None, height=cam_plot.HEIGHT, config=bare)
    show_sheet(sheet, "cam_pdf")
    offer_job_file(solution)
    offer_text(solution)


def _sheets_task(name: str) -> tuple[Texts, list[str], Answer]:
    draw, problems = sheets_form(name)

    def show_answer(solution: Solution) -> None:
        show_sheet(draw(_bench(solution)), "sheet_pdf")

    return {}, problems, show_answer


def _bench(solution: Solution) -> CoupledCamera:
    assert solution.rangefinder is not None
    return solution.rangefinder


_TASKS: dict[str, tuple[str, Callable[[str], tuple[Texts, list[str], Answer]]]] = {
    SET_UP: ("What was read", _set_up_task),
    NEAR: ("What was read", _near_task),
    BASE: ("What is asked", _base_task),
    CAM: ("The cam", _cam_task),
    SHEETS: ("The sheet", _sheets_task),
}
# Where somebody looks at a far target through the finder.
_LOOKED_THROUGH = (SET_UP, BASE)
_QUIET_CHART = {"displaylogo": False, "modeBarButtonsToRemove": ["lasso2d", "select2d"]}
