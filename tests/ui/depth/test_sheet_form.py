"""The sheet that is wished for is the sheet that is drawn."""

import io
from typing import Any

import pdfplumber
import pytest
from streamlit.testing.v1 import AppTest

from optics.drawing.page import Sheet
from tests.ui.cameras import ostrin
from ui.depth.sheet_form import CARD, OVERLAY, RING, STRIP, SheetWishes

NAME = "Ostrin 35"


def form() -> None:
    """Draw the form alone; what is wished for is left in the session."""
    import streamlit as st

    from ui.depth.sheet_form import sheet_form

    st.session_state.wishes = sheet_form("Ostrin 35")


def opened(sheet: str, entered: dict[str, str] | None = None) -> AppTest:
    """Open the form at a sheet, with texts entered by their fields' keys."""
    app = AppTest.from_function(form, default_timeout=20).run()
    app.selectbox(key=f"{NAME}.sheet").select(sheet).run()
    for key, text in (entered or {}).items():
        (place,) = (w for w in (*app.text_input, *app.selectbox) if w.key == f"{NAME}.{key}")
        place.set_value(text)
        app.run()
    assert not app.exception
    return app


def wishes(app: AppTest) -> SheetWishes:
    """Give what is wished for."""
    found: SheetWishes = app.session_state.wishes
    return found


def drawn(app: AppTest) -> Sheet:
    """Draw the sheet for the Ostrin 35."""
    assert wishes(app).problems == []
    return wishes(app).draw(ostrin())


def pages(sheet: Sheet) -> list[Any]:
    """Read the PDF back."""
    return pdfplumber.open(io.BytesIO(sheet.pdf())).pages


@pytest.mark.parametrize("sheet", [CARD, STRIP, RING, OVERLAY])
def test_every_sheet_is_drawn_as_the_form_first_stands(sheet: str) -> None:
    """Each sheet is drawn without a figure being typed, is named, and has both rulers."""
    (page, *_) = pages(drawn(opened(sheet)))
    text = page.extract_text()
    assert NAME in text
    assert "100 mm: measure before you trust this sheet" in text


def test_the_paper_is_the_one_chosen() -> None:
    """A4 is 210 × 297 mm (ISO 216), Letter 8.5 × 11 in (ANSI Y14.1)."""
    for paper, size in (("A4", (595.28, 841.89)), ("Letter", (612, 792))):
        (page, *_) = pages(drawn(opened(STRIP, {"paper": paper})))
        assert (float(page.width), float(page.height)) == pytest.approx(size, abs=0.1)


def test_an_empty_ruler_is_a_true_one_and_a_stretched_one_is_made_up_for() -> None:
    """A ruler that came out 101 mm has the next sheet drawn smaller and says so."""
    true, stretched = drawn(opened(STRIP)), drawn(opened(STRIP, {"strip.across": "101 mm"}))
    assert "rulers came out" not in pages(true)[0].extract_text()
    assert "rulers came out 101 mm across and 100 mm up" in pages(stretched)[0].extract_text()


def test_a_refused_figure_stands_in_the_way_of_its_own_sheet_alone() -> None:
    """What cannot be understood is the sheet's problem, and another sheet has none of it."""
    app = opened(STRIP, {"strip.diameter": "wide"})
    assert [p.partition(" “")[0] for p in wishes(app).problems] == ["The barrel diameter"]
    app.selectbox(key=f"{NAME}.sheet").select(RING).run()
    assert wishes(app).problems == []


def test_an_emptied_figure_is_asked_for() -> None:
    """A diameter that is needed and not there is asked for, not guessed."""
    assert wishes(opened(RING, {"face.outer": ""})).problems == ["Enter the ring's outer diameter."]
