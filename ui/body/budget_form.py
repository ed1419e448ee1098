"""What each part of the camera adds at the film: the fields of the error budget."""

from typing import Any

import streamlit as st

from optics.body.budget import NAMES
from optics.body.budget_part import TERMS
from ui.asking.camera_form import is_example
from ui.asking.forms import Form

_EXAMPLE = {
    "gate": "0.025 ± 0.025",
    "film_flatness": "± 0.03",
    "standard": "−0.01 ± 0.01",
    "register": "0.04 ± 0.015",
    "scale": "0.01 ± 0.02",
    "rangefinder": "−0.02 ± 0.025",
}


def budget_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw one field for each part; the budget as the job document takes it, and what is amiss."""
    form = Form(f"{name}.budget")
    keys = list(NAMES)
    for pair in zip(keys[::2], keys[1::2], strict=True):
        for column, key in zip(st.columns(2), pair, strict=True):
            with column:
                typed = _EXAMPLE[key] if is_example(name) else ""
                form.ask(
                    key,
                    TERMS[key],
                    typed=typed,
                    optional=True,
                    label=NAMES[key],
                    hint="such as 0.02 ± 0.01",
                )
    st.caption("Plus: too far out. A part left empty is not counted. Film curl: your own figure.")
    terms = form.part()
    missing = [] if terms or form.problems else ["Enter what at least one part adds."]
    return {"terms": terms}, [*form.problems, *missing]
