"""The Standard and marks page under a person's hands, at the bench and on a telephone."""

import io
import json
from pathlib import Path
from urllib.parse import urlsplit

import hands
import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader
from test_correction_looks import broken_rules

from optics.records.lantern_street import CAMERAS
from ui.command import main

CAMERA, TASK = "Camera (examples, invented)", "Task"
OSTRIN, CORVANE, TARNBROOK = (camera.name for camera in CAMERAS)
STANDARD, GATE, STARTS, BUDGET, SHEET = (
    "Lens standard",
    "Film gate",
    "Starts and marks",
    "Error budget",
    "Sheet",
)


@pytest.fixture(params=["page", "phone_page"])
def window(request: pytest.FixtureRequest) -> Page:
    """A window of either size."""
    found: Page = request.getfixturevalue(request.param)
    return found


def opened(page: Page, address: str, task: str, camera: str = OSTRIN) -> Page:
    """Open the page at its own address, at a task of a camera."""
    hands.open_at(page, f"{address}/standard_and_marks")
    expect(page.get_by_role("combobox", name=TASK)).to_be_visible()
    hands.choose(page, CAMERA, camera)
    hands.choose(page, TASK, task)
    return page


def typed(page: Page, label: str, text: str) -> None:
    """Fill one field and wait for the answer."""
    hands.type_into(page, label, text, delay=0)
    hands.wait_until_idle(page)


def test_every_task_answers_at_both_widths(window: Page, bench_address: str) -> None:
    """Each task shows an answer, breaks no rule of access, and nothing is cut off or too wide."""
    opened(window, bench_address, STANDARD)
    for task in (STANDARD, GATE, STARTS, BUDGET, SHEET):
        hands.choose(window, TASK, task)
        part = window.locator("img.sheet" if task == SHEET else ".answer .headline strong")
        expect(part.first).to_be_visible()
        expect(hands.problems(window)).to_have_count(0)
        assert window.get_by_test_id("stException").count() == 0
        assert window.evaluate("document.documentElement.scrollWidth <= innerWidth")
        main_part = "document.querySelector('[data-testid=stMain]')"
        assert window.evaluate(f"{main_part}.scrollWidth <= {main_part}.clientWidth")
        assert broken_rules(window) == [], task
        cut = window.get_by_role("combobox").evaluate_all(
            "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
        )
        assert cut == []


def test_depths_are_typed_as_people_write_them(page: Page, bench_address: str) -> None:
    """A decimal comma and a real minus are understood, echoed, kept, and move the corner."""
    opened(page, bench_address, STANDARD)
    for label in ("Top left", "Bottom left"):
        typed(page, label, "−0.05")
    for label in ("Top right", "Bottom right"):
        typed(page, label, "1,5")
    typed(page, "Middle", "0.725")
    expect(hands.echo_of(page, "Top left")).to_have_text("= −0.05 mm")
    expect(hands.echo_of(page, "Top right")).to_have_text("= 1.5 mm")
    expect(hands.field(page, "Top right")).to_have_value("1,5")
    # 1.55 mm over the 44 mm between the corners is atan(0.03523) = 2.02 degrees.
    expect(hands.headline(page)).to_contain_text("2.02°")
    expect(page.locator("#rest").first).to_contain_text("Its right side")
    job = json.loads(hands.download(page, "Job file"))
    assert "top right = 1,5" in job["standard"]["depths"]
    assert "top left = −0.05" in job["standard"]["depths"]


def test_further_places_count(page: Page, bench_address: str) -> None:
    """Places typed with x and y are echoed and taken with the corners."""
    opened(page, bench_address, STANDARD)
    typed(page, "Other places", "20, −5 = 0.12; 0.13; top = 0,01")
    expect(hands.echo_of(page, "Other places")).to_contain_text(
        "2 places: 20, −5 mm: 0.12 mm, 0.13 mm; top: 0.01 mm"
    )
    job = json.loads(hands.download(page, "Job file"))
    assert job["standard"]["depths"].endswith("; 20, −5 = 0.12; 0.13; top = 0,01")


def test_three_readings_on_one_line_are_refused(window: Page, bench_address: str) -> None:
    """Readings that leave the lean open are refused with what is missing, and stay as typed."""
    opened(window, bench_address, STANDARD)
    for label in ("Top left", "Top right", "Bottom left", "Bottom right"):
        typed(window, label, "")
    typed(window, "Other places", "left = 0.1; right = 0.3")
    expect(hands.problems(window)).to_contain_text(["got 3 on a line across"])
    expect(hands.field(window, "Other places")).to_have_value("left = 0.1; right = 0.3")
    typed(window, "Top left", "0,2")
    expect(hands.problems(window)).to_have_count(0)
    expect(hands.headline(window)).to_contain_text("leans")


def test_nonsense_is_refused_where_it_stands(page: Page, bench_address: str) -> None:
    """A text without one meaning is refused in its field and in the answer."""
    opened(page, bench_address, STANDARD)
    for label in ("Top left", "Other places", "Width × height", "Screws, and the leaves"):
        typed(page, label, "1,200.5")
        expect(hands.echo_of(page, label)).to_contain_text("✕ The")
    expect(hands.problems(page)).to_have_count(4)


def test_corner_that_is_out_is_said_without_colour(window: Page, bench_address: str) -> None:
    """Which corner is out, and which way, is in words in the drawing's text and the table."""
    opened(window, bench_address, STANDARD, TARNBROOK)
    # The corners of the worked example.
    alt = window.locator(".pictures img").first.get_attribute("alt") or ""
    assert "top right +0.311 mm ✕ soft" in alt
    row = window.locator(".answer table tr").filter(has_text="top right").first
    expect(row).to_contain_text("0.311 mm too far out")
    expect(row).to_contain_text("✕ outside the depth of focus")
    expect(window.locator(".care")).to_contain_text("wear eye protection")


def test_gate_answers_each_plate(page: Page, bench_address: str) -> None:
    """Play follows the channel; a sprung plate leaves none, and asks for no channel."""
    opened(page, bench_address, GATE)
    typed(page, "Channel, deep", "0,25 ± 0.01")
    # 0.25 − 0.15 = 0.10 mm of play.
    expect(page.locator(".answer")).to_contain_text("0.100 mm of play")
    hands.choose(page, "Behind the film", "sprung plate, touching the film")
    expect(hands.headline(page)).to_contain_text("right for the film")
    expect(hands.field(page, "Channel, deep")).to_have_count(0)
    hands.choose(page, "Kind of film", "Sheet film in a holder")
    expect(hands.headline(page)).to_contain_text("A lens set on this ground glass is")


def test_starts_are_told_and_drawn(window: Page, bench_address: str) -> None:
    """The worked example is told, drawn and put into steps; too close marks are not told."""
    opened(window, bench_address, STARTS)
    expect(hands.headline(window)).to_contain_text("It was mark B, 2 starts farther in")
    expect(window.locator(".steps li").first).to_contain_text("enter it again 2 starts (120.0°)")
    assert "B at 10.0° likeliest" in (window.locator(".pictures img").get_attribute("alt") or "")
    typed(window, "Marks, clockwise", "A = 0; B = 10; C = 11,5")
    expect(hands.headline(window)).to_contain_text("Cannot tell")
    expect(window.locator(".steps")).to_contain_text("part no thread")
    expect(window.locator(".steps li")).to_have_count(0)


def test_sense_turns_with_a_minus(page: Page, bench_address: str) -> None:
    """An error typed with a real minus is too far in, so that the lens must come out."""
    opened(page, bench_address, STARTS)
    typed(page, "Lens at ∞ is out by", "−6,02")
    expect(hands.headline(page)).to_contain_text("2 starts farther out")


def test_budget_says_what_to_work_on(window: Page, bench_address: str) -> None:
    """The largest error is named as the next; taken out of the budget, another takes its place."""
    opened(window, bench_address, BUDGET)
    expect(window.locator(".steps")).to_contain_text("Work on the register next")
    typed(window, "Register", "0 ± 0,005")
    typed(window, "Lens standard", "−0,2 ± 0.01")
    expect(window.locator("tr").filter(has_text="← next")).to_contain_text("lens standard")
    expect(window.locator("tr").filter(has_text="depth of focus")).to_contain_text("± 0.084 mm")


def test_card_comes_as_pdf(window: Page, bench_address: str) -> None:
    """The card that is previewed is the one in the PDF: one page, with the job and its marks."""
    opened(window, bench_address, SHEET)
    typed(window, "Job", "No. 12")
    expect(window.locator("img.sheet")).to_have_count(1)
    (sheet,) = PdfReader(io.BytesIO(hands.download(window, "Sheet (PDF)"))).pages
    text = sheet.extract_text()
    assert "Witness card" in text
    assert "No. 12" in text
    assert "346.0°" in text


def test_job_file_is_what_the_command_line_solves(
    page: Page, bench_address: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """For each task, the job that is downloaded gives in the terminal the text on the page."""
    opened(page, bench_address, STANDARD)
    for task in (STANDARD, GATE, STARTS, BUDGET):
        hands.choose(page, TASK, task)
        file = tmp_path / "job.json"
        file.write_bytes(hands.download(page, "Job file"))
        code = page.get_by_test_id("stCode").locator("code")
        if not code.is_visible():
            hands.press(page.get_by_text("As plain text, to copy"))
        expect(code).to_be_visible()
        assert main(["solve", str(file)]) == 0
        assert capsys.readouterr().out.split() == code.inner_text().split()


def test_page_speaks_to_its_own_server_only(page: Page, bench_address: str) -> None:
    """Using every task makes no request and opens no socket to anywhere else."""
    reached: set[str] = set()
    page.on("request", lambda request: reached.add(request.url))
    page.on("websocket", lambda websocket: reached.add(websocket.url))
    opened(page, bench_address, STANDARD)
    for task in (GATE, STARTS, BUDGET, SHEET):
        hands.choose(page, TASK, task)
    hosts = {urlsplit(url).netloc for url in reached}
    assert urlsplit(bench_address).netloc in hosts
    assert hosts - {""} == {urlsplit(bench_address).netloc}


def test_what_was_typed_outlives_another_task(page: Page, bench_address: str) -> None:
    """Marks typed for the starts are those of the card, and depths are there on coming back."""
    opened(page, bench_address, STANDARD)
    typed(page, "Middle", "0,002")
    hands.choose(page, TASK, STARTS)
    typed(page, "Marks, clockwise", "A = 0; Q = 33")
    hands.choose(page, TASK, SHEET)
    expect(hands.field(page, "Marks, clockwise")).to_have_value("A = 0; Q = 33")
    hands.choose(page, TASK, STANDARD)
    expect(hands.field(page, "Middle")).to_have_value("0,002")
