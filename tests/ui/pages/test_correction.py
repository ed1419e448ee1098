"""The Correction page drawn by the real page server, without a browser."""

import json

import pytest
from streamlit.testing.v1 import AppTest

from optics.readings.kinds.rotation import RotationPart
from optics.records.files import read_job
from optics.records.lantern_street import OSTRIN
from optics.records.solve import solve
from ui.asking.camera_form import OWN
from ui.terminal.plain_text import solution_text

SHARP_AT = f"{OSTRIN.name}.mark.sharp_at"


def page_script() -> None:
    """Draw the page alone."""
    from ui.pages.correction import show

    show()


@pytest.fixture
def page() -> AppTest:
    """The page as it opens."""
    return AppTest.from_function(page_script, default_timeout=30).run()


def shown(page: AppTest) -> str:
    """Return all the markup of the page."""
    assert not page.exception
    return " ".join(html.proto.body for html in page.get("html"))


def test_page_opens_with_an_answer(page: AppTest) -> None:
    """The example needs nothing typed: headline, remedies and cautions are there at once."""
    markup = shown(page)
    assert "<strong>0.119\u00a0mm too far out</strong>" in markup
    assert "Shim under the lens seat" in markup
    assert "Never look at the Sun" in markup


def test_folded_parts_are_not_made(page: AppTest) -> None:
    """Working and text wait until they are unfolded, so that no key waits for them."""
    assert (len(page.code), len(page.latex)) == (0, 0)
    page.session_state["working"] = True
    page.run()
    assert (len(page.code), len(page.latex) > 0) == (0, True)


def test_text_is_what_the_job_on_the_page_says(page: AppTest) -> None:
    """The text to copy is the solution of the very texts in the fields."""
    page.session_state["text"] = True  # unfolded
    page.text_input(key=SHARP_AT).set_value("12,5 m").run()
    (code,) = page.code
    job = read_job(json.dumps(document_of(page)).encode())
    assert code.value == solution_text(solve(job))


def document_of(page: AppTest) -> dict[str, object]:
    """Write the job down from the fields, by hand."""
    text = {field.key: field.value for field in page.text_input}
    name = OSTRIN.name
    return {
        "format": "shimwright job",
        "version": 1,
        "camera": OSTRIN.model_dump(mode="json", exclude_none=True),
        "workshop": {"drawer": text[f"{name}.workshop.drawer"]},
        "readings": [
            {
                "kind": "mark",
                "mark": text[f"{name}.mark.mark"],
                "sharp_at": text[SHARP_AT],
                "limit": text[f"{name}.mark.limit"],
            }
        ],
    }


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1,200", "may be a decimal mark"),
        ("", "Enter the distance really sharp."),
        ("9 mm", "must be at least 188.6 mm"),
    ],
)
def test_answer_waits_and_says_why(text: str, why: str, page: AppTest) -> None:
    """Unreadable, missing and impossible figures take the answer away and say what to do."""
    page.text_input(key=SHARP_AT).set_value(text).run()
    markup = shown(page)
    assert "Still needed" in markup
    assert why in markup
    assert "too far out" not in markup
    assert page.text_input(key=SHARP_AT).value == text


@pytest.mark.parametrize(
    ("kind", "beside", "name", "text", "asked"),
    [
        (
            "Ring mark against true distance",
            ("mark", "1.5 m"),
            "sharp_at",
            "1435",
            "metres or millimetres?",
        ),
        (
            "Ring mark against true distance",
            ("mark", "1.5 m"),
            "sharp_at",
            "143.5",
            "metres or centimetres?",
        ),
        ("Ring mark against true distance", ("mark", "∞"), "sharp_at", "18, 7", "18.7 or 18; 7"),
        (
            "Register by depth gauge",
            ("nominal", "28.8"),
            "measured",
            "287.4",
            "10 times the nominal 28.8 mm: is it in millimetres",
        ),
    ],
)
def test_the_question_stands_under_the_field(
    page: AppTest, kind: str, beside: tuple[str, str], name: str, text: str, asked: str
) -> None:
    """What its neighbour shows to be in another unit is asked about where it was typed."""
    page.selectbox(key=f"{OSTRIN.name}.reading").set_value(kind).run()
    key = f"{OSTRIN.name}.{KINDS[kind]}"
    page.text_input(key=f"{key}.{beside[0]}").set_value(beside[1]).run()
    page.text_input(key=f"{key}.{name}").set_value(text).run()
    under = [h.proto.body for h in page.get("html") if "echo refusal" in h.proto.body]
    assert any(asked in line for line in under), under
    assert "Still needed" in shown(page)


KINDS = {"Ring mark against true distance": "mark", "Register by depth gauge": "register"}


def test_a_length_in_millimetres_answers_at_a_near_mark(page: AppTest) -> None:
    """With its unit the very figure that was asked about is answered."""
    page.text_input(key=f"{OSTRIN.name}.mark.mark").set_value("1.5 m").run()
    page.text_input(key=SHARP_AT).set_value("1435 mm").run()
    assert "Still needed" not in shown(page)


def test_a_turn_alone_is_answered_on_a_blank_camera(page: AppTest) -> None:
    """With nothing told but a turn of 40° the page says how far back, and what is needed."""
    page.selectbox(key="camera").set_value(OWN).run()
    page.selectbox(key=f"{OWN}.reading").set_value(RotationPart.title).run()
    page.text_input(key=f"{OWN}.rotation.turned").set_value("40").run()
    markup = shown(page)
    assert "<strong>Turn the ring 40.0° back (counter-clockwise, seen from the front)" in markup
    assert "± not known until the focal length, full aperture" in markup
    assert "Still needed" in markup
    page.text_input(key=f"{OWN}.focusing.helicoid.lead").set_value("18").run()
    assert "<strong>The lens is 2.000\u00a0mm too far out: turn the ring 40.0° back" in shown(page)
