"""Records as files, the library, and the door to the network, in a real browser."""

from pathlib import Path

import hands
import pytest
from playwright.sync_api import Browser, Page, expect
from test_records import book_in, job_number

from optics.records.files import read_job
from optics.records.store import Store

FILES, LIBRARY = "Files, backup and restore", "Library"
RIGHT = "three quiet lamps"


def unfold(page: Page, title: str) -> None:
    """Unfold a part of the page."""
    hands.press(page.get_by_text(title, exact=True))
    hands.wait_until_idle(page, 0.3)


def take_in(page: Page, label: str, file: Path, button: str) -> None:
    """Give a file to the page and have it taken."""
    page.get_by_test_id("stFileUploader").filter(has_text=label).locator("input").set_input_files(
        file
    )
    hands.wait_until_idle(page, 0.5)
    hands.click(page, button)


def test_jobs_go_out_and_in_as_files(page: Page, bench_address: str, tmp_path: Path) -> None:
    """A job leaves as a file and comes back as a new one; all of them as a zip, not doubled."""
    book_in(page, bench_address, "LS-0201")
    job = tmp_path / "job.json"
    job.write_bytes(hands.download(page, "Job file (JSON)"))
    intake = read_job(job.read_bytes()).intake
    assert intake is not None
    assert intake.customer.reference == "LS-0201"
    hands.go(page, "Jobs")
    unfold(page, FILES)
    bundle = tmp_path / "jobs.zip"
    bundle.write_bytes(hands.download(page, "All jobs and the library (ZIP)"))
    take_in(page, "to take in", bundle, "Take it in")
    expect(page.locator(".saved").first).to_contain_text("0 jobs and 0 library items taken in")
    take_in(page, "to take in", job, "Take it in")
    expect(page.locator(".saved").first).to_contain_text("Taken in as Job")


def test_a_backup_is_put_back_on_the_page(
    page: Page, chromium: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was deleted for good after a backup is there again once the backup is in place."""
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path / "data"))
    with hands.running_bench() as address:
        book_in(page, address, "LS-0202")
        number = job_number(page)
        hands.go(page, "Jobs")
        unfold(page, FILES)
        backup = tmp_path / "records.sqlite"
        backup.write_bytes(hands.download(page, "Backup of everything"))
        hands.click(page, "Delete")
        hands.choose(page, "Which", "deleted")
        hands.click(page, f"For good: {number}")
        hands.click(page, f"Yes, nothing of {number} can come back")
        expect(page.get_by_text("No job is found.")).to_be_visible()
        assert Store().jobs(deleted=True) == []
        take_in(page, "in place of the records", backup, "Put the backup in place")
        expect(page.locator(".saved").first).to_contain_text("checked and in place")
        hands.choose(page, "Which", "in work")
        hands.click(page, f"Open {number}")
        expect(page.locator(".open-job")).to_contain_text("LS-0202")


def test_a_lens_of_the_library_fills_the_fields_in(page: Page, bench_address: str) -> None:
    """A lens kept under a name on one page is taken on another, and a deletion is undone."""
    hands.open_at(page, f"{bench_address}/jobs")
    unfold(page, LIBRARY)
    hands.write(page, "Name", "Grey 58")
    hands.write(page, "Focal length, mm", "58,2")
    hands.write(page, "Full aperture", "2")
    hands.click(page, "Keep in the library")
    expect(page.locator(".saved").first).to_contain_text("“Grey 58” is in the library.")
    hands.click(page, "Delete Grey 58")
    hands.click(page, "Undo: bring the last one back")
    hands.go(page, "Correction")
    unfold(page, "More about the lens and the tolerance")
    hands.choose(page, "From the library", "lens: Grey 58")
    hands.click(page, "Take")
    expect(hands.field(page, "Focal length")).to_have_value("58,2")
    expect(hands.headline(page)).to_contain_text("The lens is")


def test_other_machines_are_let_in_by_the_passphrase_alone(page: Page) -> None:
    """Opened to the network, the real bench shows the door first, and then every page."""
    port = hands.free_port()
    process = hands.started_bench(port, f", passphrase={RIGHT!r}")
    try:
        page.goto(f"http://localhost:{port}/record")
        assert page.evaluate("() => fetch('/_stcore/health').then(answer => answer.status)") == 401
        page.get_by_label("The passphrase of this bench").fill("three quiet lamp")
        page.keyboard.press("Enter")
        expect(page.get_by_text("That is not the passphrase.")).to_be_visible()
        page.get_by_label("The passphrase of this bench").fill(RIGHT)
        page.keyboard.press("Enter")
        expect(page.get_by_text("No job open")).to_be_visible(timeout=20_000)
        hands.type_into(page, "Really sharp at", "20 m")
        expect(hands.headline(page)).to_contain_text("too far out")
    finally:
        process.terminate()
        assert process.stdout is not None
        said = process.stdout.read()
        process.wait(timeout=10)
    assert "Nothing on the way is encrypted" in said
