"""The camera's fields against the shelf, drawn by the real page server without a browser."""

import pytest
from streamlit.testing.v1 import AppTest

from optics.records.job import CameraPart, WorkshopPart
from optics.records.lantern_street import CAMERAS, WORKSHOP
from ui.camera_form import OWN


def form_page() -> None:
    """Draw the camera's and the workshop's fields, and keep what they give."""
    import streamlit as st

    from ui.camera_form import camera_form, workshop_form

    name = st.session_state["shown"]
    st.session_state["camera"] = camera_form(name)
    st.session_state["workshop"] = workshop_form(name)


def drawn(name: str) -> AppTest:
    """Run the page for a camera."""
    page = AppTest.from_function(form_page)
    page.session_state["shown"] = name
    return page.run()


@pytest.mark.parametrize("known", CAMERAS, ids=lambda camera: camera.focusing.kind)
def test_shelf_camera_goes_through_the_fields_unchanged(known: CameraPart) -> None:
    """What the fields of an example give is the example itself, and nothing is missing."""
    page = drawn(known.name)
    document, problems = page.session_state["camera"]
    assert problems == []
    assert CameraPart.model_validate(document) == known
    stock, problems = page.session_state["workshop"]
    assert problems == []
    assert WorkshopPart.model_validate(stock) == WORKSHOP


def test_own_camera_asks_for_what_its_focusing_needs() -> None:
    """A blank camera names each figure it needs; a front cell needs more, a bed needs less."""
    page = drawn(OWN)
    lens = ["focal length", "full aperture", "circle of confusion"]
    for focusing, needed in (
        ("the whole lens on a thread", ["lead"]),
        ("the front cell alone", ["lead", "focal length of the front group", "front cell to film"]),
        ("on a bed or struts", []),
    ):
        page.selectbox(key=f"{OWN}.kind").set_value(focusing).run()
        _, problems = page.session_state["camera"]
        assert problems == [f"Enter the {words}." for words in (*lens, *needed)]


def test_own_camera_carries_its_name() -> None:
    """The name typed for one's own camera is the job's, without blanks around it."""
    page = drawn(OWN)
    page.text_input(key=f"{OWN}.name").set_value("  Grey one ").run()
    document, _ = page.session_state["camera"]
    assert document["name"] == "Grey one"


def test_each_focusing_has_fields_of_its_own() -> None:
    """A lead typed for a helicoid is not offered as that of a front cell."""
    page = drawn(OWN)
    page.text_input(key=f"{OWN}.focusing.helicoid.lead").set_value("18 mm").run()
    page.selectbox(key=f"{OWN}.kind").set_value("the front cell alone").run()
    assert page.text_input(key=f"{OWN}.focusing.front cell.lead").value == ""
