"""The Standard and marks page drawn by the real page server, without a browser."""

import json
from html import unescape

import pytest
from streamlit.testing.v1 import AppTest

from optics.body.gate import FILMS
from optics.records.files import read_job
from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK
from optics.records.solve import solve
from ui.asking.camera_form import OWN
from ui.terminal.plain_text import solution_text

TASKS = ("Lens standard", "Film gate", "Starts and marks", "Error budget", "Sheet")


def page_script() -> None:
    """Draw the page alone."""
    from ui.pages.standard_and_marks import show

    show()


def opened(task: str, camera: str = OSTRIN.name) -> AppTest:
    """The page at a task of a camera."""
    page = AppTest.from_function(page_script, default_timeout=60).run()
    page.selectbox(key="camera").set_value(camera)
    page.selectbox(key="marks.task").set_value(task)
    return page.run()


def shown(page: AppTest) -> str:
    """Return all the markup of the page."""
    assert not page.exception
    return " ".join(html.proto.body for html in page.get("html"))


@pytest.mark.parametrize("camera", [OSTRIN.name, CORVANE.name, TARNBROOK.name])
@pytest.mark.parametrize("task", TASKS)
def test_every_example_opens_with_an_answer(task: str, camera: str) -> None:
    """Nothing need be typed to see an answer, but a lens on struts has no thread and no ring."""
    markup = shown(opened(task, camera))
    if task in ("Starts and marks", "Sheet") and camera == TARNBROOK.name:
        assert "Still needed" in markup
        assert "has no thread" in markup or task == "Sheet"
    else:
        assert "Still needed" not in markup


@pytest.mark.parametrize("task", TASKS)
def test_own_camera_waits_for_what_was_measured(task: str) -> None:
    """One's own camera starts blank and says what to enter."""
    markup = shown(opened(task, OWN))
    assert "Still needed" in markup
    assert "Enter" in markup


@pytest.mark.parametrize("task", TASKS[:4])
def test_text_is_what_the_job_file_says(task: str) -> None:
    """The text to copy is the solution of the job file that the page offers."""
    page = opened(task)
    page.session_state["text"] = True  # unfolded
    (code,) = page.run().code
    part = {"Lens standard": "standard", "Film gate": "gate", "Starts and marks": "witness"}
    document = job_document(page, part.get(task, "budget"))
    assert code.value == solution_text(solve(read_job(json.dumps(document).encode())))


def job_document(page: AppTest, part: str) -> dict[str, object]:
    """Write the job down from the fields, by hand."""
    text = {
        field.key.removeprefix(f"{OSTRIN.name}."): field.value
        for field in page.text_input
        if field.value
    }
    of = {key.partition(".")[2]: t for key, t in text.items() if key.startswith(f"{part}.")}
    places = ("top left", "top right", "bottom left", "bottom right", "middle")
    parts = {
        "standard": lambda: (
            of | {"depths": "; ".join(f"{place} = {text[f'depths.{place}']}" for place in places)}
        ),
        "gate": lambda: of,
        "witness": lambda: of | {"present": "A"},
        "budget": lambda: {"terms": {key.removeprefix("terms."): t for key, t in of.items()}},
    }
    return {
        "format": "shimwright job",
        "version": 1,
        "camera": OSTRIN.model_dump(mode="json", exclude_none=True),
        "workshop": {"drawer": text.get("workshop.drawer")},
        part: parts[part](),
    }


@pytest.mark.parametrize("film", FILMS.values(), ids=lambda film: film.key)
def test_every_film_has_its_answer(film: object) -> None:
    """Each kind of film is answered with its usual figures, and its source is in sight."""
    found = next(f for f in FILMS.values() if f is film)
    page = opened("Film gate")
    page.selectbox(key=f"{OSTRIN.name}.gate.film").set_value(found.name).run()
    assert "Still needed" not in shown(page)
    assert any(found.source in caption.value for caption in page.caption)


@pytest.mark.parametrize(
    ("task", "key", "text", "why"),
    [
        ("Lens standard", "depths.top left", "18, 7", "18.7 or 18; 7"),
        ("Lens standard", "standard.limit", "", "Enter the limit of a depth reading."),
        ("Lens standard", "standard.screws", "top = 0.1; bottom = 0.1", "screw"),
        ("Film gate", "gate.channel", "0.1", "0.15"),
        ("Starts and marks", "witness.marks", "A = 0; A = 4", "name of its own"),
        ("Starts and marks", "witness.marks", "", "Enter the candidate marks."),
        ("Error budget", "budget.terms.gate", "0.02 ±", "limit of the error of the film gate"),
        ("Sheet", "card.ring", "300", "10 to 100 mm"),
    ],
)
def test_answer_waits_and_says_why(task: str, key: str, text: str, why: str) -> None:
    """Unreadable, missing and impossible figures take the answer away and say what to do."""
    page = opened(task)
    page.text_input(key=f"{OSTRIN.name}.{key}").set_value(text).run()
    markup = shown(page)
    assert "Still needed" in markup
    assert why in markup
    assert page.text_input(key=f"{OSTRIN.name}.{key}").value == text


def test_a_bent_standard_is_not_told_to_be_shimmed_first() -> None:
    """One corner bent out of the plane: the bend comes before any shim."""
    page = opened("Lens standard")
    page.text_input(key=f"{OSTRIN.name}.depths.middle").set_value("0.2").run()
    markup = shown(page)
    assert "Bent rather than tilted" in markup
    assert "First find the bend" in markup


def test_a_standard_that_is_square_may_stay() -> None:
    """Where every corner is sharp, the page says that nothing has to be done."""
    page = opened("Lens standard")
    for place, text in (("top left", "0"), ("bottom left", "0"), ("middle", "0")):
        page.text_input(key=f"{OSTRIN.name}.depths.{place}").set_value(text)
    for place in ("top right", "bottom right"):
        page.text_input(key=f"{OSTRIN.name}.depths.{place}").set_value("0.01")
    assert "Every corner is sharp" in shown(page.run())


def test_cannot_tell_is_said_plainly() -> None:
    """Marks closer than the reading can tell: no instruction, but what to do about that."""
    page = opened("Starts and marks")
    page.text_input(key=f"{OSTRIN.name}.witness.marks").set_value("A = 0; B = 10; C = 11.5").run()
    markup = shown(page)
    assert "<strong>? Cannot tell</strong>" in markup
    assert "part no thread" in markup
    assert "Part the thread" not in markup


@pytest.mark.parametrize(("far", "is_left"), [("0.20", True), ("0.90", False)])
def test_a_standard_square_enough_is_left_before_screws_are_asked_for(
    far: str, is_left: bool
) -> None:
    """With every corner sharp the advice is to leave it; only else are shims the first thing."""
    page = opened("Lens standard", OWN)
    typed = {
        "depths.top left": "0.12",
        "depths.top right": "0.16",
        "depths.bottom left": "0.17",
        "depths.bottom right": far,
        "standard.frame": "56 × 56",
        "standard.corners": "40 × 40",
        "lens.focal_length": "80",
        "lens.full_aperture": "3.5",
        "circle_of_confusion": "0.05",
        "focusing.helicoid.lead": "15",
    }
    for key, text in typed.items():
        page.text_input(key=f"{OWN}.{key}").set_value(text)
    page.run()
    advice = shown(page).split("What to do")[-1]
    assert ("the standard may stay as it is" in advice) is is_left
    assert "the mount's screws" in unescape(advice)
