"""The classroom: each relation with a drawing to play with, its origin, and the figures put in."""

import streamlit as st

from optics.relation import Formula, Quantity
from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sections import SECTIONS
from ui.answers.answer_panel import group_html
from ui.answers.bench_panel import heading_html, lines_html
from ui.asking.fields import choice
from ui.figures.lessons import HEIGHT, curve, lesson
from ui.job.answering import found
from ui.school import classroom_panel
from ui.school.relation_form import (
    SECTION_KEY,
    choose_formula,
    figures_form,
    keep_answer,
    problems_of,
    values_of,
)
from ui.theme import palette_in_use

_QUIET_CHART = {"displayModeBar": False, "scrollZoom": False}


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Classroom</h1>")
    with st.container(key="lesson"):
        section = _choose_section()
        entry, answer = st.columns([9, 13], gap="medium")
        with entry, st.container(key="entry"):
            formula = choose_formula(section)
            st.html(group_html("The figures"))
            entries = figures_form(section, _wanted(section, formula))
            problems = problems_of(entries)
        with answer:
            values = {} if problems else values_of(entries)
            result = found(problems, lambda: _work(formula, values))
            if result is not None:
                _show_answer(section, formula, values, result)
        _explain(section, formula, values if result is not None else {})


def _choose_section() -> Section:
    """One section at a time, so that the page stays quick."""
    titles = {section.title: section for section in SECTIONS}
    left, right = st.columns([9, 13], gap="medium")
    with left:
        section = titles[choice("section", list(titles), SECTION_KEY)]
    right.html(classroom_panel.idea_html(section))
    return section


def _wanted(section: Section, formula: Formula) -> list[Quantity]:
    """The formula's inputs, and with the lead relation what its drawing needs besides."""
    wanted = list(formula.inputs)
    if formula.relation.name == section.lead:
        wanted += [shop.QUANTITIES[name] for name in section.extras]
    return wanted


def _work(formula: Formula, values: dict[str, float]) -> float:
    return formula.value(**_inputs(formula, values))


def _inputs(formula: Formula, values: dict[str, float]) -> dict[str, float]:
    return {quantity.name: values[quantity.name] for quantity in formula.inputs}


def _show_answer(
    section: Section, formula: Formula, values: dict[str, float], answer: float
) -> None:
    """Answer, drawing and the numbers put in."""
    unknown, inputs = formula.form.unknown, _inputs(formula, values)
    keep_answer(section, unknown, answer)
    st.html(classroom_panel.answer_html(formula, answer))
    if formula.relation.name == section.lead:
        drawing = found(
            [], lambda: lesson(section, values | {unknown.name: answer}, palette_in_use())
        )
    else:
        along = _choose_along(section, formula)
        drawing = curve(formula, inputs, answer, along, palette_in_use())
    if drawing is not None:
        st.plotly_chart(drawing, key="lesson_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)
    if formula.relation.name == section.lead:
        st.html(lines_html([section.shown], "shown"))
    st.markdown(classroom_panel.working_markdown(formula, inputs))


def _choose_along(section: Section, formula: Formula) -> Quantity:
    """Which input the answer is drawn against."""
    names = {f"{q.words} {q.plain}": q for q in formula.inputs}
    key = f"class.{section.key}.{formula.relation.name}.{formula.form.unknown.name}.along"
    return names[choice("drawn against", list(names), key)]


def _explain(section: Section, formula: Formula, values: dict[str, float]) -> None:
    """Below the answer: what to try and the trap; where the relation comes from."""
    left, right = st.columns([9, 13], gap="medium")
    relation = formula.relation
    with left:
        if values:
            st.html(classroom_panel.nudges_html(formula, _inputs(formula, values)))
        st.html(classroom_panel.advice_html(section))
    with right:
        st.html(heading_html("The letters", "why"))
        st.markdown(classroom_panel.symbols_markdown(relation))
        st.html(classroom_panel.origin_html(relation))
        derived = classroom_panel.derivations_markdown(relation)
        if derived:
            st.html(heading_html("Where it comes from"))
            st.markdown(derived)
