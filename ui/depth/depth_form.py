"""What the depth-of-field table is to hold: the fields."""

import streamlit as st

from optics.scales.depth_part import PRINT, DepthPart, blurs
from ui.asking.fields import choice
from ui.asking.part_form import PartForm
from ui.depth.scale_form import choose_negative


def depth_form(name: str, kind: type[DepthPart] = DepthPart) -> PartForm:
    """Draw the fields; a card asks for more of its own."""
    form = PartForm(kind, f"{name}.depth")
    form.draw("apertures", "distances", "measured_from", "stops", "units")
    left, right = st.columns(2)
    with left:
        size = choose_negative(name)
    words = blurs(size)
    with right:
        # Each negative keeps its own rule, for no rule is there for all of them.
        said = choice("blur allowed by", [*words.values()], f"{name}.depth.blur.{size.key}")
    blur = next(key for key, one in words.items() if one == said)
    if blur == PRINT:
        form.draw("diagonal", "viewing", "acuity")
    form.said_besides |= {"negative": size.key, "blur": blur}
    return form
