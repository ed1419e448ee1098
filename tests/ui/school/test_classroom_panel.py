"""The classroom's words and formulas."""

import pytest

from optics.relation import Relation
from optics.teaching.classroom.sections import LENS, SECTIONS
from optics.theory import CATALOGUE
from optics.theory.lens import unit_focusing
from optics.theory.rangefinder import prentice
from ui.school import classroom_panel as panel

FORMULA = unit_focusing.solve_for("extension")
VALUES = {"film_distance": 1000.0, "focal_length": 50.0, "hiatus": 0.0}


def test_answer_is_question_and_figure() -> None:
    """The question comes before the figure, and the figure says what it is."""
    html = panel.answer_html(FORMULA, 2.7864)
    assert html.index("How far must the whole lens move out") < html.index("x = 2.786 mm")
    assert "extension of the lens from its infinity position" in html


def test_working_begins_with_the_published_equation() -> None:
    """First the equation as published, then the form used with its numbers, each set alone."""
    blocks = panel.working_markdown(FORMULA, VALUES).split("\n\n")
    assert blocks[0] == f"$$\n{unit_focusing.latex}\n$$"
    assert r"2.7864\,\mathrm{mm}" in blocks[-1]
    assert all(block.startswith("$$\n") and block.endswith("\n$$") for block in blocks)


@pytest.mark.parametrize("relation", CATALOGUE.values(), ids=CATALOGUE)
def test_every_letter_is_explained(relation: Relation) -> None:
    """Each quantity has a row of four cells: letter, meaning, unit and range."""
    rows = panel.symbols_markdown(relation).splitlines()[2:]
    assert len(rows) == len(relation.quantities)
    for row, quantity in zip(rows, relation.quantities, strict=True):
        assert row.count("|") == 5
        assert f"${quantity.latex}$" in row
        assert quantity.meaning in row


def test_derivation_is_told_line_by_line() -> None:
    """Each line has its number, how it comes about, why, and its formula."""
    told = panel.derivations_markdown(unit_focusing)
    assert told.startswith("### From Newton's equation to a tape laid at the film")
    assert "**3 · So, from 1, 2.** Put Newton's equation in." in told
    assert "**8 · Nearly, from 7.**" in told
    assert r"\approx" in told.split("**8")[1]
    assert told.count("$$") == 16
    assert panel.derivations_markdown(prentice) == ""


def test_advice_holds_all_that_is_to_be_tried() -> None:
    """Every thing to try and the trap are shown, with no markup of their own."""
    for section in SECTIONS:
        html = panel.advice_html(section)
        assert html.count("<li>") == len(section.try_this)
        assert "A trap" in html
    assert "Double the focal length" in panel.advice_html(LENS)


def test_source_and_limits_are_named() -> None:
    """Where a relation comes from and where it ends stand under its letters."""
    html = panel.origin_html(unit_focusing)
    assert "Newton&#x27;s conjugate equation" in html
    assert "nearest D is 4f + h" in html


def test_nudges_are_a_list() -> None:
    """Each finite input has its line under one heading."""
    html = panel.nudges_html(FORMULA, VALUES)
    assert html.count("<li>If the ") == 3
    assert "How far the answer follows" in html
