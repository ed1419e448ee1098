"""The film gate's fields: film, plate, channel, and where the ground glass lay."""

import streamlit as st

from optics.body.gate import FILMS
from optics.body.gate.part import GatePart
from ui.answers.answer_panel import group_html
from ui.asking.camera_form import example_of
from ui.asking.part_form import PartForm

_GAUGED = ("film", "plate", "glass", "bow", "channel", "glass_thickness", "glass_depth", "holder")


def gate_form(name: str) -> PartForm:
    """Draw the fields."""
    form = PartForm(GatePart, f"{name}.gate", example_of(name, "gate"))
    form.draw(*_GAUGED, "holder_depth", "slot")
    st.html(group_html("Film and paper; empty: as they usually are"))
    form.draw()
    film = FILMS[form.text_at("film")]
    st.caption(f"{film.lies} Source: {film.source}.")
    return form
