"""What each part of the camera adds at the film: the fields of the error budget."""

import streamlit as st

from optics.body.budget_part import BudgetPart
from ui.asking.camera_form import is_example
from ui.asking.part_form import PartForm


def budget_form(name: str) -> PartForm:
    """Draw one field for each part of the camera; what is amiss where none is typed is said too."""
    form = PartForm(BudgetPart, f"{name}.budget", is_example=is_example(name))
    form.draw()
    st.caption("Plus: too far out. A part left empty is not counted. Film curl: your own figure.")
    if not form.part.get("terms"):
        form.amiss.append("Enter what at least one part adds.")
    return form
