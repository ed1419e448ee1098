"""Thread starts and witness marks: the fields."""

import streamlit as st

from optics.body.witness.part import WitnessPart
from ui.asking.camera_form import example_of
from ui.asking.part_form import PartForm


def witness_form(name: str, *only: str) -> PartForm:
    """Draw the fields; the witness card asks for the marks alone, which are the same."""
    form = PartForm(WitnessPart, f"{name}.witness", example_of(name, "witness"), only=only)
    form.draw("marks", "marks_on", "present", "error", "sense", "limit")
    if not only:
        with st.expander("More about marks and thread"):
            form.draw()
    return form
