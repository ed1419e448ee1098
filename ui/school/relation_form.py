"""Any relation of the catalogue as a form: which unknown, typed figures, and the answer.

A field belongs to a quantity within a section, so that a focal length typed for one relation
is there for the next. Where a quantity has a slider, slider and text are one figure: moving
the slider writes the text, and typing moves the slider; what was typed is never rewritten.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import streamlit as st

from optics.errors import ShimwrightError
from optics.relation import Formula, Quantity, Relation
from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.typical import SLIDES
from optics.theory import CATALOGUE
from optics.typed.fields import Typed
from ui.asking.fields import FieldEntry, choice, field
from ui.kept import drafts

SECTION_KEY = "class.section"
_FIGURES = "class.figures"
# Letters that a telephone shows of a choice.
_LONGEST = 34


def title_of(relation: Relation) -> str:
    """A relation's name as a list shows it."""
    words = relation.name.replace("_", " ")
    return words[:1].upper() + words[1:]


def unknown_of(formula: Formula) -> str:
    """What a formula finds, letter first, with the root it takes, as a list shows it.

    From where a long distance counts is left out; the list of letters tells.
    """
    unknown, branch = formula.form.unknown, formula.form.branch
    words = unknown.words
    if len(words) > _LONGEST or branch:
        words = words.partition(" from ")[0]
    which = ", " + branch.removeprefix("lens ").removeprefix("cell ") if branch else ""
    return f"{unknown.plain} · {words}{which}"


def quantity_field(quantity: Quantity) -> Typed:
    """The quantity as a typed field."""
    return replace(shop.field_of(quantity), words=f"{quantity.words} {quantity.plain}")


def formulas_of(section: Section, relation: Relation) -> list[Formula]:
    """A relation's formulas, the section's own question first."""
    first = section.find if relation.name == section.lead else relation.forms[0].unknown.name
    return sorted(relation.formulas, key=lambda formula: formula.form.unknown.name != first)


def relation_key(section: Section) -> str:
    """The key of the choice of relation."""
    return f"class.{section.key}.relation"


def find_key(section: Section, relation: Relation) -> str:
    """The key of the choice of unknown."""
    return f"class.{section.key}.{relation.name}.find"


def field_key(section: Section, quantity: str) -> str:
    """The key of a quantity's field."""
    return f"class.{section.key}.{quantity}"


def choose_formula(section: Section) -> Formula:
    """Ask for the relation, the section's lead first, and for what is sought."""
    names = [section.lead, *(name for name in section.relations if name != section.lead)]
    titles = {title_of(CATALOGUE[name]): CATALOGUE[name] for name in names}
    relation = titles[choice("relation", list(titles), relation_key(section))]
    formulas = {unknown_of(formula): formula for formula in formulas_of(section, relation)}
    return formulas[choice("find", list(formulas), find_key(section, relation))]


def figures_form(section: Section, wanted: Sequence[Quantity]) -> dict[str, FieldEntry]:
    """Draw the fields; those with a slider take a row each, the others share one."""
    sliding = [quantity for quantity in wanted if quantity.name in SLIDES]
    still = [quantity for quantity in wanted if quantity.name not in SLIDES]
    entries = {quantity.name: _with_slider(section, quantity) for quantity in sliding}
    for first in range(0, len(still), 2):
        columns = st.columns(2)
        for column, quantity in zip(columns, still[first : first + 2], strict=False):
            with column:
                entries[quantity.name] = _field(section, quantity)
    return entries


def problems_of(entries: dict[str, FieldEntry]) -> list[str]:
    """What stands in the way of an answer, a sentence each."""
    return [
        entry.refusal or f"Enter the {entry.quantity.words}."
        for entry in entries.values()
        if not entry.is_good
    ]


def values_of(entries: dict[str, FieldEntry]) -> dict[str, float]:
    """The figures in core units."""
    return {name: float(e.quantity.read(e.text).value) for name, e in entries.items()}


def keep_answer(section: Section, unknown: Quantity, answer: float) -> None:
    """Let the answer be what its own field holds when something else is sought.

    Only where nobody has typed another figure there.
    """
    key = field_key(section, unknown.name)
    drafts.recall(key)
    figures = st.session_state.setdefault(_FIGURES, {})
    ours = (section.begins_with(unknown.name), figures.get(key))
    if st.session_state.get(key, ours[0]) in ours:
        figures[key] = st.session_state[key] = shop.typed(unknown, answer)


def _field(section: Section, quantity: Quantity) -> FieldEntry:
    key = field_key(section, quantity.name)
    return field(quantity_field(quantity), key, typed=section.begins_with(quantity.name))


def _with_slider(section: Section, quantity: Quantity) -> FieldEntry:
    left, right = st.columns([5, 6], vertical_alignment="center")
    with left:
        entry = _field(section, quantity)
    with right:
        _slider(section, quantity, entry)
    return entry


def _slider(section: Section, quantity: Quantity, entry: FieldEntry) -> None:
    key = field_key(section, quantity.name)
    own = f"{key}.slider"
    places = slider_places(quantity, entry.text if entry.is_good else "")
    at = place_of(quantity, entry.text, places) if entry.is_good else None
    if at is not None and st.session_state.get(own) != at:
        st.session_state[own] = at
    elif st.session_state.get(own) not in places:
        st.session_state[own] = places[0]
    st.select_slider(
        f"{quantity.words}, slider",
        places,
        key=own,
        label_visibility="collapsed",
        on_change=_slid,
        args=(key, own),
    )


def _slid(key: str, own: str) -> None:
    st.session_state[key] = st.session_state[own]


def slider_places(quantity: Quantity, text: str) -> list[str]:
    """The slider's places in rising order, with the typed figure among them at its own place."""
    places = _places(quantity)
    value = _value(quantity, text)
    if value is None or value in places.values():
        return list(places)
    return sorted([*places, text.strip()], key=lambda place: places.get(place, value))


def place_of(quantity: Quantity, text: str, places: Sequence[str]) -> str:
    """The place that means the same as the text."""
    value, known = _value(quantity, text), _places(quantity)
    return next(place for place in places if known.get(place, value) == value)


@cache
def _places(quantity: Quantity) -> dict[str, float]:
    """What each place of a quantity's slider means."""
    return {place: shop.field_of(quantity).read(place).value for place in SLIDES[quantity.name]}


def _value(quantity: Quantity, text: str) -> float | None:
    """What a text means, or None where it means nothing."""
    try:
        return float(shop.field_of(quantity).read(text).value)
    except ShimwrightError:
        return None
