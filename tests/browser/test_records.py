"""A job from intake to certificate in a real browser, whatever happens on the way."""

import io
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import hands
import pdfplumber
import pytest
from playwright.sync_api import Browser, Page, expect
from test_correction_looks import broken_rules

PART, CAMERA = "Part of the record", "Camera (examples, invented)"
# The page server's own file field is an area to drop on, without a role, that can be reached.
UPLOADER = 'presentation-role-conflict: <section role="presentation"'
AS_LEFT = "350 m; 1000 m; 400 m"


@dataclass
class Bench:
    """A server that can be killed and started again at the same address."""

    port: int
    process: subprocess.Popen[str]

    @property
    def address(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.port}"

    def kill_and_start_again(self) -> None:
        """End it without a chance to clean up (SIGKILL), and start it once more."""
        self.process.kill()
        self.process.wait(timeout=10)
        self.process = hands.started_bench(self.port)


@pytest.fixture
def bench(chromium: Browser) -> Iterator[Bench]:
    """A bench of this test's own, with the records of the test run."""
    port = hands.free_port()
    own = Bench(port, hands.started_bench(port))
    yield own
    own.process.terminate()
    own.process.wait(timeout=10)


def value(page: Page, label: str) -> str:
    """Return what stands in the field with exactly this label."""
    return page.get_by_role("textbox", name=label, exact=True).input_value()


def book_in(page: Page, address: str, reference: str, camera: str = "Ostrin 35") -> None:
    """Book a job in and land on its record."""
    hands.open_at(page, f"{address}/jobs")
    hands.write(page, "Customer reference", reference)
    hands.write(page, "Camera", camera)
    hands.click(page, "Book in")
    expect(page).to_have_title("Record · Shimwright")
    expect(page.locator(".open-job")).to_contain_text(f"{reference} · {camera}")
    hands.wait_until_idle(page, 0.3)


def job_number(page: Page) -> str:
    """Return the number of the job that is open."""
    return page.locator(".open-job").inner_text().split("Job ")[1].split(" ")[0]


def put_reading(page: Page, sharp_at: str, where: str) -> None:
    """Work a reading out on Correction and put it into the open job."""
    name = f"Job {job_number(page)}"
    hands.go(page, "Correction")
    expect(page.get_by_role("combobox", name=CAMERA)).to_have_value(name)
    hands.write(page, "Really sharp at, m", sharp_at)
    hands.click(page, f"Put into {name}")
    hands.choose(page, "The reading is kept", where)
    hands.click(page, f"Put it into {name}")
    expect(page.locator(".saved")).to_contain_text(f"It is in {name}, {where}")
    page.keyboard.press("Escape")


def test_a_day_with_two_meanings_is_asked_about_once(page: Page, bench: Bench) -> None:
    """One doubtful day brings one list of what is still needed, beside its field's own line."""
    book_in(page, bench.address, "LS-0152")
    hands.write(page, "Promised", "03/04/26")
    expect(hands.problems(page)).to_have_count(1)
    expect(hands.problems(page)).to_contain_text("write 2026-03-04 or 2026-04-03")


def test_a_job_from_intake_to_certificate(page: Page, bench: Bench) -> None:
    """A whole job, with a reload and a killed server on the way, ends in a true certificate."""
    book_in(page, bench.address, "LS-0147")
    hands.write(page, "Serial number", "41 207")
    hands.write(page, "Customer's request", "soft at a distance")
    hands.choose(page, PART, "Condition as found")
    hands.write(page, "1 screw or part", "M1.7 × 3")
    hands.write(page, "1 location", "front plate")
    hands.write(page, "1 leaves, mm", "0,05 x 2; 0.1")
    page.reload()
    hands.wait_until_idle(page, 0.5)
    assert value(page, "1 location") == "front plate"
    assert value(page, "1 leaves, mm") == "0,05 x 2; 0.1"
    expect(page.locator(".saved")).to_contain_text("Not saved yet: 5 fields.")
    bench.kill_and_start_again()
    hands.open_at(page, f"{bench.address}/record")
    hands.wait_until_idle(page, 0.5)
    assert value(page, "1 screw or part") == "M1.7 × 3"
    hands.click(page, "Save the record")
    expect(page.locator(".saved")).to_contain_text("Everything is saved.")

    hands.choose(page, PART, "Trays")
    hands.write(page, "1 part", "front plate")
    hands.write(page, "1 tray", "A1")
    hands.choose(page, PART, "Readings")
    hands.click(page, "Take its figures from the example Ostrin 35")
    hands.click(page, "Save the record")
    put_reading(page, "18; 18.7; 19.5 m", "as found")
    hands.go(page, "Whole camera")
    expect(page.get_by_role("combobox", name="1 read")).to_have_value("at the ∞ mark")
    assert value(page, "1 really sharp at, m") == "18; 18.7; 19.5 m"
    hands.go(page, "Record")
    hands.press(page.get_by_text("Plan", exact=True))
    hands.wait_until_idle(page, 0.3)
    hands.click(page, "Note as done: shim under the lens seat")
    hands.choose(page, PART, "Work")
    assert "Remove 0.12 mm of shim" in value(page, "1 done")
    hands.write(page, "1 shims out, mm", "0.1; 0.02")
    hands.click(page, "Save the record")
    put_reading(page, AS_LEFT, "as left")
    hands.go(page, "Whole camera")
    hands.click(page, "Show the job's")
    assert value(page, "1 really sharp at, m") == AS_LEFT
    expect(page.get_by_role("button", name="Show the job's")).to_have_count(0)
    expect(page.get_by_role("button", name="Put back")).to_be_visible()
    hands.go(page, "Record")
    hands.choose(page, PART, "Decision and next service")
    hands.choose(page, "The job is", "finished")
    hands.write(page, "Decided by", "R. Vane")
    hands.write(page, "Due", "2029-03-01")
    hands.write(page, "Workshop's name on the sheets", "Lantern Street Camera Works")
    hands.click(page, "Save the record")
    expect(page.locator(".headline")).to_contain_text("as left: inside tolerance")

    words = pdf_words(hands.download(page, "Certificate (PDF)"))
    for said in (
        "Focus certificate",
        "Ostrin 35",
        "LS-0147",
        "41 207",
        "Lantern Street Camera Works",
        "inside tolerance",
        "0.119 mm too far out",
        "Remove 0.12 mm of shim",
        "removed 0.1 mm; 0.02 mm",
        "2029-03-01",
        "R. Vane",
        "0.05 mm × 2; 0.1 mm",
        date.today().isoformat(),
    ):
        assert said in words, said
    assert "Bench sheet" in pdf_words(hands.download(page, "Bench sheet (PDF)"))
    told = pdf_words(hands.download(page, "Customer's page (PDF)"))
    assert "The focus is right where it was measured: at" in told
    # The mean of 350, 1000 and 400 m by nearness, worked by hand.
    assert "right: sharp at 471.9 m" in told


def pdf_words(data: bytes) -> str:
    """Return the text of a PDF with single blanks."""
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in pdf.pages)


def test_what_is_typed_on_a_calculator_outlives_the_server(page: Page, bench: Bench) -> None:
    """Half a figure on one page and a choice on another are there after kill -9 and a new start."""
    hands.open_correction(page, bench.address)
    hands.choose(page, CAMERA, "Corvane 6×6")
    hands.type_into(page, "Really sharp at", "18; 1")
    hands.wait_until_idle(page, 0.3)
    hands.go(page, "Depth and scales")
    hands.choose(page, "Task", "Check an engraved scale")
    bench.kill_and_start_again()
    hands.open_correction(page, bench.address)
    expect(page.get_by_role("combobox", name=CAMERA)).to_have_value("Corvane 6×6")
    expect(hands.field(page, "Really sharp at")).to_have_value("18; 1")
    hands.go(page, "Depth and scales")
    expect(page.get_by_role("combobox", name="Task")).to_have_value("Check an engraved scale")


def test_fields_of_two_pages_keep_their_texts_between_them(page: Page, bench_address: str) -> None:
    """Going to and fro between two pages that ask for the same figures changes none of them."""
    hands.open_correction(page, bench_address)
    hands.choose(page, CAMERA, "Your own camera")
    typed = {"Lead, mm": "18 mm", "Number of starts": "6", "Shims fitted now, mm": "0.1 x 2"}
    for label, text in typed.items():
        hands.write(page, label, text)
    for _ in range(5):
        for title, step in (("Whole camera", "1 read"), ("Correction", "Reading")):
            hands.go(page, title)
            hands.press(page.get_by_role("combobox", name=step))
            page.keyboard.press("Escape")
            hands.write(page, "Its name", title)
            for label, text in typed.items():
                assert value(page, label) == text, f"{label} on {title}"


def test_each_browser_has_its_own_draft(chromium: Browser, bench_address: str) -> None:
    """What one browser types is not seen in another, and comes back in its own."""
    pages = [chromium.new_context().new_page() for _ in range(2)]
    for page, text in zip(pages, ("20 m", "40 m"), strict=True):
        hands.open_correction(page, bench_address)
        hands.type_into(page, "Really sharp at", text)
        hands.wait_until_idle(page, 0.3)
    for page, text in zip(pages, ("20 m", "40 m"), strict=True):
        page.reload()
        hands.open_correction(page, bench_address)
        expect(hands.field(page, "Really sharp at")).to_have_value(text)
        page.context.close()


def opened_in(browser: Browser, address: str, number: str) -> Page:
    """Open a job's record in a browser of its own."""
    page = browser.new_context(viewport=hands.DESK).new_page()
    hands.open_at(page, f"{address}/jobs")
    hands.write(page, "Your name, for what is saved here", "Mira")
    hands.click(page, f"Open {number}")
    hands.go(page, "Record")
    return page


def test_two_browsers_on_one_job(page: Page, chromium: Browser, bench_address: str) -> None:
    """Different fields are both kept, one field is asked about, and nothing is covered up."""
    book_in(page, bench_address, "LS-0148")
    other = opened_in(chromium, bench_address, job_number(page))
    hands.write(page, "Serial number", "41 207")
    hands.write(page, "Name", "Zoë")
    hands.write(other, "Contact", "by post")
    hands.write(other, "Name", "Zoe A.")
    hands.click(other, "Save the record")
    hands.write(page, "Lens number", "88")
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("saved in another window")
    for text in ("Zoë", "Zoe A.", "by Mira"):
        expect(alert).to_contain_text(text)
    expect(alert).not_to_contain_text("41 207")
    expect(page.get_by_role("button", name="Save the record")).to_be_disabled()
    assert value(page, "Contact") == "by post"
    hands.click(page, "Keep what is typed here")
    hands.click(page, "Save the record")
    expect(page.locator(".saved")).to_contain_text("Everything is saved.")
    other.reload()
    hands.wait_until_idle(other, 0.5)
    found = [value(other, label) for label in ("Name", "Serial number", "Contact")]
    assert found == ["Zoë", "41 207", "by post"]
    other.context.close()


def test_a_new_record_begins_at_its_beginning(page: Page, bench_address: str) -> None:
    """Booked in after another job's trays were open, a job opens at its intake."""
    book_in(page, bench_address, "LS-0151")
    hands.choose(page, PART, "Trays")
    book_in(page, bench_address, "LS-0152")
    expect(page.get_by_role("combobox", name=PART)).to_have_value("Intake")


def test_deleting_is_undone(page: Page, bench_address: str) -> None:
    """A deleted job leaves the list, and one press brings it back, open as it was."""
    book_in(page, bench_address, "LS-0149", "Tarnbrook 6×9")
    name = f"Job {job_number(page)}"
    hands.go(page, "Jobs")
    hands.click(page, "Delete")
    expect(page.locator(".open-job")).to_contain_text("No job open")
    hands.click(page, f"Undo: bring {name} back")
    expect(page.locator(".open-job")).to_contain_text("LS-0149")


def test_record_by_keyboard_alone(page: Page, bench_address: str) -> None:
    """Tab, keys and Enter alone fill the intake in and save it."""
    book_in(page, bench_address, "LS-0150")
    page.get_by_role("textbox", name="Customer reference", exact=True).focus()
    for text in ("", "Zoë", "by post", "", "41 207"):
        page.keyboard.type(text, delay=15)
        page.keyboard.press("Tab")
    hands.wait_until_idle(page, 0.3)
    expect(page.locator(".saved")).to_contain_text("Not saved yet: 3 fields.")
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Save the record":
            break
    page.keyboard.press("Enter")
    expect(page.locator(".saved")).to_contain_text("Everything is saved.")
    assert [value(page, label) for label in ("Name", "Serial number")] == ["Zoë", "41 207"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [hands.DESK, hands.PHONE], ids=["desk", "phone"])
def test_pages_of_the_records_are_open_to_all(
    scheme: str, size: dict[str, int], chromium: Browser, bench_address: str
) -> None:
    """Jobs and Record break no rule of accessibility by day or night, and fit a telephone."""
    dark = "dark" if scheme == "dark" else "light"
    context = chromium.new_context(viewport=size, color_scheme=dark)  # type: ignore[arg-type]
    page = context.new_page()
    book_in(page, bench_address, f"LS-{scheme}-{size['width']}")
    for part in ("Condition as found", "Readings", "Work"):
        hands.choose(page, PART, part)
        assert broken_rules(page) == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    hands.open_at(page, f"{bench_address}/jobs")
    for fold in ("Files, backup and restore", "Library"):
        hands.press(page.get_by_text(fold, exact=True))
        hands.wait_until_idle(page, 0.3)
    hands.shot(page, f"jobs-{scheme}-{size['width']}")
    broken = [line for line in broken_rules(page) if not line.startswith(UPLOADER)]
    assert broken == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()
