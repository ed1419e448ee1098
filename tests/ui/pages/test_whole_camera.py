"""The Whole camera page drawn by the real page server, without a browser."""

import json
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from optics.records.files import read_job, write_job
from optics.records.job import JobDocument
from optics.records.lantern_street import CORVANE, OSTRIN, RANGEFINDERS, TARNBROOK, WORKSHOP
from optics.records.solve import solve
from ui.asking.camera_form import OWN
from ui.terminal.plain_text import solution_text


def page_script() -> None:
    """Draw the page alone."""
    from ui.pages.whole_camera import show

    show()


def opened(camera: str) -> AppTest:
    """The page at a camera."""
    page = AppTest.from_function(page_script, default_timeout=60).run()
    page.selectbox(key="camera").set_value(camera)
    return page.run()


def shown(page: AppTest) -> str:
    """Return all the markup of the page."""
    assert not page.exception
    return " ".join(html.proto.body for html in page.get("html"))


@pytest.mark.parametrize(
    ("camera", "causes"),
    [
        (OSTRIN.name, ["slipped scale ring", "infinity setting"]),
        (CORVANE.name, ["Before anything is moved", "cannot be told apart"]),
        (TARNBROOK.name, ["infinity stop out of place", "standard out of square"]),
    ],
)
def test_every_example_tells_its_case(camera: str, causes: list[str]) -> None:
    """Each camera's example opens with what is wrong with it, and a plan in shop units."""
    markup = shown(opened(camera))
    for words in causes:
        assert words in markup
    assert 'class="plan"' in markup
    assert "Tool:" in markup


def test_the_screws_say_which_turn_and_what_plus_means() -> None:
    """With a figure typed in, both labels still say clockwise, and the page what plus means."""
    page = opened(OSTRIN.name)
    labels = [field.label for field in page.text_input if "screw: " in field.label]
    assert labels == [
        "∞ screw: effect of one clockwise turn, mm",
        "Near screw: effect of one clockwise turn, mm",
    ]
    assert "Plus: the images then meet with the lens farther out" in shown(page)


def test_own_camera_waits_for_what_was_read() -> None:
    """One's own camera starts with one empty row and says what to enter."""
    assert "Reading 1: Enter the register measured." in shown(opened(OWN))


def test_folded_parts_are_not_made() -> None:
    """What-if, lists and text wait until they are unfolded, so that no key waits for them."""
    page = opened(CORVANE.name)
    assert len(page.code) == 0
    assert "expected then" not in shown(page)
    page.session_state["what_if"] = True
    assert "expected then" in shown(page.run())


def test_text_is_what_the_rows_say() -> None:
    """The text to copy is the solution of a job written down from the example by hand."""
    page = opened(OSTRIN.name)
    page.session_state["text"] = True  # unfolded
    page.run()
    (code,) = page.code
    assert code.value == solution_text(solve(read_job(json.dumps(by_hand()).encode())))


def by_hand() -> dict[str, Any]:
    """The Ostrin's example as a job."""
    rangefinder = RANGEFINDERS[OSTRIN.name].model_dump(mode="json", exclude_none=True)
    camera = OSTRIN.model_dump(mode="json", exclude_none=True)
    readings = [
        {
            "kind": "register",
            "instrument": "other",
            "measured": "28.803; 28.804; 28.802",
            "nominal": "28.8",
            "limit": "0.015",
        },
        {
            "kind": "rotation",
            "where": "at the stop",
            "turned": "0; −0.25; 0; 0.25",
            "sense": "counter-clockwise",
            "limit": "0.25",
        },
        {
            "kind": "rotation",
            "turned": "2.75; 2.5; 2.5; 2.75",
            "sense": "counter-clockwise",
            "limit": "0.25",
        },
        {
            "kind": "mark",
            "mark": "1.5",
            "sharp_at": "1.628; 1.626; 1.620; 1.625 m",
            "limit": "2 mm",
        },
    ]
    return {
        "format": "shimwright job",
        "version": 1,
        "camera": camera,
        "workshop": {"drawer": WORKSHOP.drawer},
        "readings": readings,
        "rangefinder": rangefinder
        | {"pairs": "∞ = 11.4; 10.9; 11.1; 1 m = 0.932; 0.929; 0.933", "tape": "2 mm"},
        "diagnosis": {"picture": "36 × 24", "infinity_screw": "0.2", "near_screw": "0.05"},
    }


def test_the_job_by_hand_is_written_as_it_was_read() -> None:
    """A job with everything that the page can say is read back to itself."""
    job = read_job(json.dumps(by_hand()).encode())
    assert JobDocument.model_validate_json(write_job(job)) == job


def test_a_bare_figure_far_off_from_its_mark_is_asked_about() -> None:
    """The row of a near mark asks for the unit under the very field."""
    page = opened(OSTRIN.name)
    key = f"{OSTRIN.name}.whole.row3.mark"
    page.text_input(key=f"{key}.sharp_at").set_value("162.8").run()
    assert "far off from 1.5 m: metres or centimetres?" in shown(page)
    page.text_input(key=f"{key}.sharp_at").set_value("162.8 cm").run()
    assert "metres or centimetres?" not in shown(page)
