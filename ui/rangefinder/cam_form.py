"""The cam's fields: what the body expects, the cam's size, the lifts read, how it may be cut."""

from typing import Annotated, Any

import streamlit as st

from optics.rangefinder.cam_part import CamPart
from optics.typed import fields
from optics.typed.ask import Ask
from ui.asking.camera_form import is_example
from ui.asking.paper import Paper
from ui.asking.part_form import PartForm

_OF_SHEET = ("diameter", "paper")


class CamWishes(CamPart):
    """A cam with what its sheet needs to be drawn."""

    diameter: Annotated[
        str, fields.CAM_DIAMETER, Ask("cam ⌀", "where it is felt", example="50", width=3)
    ]
    paper: Annotated[Paper, Ask(note="", width=3)]


def cam_form(name: str) -> PartForm:
    """Draw the fields."""
    form = PartForm(CamWishes, f"{name}.rangefinder.cam", is_example=is_example(name))
    form.draw("body", "turn", "diameter", "limit", "paper", "lifts", "deepest")
    with st.expander("More about the coupling and the cut"):
        form.draw()
    return form


def cam_part(form: PartForm) -> dict[str, Any]:
    """The cam as the job document takes it."""
    return {name: text for name, text in form.part.items() if name not in _OF_SHEET}
