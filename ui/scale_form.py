"""What was measured on a ring: its marks, its depth marks, and how."""

from typing import Any

import streamlit as st

from optics.records.job import scale_fields
from ui.camera_form import OWN
from ui.fields import choice
from ui.forms import Form

_BEGIN = {
    "the index, with the lens truly at infinity": "lens at infinity",
    "a mark on the ring itself": "ring mark",
}
_ACROSS = {"from one mark to its twin": True, "from the index": False}
_EXAMPLE = {
    "angle": (
        "∞ = 1.4; 10 m = 6; 5 m = 10.5; 3 m = 16.7; 2 m = 24.7; 1.5 m = 32.9; 1 m = 50.3",
        "f/16 = 19.2; f/8 = 9.6; f/4 = 4.8",
        "0.2",
    )
}


def scale_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the fields; the scale as the job document takes it, and what is amiss."""
    columns = st.columns(2)
    with columns[0]:
        along = choice("marks measured as", ["angle", "arc", "chord"], f"{name}.scale.along")
    with columns[1]:
        begin = choice("measured from", list(_BEGIN), f"{name}.scale.from")
    marks, depth_marks, limit = scale_fields(along)
    form = Form(f"{name}.scale.{along}")
    example = _EXAMPLE.get(along, ("", "", "")) if name != OWN else ("", "", "")
    form.ask("marks", marks, typed=example[0], label="marks, plus towards the near end",
             hint="such as ∞ = 0; 3 m = 17.3, 17.2; 1.5 m = 34.9")  # fmt: skip
    form.ask("depth_marks", depth_marks, typed=example[1], optional=True, label="depth marks",
             hint="such as f/16 = 19; f/8 = 9.6")  # fmt: skip
    columns = st.columns(2)
    with columns[0]:
        form.ask("limit", limit, typed=example[2], label="each read to ±")
    with columns[1]:
        across = choice("depth marks measured", list(_ACROSS), f"{name}.scale.across")
    part = {"along": along, "reference": _BEGIN[begin], "across": _ACROSS[across]}
    return part | form.part(), form.problems
