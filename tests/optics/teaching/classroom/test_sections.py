"""The classroom's sections against the catalogue."""

import re
from collections import Counter

import pytest

from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sections import SECTIONS, section_of
from optics.teaching.classroom.typical import SLIDES, TYPICAL
from optics.theory import CATALOGUE
from optics.theory.derivations import derivations_of

each_section = pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.key)


def test_every_relation_is_in_exactly_one_section() -> None:
    """Each relation of the catalogue is listed once, and nothing else is listed."""
    listed = Counter(name for section in SECTIONS for name in section.relations)
    assert set(listed) == set(CATALOGUE)
    assert {name for name, count in listed.items() if count > 1} == set()
    assert all(section_of(name).relations.count(name) == 1 for name in CATALOGUE)


@each_section
def test_section_is_whole(section: Section) -> None:
    """A section has a lead of its own with a derivation, an idea, things to try and a trap."""
    assert section.lead in section.relations
    assert CATALOGUE[section.lead].solve_for(section.find)
    assert derivations_of(section.lead)
    assert 3 <= len(section.try_this) <= 4
    for text in (section.idea, section.shown, section.trap, *section.try_this):
        assert re.fullmatch(r"[^ ].*[.?]", text)
    assert set(section.extras) <= set(shop.QUANTITIES)
    assert set(section.extras) & {q.name for q in CATALOGUE[section.lead].quantities} == set()


@each_section
def test_what_fields_begin_with_has_an_answer(section: Section) -> None:
    """Every formula of a section answers with the figures that its fields begin with."""
    for name in section.relations:
        for formula in CATALOGUE[name].formulas:
            texts = {q.name: section.begins_with(q.name) for q in formula.inputs}
            values = {
                n: shop.field_of(shop.QUANTITIES[n]).read(text).value for n, text in texts.items()
            }
            assert formula.value(**values) == formula.value(**values)


def test_every_quantity_has_a_figure_to_begin_with() -> None:
    """The figures to begin with are those of the catalogue's quantities, no more and no less."""
    assert set(TYPICAL) == set(shop.QUANTITIES)


@pytest.mark.parametrize("name", SLIDES)
def test_slider_rises(name: str) -> None:
    """The places of a slider rise, are in range, and hold the figure its field begins with."""
    quantity = shop.QUANTITIES[name]
    values = [shop.field_of(quantity).read(place).value for place in SLIDES[name]]
    assert values == sorted(set(values))
    assert values[0] <= shop.field_of(quantity).read(TYPICAL[name]).value <= values[-1]


@each_section
def test_main_figures_have_sliders(section: Section) -> None:
    """At least two of the lead relation's inputs can be slid."""
    inputs = CATALOGUE[section.lead].solve_for(section.find).inputs
    assert len([q for q in inputs if q.name in SLIDES]) >= 2
