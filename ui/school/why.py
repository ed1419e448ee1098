"""From a figure on a page to the classroom that explains it, with its numbers."""

from collections.abc import Mapping

import streamlit as st

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid
from optics.relation import Formula
from optics.teaching.classroom import shop
from optics.teaching.classroom.sections import section_of
from ui.school.relation_form import (
    SECTION_KEY,
    field_key,
    find_key,
    relation_key,
    title_of,
    unknown_of,
)

CLASSROOM, ADDRESS = "Classroom", "classroom"


def offer_why(formula: Formula, values: Mapping[str, float], key: str, words: str = "Why?") -> None:
    """A small button that opens the classroom at a formula, with these figures in its fields.

    `values` are in core units, by the names of the catalogue's quantities.
    """
    name = formula.form.unknown.words
    if st.button(words, key=key, type="tertiary", help=f"the {name} in the classroom"):
        carry(formula, values)
        # Known by its address, the page can be named here without being drawn.
        st.switch_page(st.Page(_drawn_elsewhere, title=CLASSROOM, url_path=ADDRESS))


def carry(formula: Formula, values: Mapping[str, float]) -> None:
    """Have the classroom show a formula with these figures; other figures there stay."""
    relation = formula.relation
    section = section_of(relation.name)
    st.session_state[SECTION_KEY] = section.title
    st.session_state[relation_key(section)] = title_of(relation)
    st.session_state[find_key(section, relation)] = unknown_of(formula)
    for name, value in values.items():
        text = shop.typed(shop.QUANTITIES[name], value)
        st.session_state[field_key(section, name)] = text


def camera_figures(camera: Camera) -> dict[str, float]:
    """The camera's own figures, by the names that the catalogue has for them."""
    lens, focusing = camera.lens, camera.focusing
    figures = {
        "focal_length": lens.focal_length,
        "hiatus": lens.hiatus,
        "pupil_magnification": lens.pupil_magnification,
        "f_number": lens.full_aperture,
        "circle_of_confusion": camera.circle_of_confusion,
    }
    if isinstance(focusing, Bed):
        return figures
    figures["lead"] = focusing.lead
    if isinstance(focusing, Helicoid):
        figures["starts"] = float(focusing.starts)
    if isinstance(focusing, FrontCell):
        figures["group_focal_length"] = focusing.group_focal_length
        figures["cell_to_film"] = focusing.cell_to_film
    return figures


def _drawn_elsewhere() -> None:
    """The page itself is drawn by the page script."""
