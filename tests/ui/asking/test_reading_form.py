"""The readings' fields: complete for an example, blank for one's own camera."""

import pytest
from pydantic import TypeAdapter
from streamlit.testing.v1 import AppTest

from optics.camera.instruments import INSTRUMENTS
from optics.readings.kinds.registry import add, drop
from optics.readings.reading_part import ReadFrom, ReadingPart
from optics.records.job import AnyReading
from optics.records.lantern_street import OSTRIN
from tests.optics.readings.kinds.made_up import LEDGE_KIND
from ui.asking.camera_form import OWN
from ui.asking.reading_rows import ways

KINDS = ("mark", "rotation", "register", "collimator", "ruler", "parallax")
NEEDED = {
    "mark": ["distance really sharp"],
    "rotation": ["angle turned until sharp"],
    "register": ["register measured", "nominal register"],
    "collimator": ["shift of the reticle", "collimator focal length"],
    "ruler": ["ring mark", "film to the ruler's zero", "sharpest place along the ruler"],
    "parallax": [],
}


def form_page() -> None:
    """Draw a reading's fields, and keep what they give."""
    import streamlit as st

    from optics.readings.kinds.registry import parts
    from ui.asking.reading_form import reading_form

    name, kind = st.session_state["shown"]
    part = next(one for one in parts() if one.kind_name() == kind)
    st.session_state["reading"] = reading_form(name, part)


def drawn(name: str, kind: str) -> AppTest:
    """Run the page for a kind of reading on a camera."""
    page = AppTest.from_function(form_page, default_timeout=30)
    page.session_state["shown"] = (name, kind)
    return page.run()


@pytest.mark.parametrize("kind", KINDS)
def test_example_reading_is_complete(kind: str) -> None:
    """An example camera opens each kind of reading with figures the job document takes."""
    document, problems = drawn(OSTRIN.name, kind).session_state["reading"]
    assert problems == []
    part: ReadingPart = TypeAdapter(AnyReading).validate_python(document)
    assert part.kind == kind


def test_a_made_up_kind_is_asked_from_its_file_alone() -> None:
    """A kind that is nothing but its file has its fields on the page, and a row of its own."""
    add(LEDGE_KIND)
    try:
        page = drawn(OSTRIN.name, "ledge")
        rows = ways(ReadFrom.GAUGED)
    finally:
        drop(LEDGE_KIND)
    assert [one.label for one in page.text_input] == ["Ledge, mm", "As drawn, mm", "Ledge ±, mm"]
    document, problems = page.session_state["reading"]
    assert problems == []
    assert document["depth"] == "30.02; 30.03; 30.01"
    assert rows["the ledge gauged"].names == ("depth", "right", "limit")


@pytest.mark.parametrize("kind", KINDS)
def test_own_reading_asks_for_what_was_measured(kind: str) -> None:
    """One's own camera starts without anybody else's measurements, and says what to enter."""
    page = drawn(OWN, kind)
    _, problems = page.session_state["reading"]
    words = [problem.removeprefix("Enter the ").removesuffix(".") for problem in problems]
    assert sorted(words) == sorted(NEEDED[kind])


def test_the_collimators_distance_is_asked_for_and_may_be_left_out() -> None:
    """The distance between the lenses has a field of its own, which may stay empty."""
    page = drawn(OWN, "collimator")
    labels = [field.label for field in page.text_input]
    assert sum("collimator lens to camera lens" in label.lower() for label in labels) == 1
    document, _ = page.session_state["reading"]
    assert "to_lens" not in document or document["to_lens"] is None


@pytest.mark.parametrize("instrument", INSTRUMENTS.values(), ids=lambda i: i.key)
def test_instrument_says_its_limit_and_source(instrument: object) -> None:
    """Each instrument goes into the job by its key, with source and warning in sight."""
    found = next(i for i in INSTRUMENTS.values() if i is instrument)
    page = drawn(OSTRIN.name, "register")
    page.selectbox(key=f"{OSTRIN.name}.register.instrument").set_value(found.name).run()
    document, _ = page.session_state["reading"]
    assert document["instrument"] == found.key
    said = " ".join(caption.value for caption in page.caption)
    assert found.source in said
    assert found.warning in said
    hint = f"{found.limit:g} if empty" if found.limit else "from the maker&#x27;s sheet"
    assert any(hint in html.proto.body for html in page.get("html"))
