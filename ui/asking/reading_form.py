"""The reading's fields, those of one kind of reading."""

from typing import Any

import streamlit as st

from optics.readings.kinds.registry import parts
from optics.readings.reading_part import ReadingPart
from ui.asking.camera_form import is_example
from ui.asking.fields import choice
from ui.asking.part_form import PartForm


def choose_reading(name: str) -> type[ReadingPart]:
    """Ask which kind of reading was taken."""
    titles = {part.title: part for part in parts()}
    return titles[choice("reading", list(titles), f"{name}.reading")]


def reading_form(name: str, kind: type[ReadingPart]) -> tuple[dict[str, Any], list[str]]:
    """Draw the reading's fields; the reading as the job document takes it, and what is amiss."""
    asked, own = kind.asked_alone(), kind.kind_name()
    form = PartForm(kind, f"{name}.{own}", is_example=is_example(name), only=asked)
    form.draw()
    if remark := kind.remark({place.of: form.text(place) for place in form.places}):
        st.caption(remark)
    return {"kind": own} | form.part, form.problems
