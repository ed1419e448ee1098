"""What was gauged on a lens standard, the picture behind it, and the screws that hold it."""

import streamlit as st

from optics.body.standard import part as parts
from optics.body.standard.part import StandardPart
from optics.typed.fields import named_pieces
from ui.answers.answer_panel import group_html
from ui.asking.camera_form import example_of
from ui.asking.fields import FieldEntry, field
from ui.asking.part_form import PartForm

# One field a place, as they lie, and one for all others.
_MORE = "more"
_LINES = (("top left", "top right"), ("bottom left", "bottom right"), ("middle", _MORE))


def standard_form(name: str) -> PartForm:
    """Draw the fields of the standard."""
    known = example_of(name, "standard")
    form = PartForm(StandardPart, f"{name}.standard", known)
    _depth_fields(name, form, known.depths if isinstance(known, StandardPart) else "")
    form.draw("corners", "limit", "zero_limit")
    st.html(group_html("The picture"))
    form.draw("frame", "subject", "aperture", "leans", "nominal")
    st.html(group_html("The mount"))
    form.draw()
    return form


def _depth_fields(name: str, form: PartForm, known: str) -> None:
    """Draw a field for each place; all of them are one text of the part."""
    texts = {place.strip(): depth.strip() for place, _, depth in _parted(known)}
    boxes = {}
    for line in _LINES:
        for column, place in zip(st.columns(2), line, strict=True):
            with column:
                boxes[place] = _box(f"{name}.depths.{place}", place, texts.get(place, ""))
    typed = {place: box.text for place, box in boxes.items() if box.text.strip()}
    more = typed.pop(_MORE, "")
    named = [f"{place} = {text}" for place, text in typed.items()]
    form.said_besides["depths"] = "; ".join([*named, more] if more else named)
    form.amiss += [box.refusal for box in boxes.values() if box.refusal]
    if not named and not more:
        form.amiss.append("Enter depth readings at three places or more.")


def _parted(text: str) -> list[tuple[str, str, str]]:
    return [piece.partition("=") for piece in named_pieces(text)]


def _box(key: str, place: str, typed: str) -> FieldEntry:
    if place == _MORE:
        hint = "x, y: 20, −5 = 0.12; top = 0.1"
        return field(parts.DEPTHS, key, hint=hint, label="other places")
    hint = "repeats: 0.12; 0.13" if place == "top left" else ""
    return field(parts.depth_at(place), key, typed=typed, hint=hint, label=place)
