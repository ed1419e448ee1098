"""The witness card's fields: ring, marks and paper."""

from dataclasses import replace
from typing import Any

import streamlit as st

from optics.body.witness import Thread
from optics.body.witness import part as parts
from optics.camera.camera import Bed, Camera
from optics.drawing.page import Sheet
from optics.records.lantern_street import CAMERAS
from optics.sheets.witness_card import witness_card
from optics.typed import fields
from optics.typed.part import optional_value
from ui.asking.fields import name_field
from ui.asking.forms import FieldGroup
from ui.body.witness_form import witness_form
from ui.depth.sheet_form import SheetWishes, signature_form

_RINGS: dict[str, Any] = {
    camera.name: getattr(camera.focusing, "ring_diameter", None) for camera in CAMERAS
}


def card_form(name: str) -> SheetWishes:
    """Draw the fields; the card for a camera once they are understood."""
    # The marks are those of the starts: one barrel, one text.
    marks, form = witness_form(name, "marks"), FieldGroup(f"{name}.card")
    columns = st.columns(2)
    with columns[0]:
        form.ask("ring", fields.RING_DIAMETER, typed=_RINGS.get(name), hint="that bears the marks")
    with columns[1]:
        form.ask(
            "parted_at",
            parts.PARTED_AT,
            optional=True,
            label="threads part at",
            hint="if known, clockwise from the top",
        )
    job = name_field("job", f"{name}.card.job", "name or number; the camera's if empty")
    signature = signature_form(form, name)

    def draw(camera: Camera) -> Sheet:
        return witness_card(
            form.value("ring", 0.0),
            parts.marks_in(marks.text_at("marks")),
            replace(signature(), title=job or camera.name),
            thread=None if isinstance(camera.focusing, Bed) else Thread.of(camera),
            parted_at=optional_value(parts.PARTED_AT, form.part().get("parted_at")),
        )

    return SheetWishes([*marks.problems, *form.problems], draw)
