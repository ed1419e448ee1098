"""The camera's fields against the shelf, drawn by the real page server without a browser."""

import pytest
from streamlit.testing.v1 import AppTest

from optics.records.job import CameraPart, WorkshopPart
from optics.records.lantern_street import CAMERAS, WORKSHOP
from ui.asking.camera_form import OWN


def form_page() -> None:
    """Draw the camera's and the workshop's fields, and keep what they give."""
    import streamlit as st

    from ui.asking.camera_form import camera_form, workshop_form

    name = st.session_state["shown"]
    forms = {"camera": camera_form(name), "workshop": workshop_form(name)}
    for part, form in forms.items():
        st.session_state[part] = form.part, form.problems


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
    """A blank camera names each figure it needs; a bed needs less, a cell's own are if known."""
    page = drawn(OWN)
    lens = ["focal length", "full aperture", "circle of confusion"]
    for focusing, needed in (
        ("the whole lens on a thread", ["lead"]),
        ("the front cell alone", ["lead"]),
        ("on a bed or struts", []),
    ):
        page.selectbox(key=f"{OWN}.focusing.kind").set_value(focusing).run()
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
    page.selectbox(key=f"{OWN}.focusing.kind").set_value("the front cell alone").run()
    assert page.text_input(key=f"{OWN}.focusing.front cell.lead").value == ""


def test_what_is_not_needed_yet_is_not_demanded() -> None:
    """Where not all is needed a blank camera has nothing amiss, and nonsense still has."""
    page = AppTest.from_function(lenient_page).run()
    document, problems = page.session_state["camera"]
    assert problems == []
    assert CameraPart.model_validate(document).lens.focal_length is None
    page.text_input(key=f"{OWN}.lens.focal_length").set_value("abc").run()
    _, problems = page.session_state["camera"]
    assert len(problems) == 1


def lenient_page() -> None:
    """Draw one's own camera for a page that answers with what there is."""
    import streamlit as st

    from ui.asking.camera_form import OWN, camera_form

    form = camera_form(OWN, needs_all=False)
    st.session_state["camera"] = form.part, form.problems


def test_a_front_cell_says_what_not_knowing_it_costs() -> None:
    """The front group's two figures are asked for as if known, with what is supposed else."""
    page = drawn(OWN)
    page.selectbox(key=f"{OWN}.focusing.kind").set_value("the front cell alone").run()
    markup = " ".join(html.proto.body for html in page.get("html"))
    assert "if known; else 0.60 to 0.75 f is supposed" in markup
    assert "at ∞, if known; else 1.1 to 1.3 f is supposed" in markup
