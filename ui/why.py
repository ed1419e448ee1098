"""From a figure on a page to the classroom that explains it, with its numbers."""

from collections.abc import Mapping

import streamlit as st

from optics.bench.classroom import shop
from optics.bench.classroom.sections import section_of
from optics.relation import Formula
from ui.relation_form import (
    SECTION_KEY,
    field_key,
    find_key,
    relation_key,
    title_of,
    unknown_of,
)

CLASSROOM, ADDRESS = "Classroom", "classroom"


def offer_why(formula: Formula, values: Mapping[str, float], key: str, words: str = "Why?") -> None:
    """A small button that opens the classroom at a formula, with these figures in its fields."""
    name = shop.name_of(formula.form.unknown)
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
    for quantity in formula.inputs:
        if quantity.name in values:
            text = shop.typed(quantity, values[quantity.name])
            st.session_state[field_key(section, quantity.name)] = text


def _drawn_elsewhere() -> None:
    """The page itself is drawn by the page script."""
