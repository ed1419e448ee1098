"""The camera's fields: of the open job, the library, the shelf of examples, or one's own."""

from collections.abc import Iterable
from typing import Any, TypeAlias

import streamlit as st

from optics.records.job import CameraPart, WorkshopPart
from optics.records.lantern_street import CAMERAS, JOBS
from optics.typed.ask import LINE
from optics.typed.part import Part
from ui.asking.fields import choice
from ui.asking.from_library import take_item_row
from ui.asking.part_form import PartForm
from ui.kept.library import library_cameras
from ui.kept.open_job import job_name, open_job

OWN = "Your own camera"
Texts: TypeAlias = dict[str, Any]


def choose_camera() -> str:
    """Ask which camera: the open job's, the library's, an example or one's own.

    Each keeps what was typed for it.
    """
    kept = open_job()
    jobs = () if kept is None else (job_name(kept.line.number),)
    options = (*jobs, *library_cameras(), *JOBS, OWN)
    first = options.index(CAMERAS[0].name)
    return choice("camera (examples, invented)", options, "camera", first)


def is_example(name: str) -> bool:
    """Whether a camera is one of the shelf, whose fields are filled in to learn from."""
    return name in JOBS


def example_of(name: str, part: str) -> Part | None:
    """What a camera of the shelf has of a part of a job, to learn from."""
    return getattr(JOBS[name], part) if is_example(name) else None


def camera_and_task(tasks: Iterable[str], key: str) -> tuple[str, str]:
    """Ask which camera, and beside it which of a page's tasks."""
    with st.container(key="choices"):
        first, second = st.columns(2)
    with first:
        name = choose_camera()
    with second:
        return name, choice("task", list(tasks), key)


def camera_form(name: str, *, needs_all: bool = True) -> PartForm:
    """Draw the camera's fields; where not all is needed, a field left empty is nothing amiss."""
    known = example_of(name, "camera") or library_cameras().get(name)
    form = PartForm(CameraPart, name, known, needs_all=needs_all)
    if is_example(name):
        form.said_besides["name"] = name
    else:
        form.draw("name")
    form.draw("focusing.kind", "focusing.extends")
    form.draw("lens.focal_length", "lens.full_aperture", "circle_of_confusion")
    form.draw("focusing.lead", "focusing.starts", "focusing.ring_diameter", "focusing")
    with st.expander("More about the lens and the tolerance"):
        form.draw("lens", "tolerance")
        take_item_row(name)
    return form


def workshop_form(name: str) -> PartForm:
    """Draw the shim stock."""
    stock = example_of(name, "workshop")
    form = PartForm(WorkshopPart, f"{name}.workshop", stock)
    form.draw()
    return form


def drawer_form(name: str) -> PartForm:
    """Draw the drawer alone: there is one workshop, and one text of what it has."""
    stock = example_of(name, "workshop")
    form = PartForm(WorkshopPart, f"{name}.workshop", stock, only=("drawer",))
    form.draw(width=LINE)
    return form
