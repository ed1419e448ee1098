"""The pictures for the guide."""

import io
from pathlib import Path

import hands
import pytest
import screenshots
from PIL import Image
from playwright.sync_api import Page, expect


def test_every_page_of_the_bench_is_listed() -> None:
    """There is a picture for each module of ui/pages, none twice and none of anything else."""
    modules = {path.stem for path in (screenshots.HOUSE / "ui" / "pages").glob("*.py")}
    assert set(screenshots.pages().values()) == modules - {"__init__"}
    names = [screenshots.file_name(title) for title in screenshots.pages()]
    assert len(set(names)) == len(names)


def test_each_address_opens_the_page_of_that_title(page: Page, bench_address: str) -> None:
    """Every address of the list leads to the page whose picture it is to be."""
    for title, place in screenshots.pages().items():
        hands.open_at(page, f"{bench_address}/{place}")
        expect(page).to_have_title(f"{title} · Shimwright")


def test_pictures_are_small_and_keep_their_size(page: Page, bench_address: str) -> None:
    """A page of 1280 by 800 pixels takes at most 150 000 bytes, and stays 1280 by 800."""
    hands.open_correction(page, bench_address)
    small = screenshots.small_png(page.screenshot())
    assert len(small) <= screenshots.LARGEST
    assert Image.open(io.BytesIO(small)).size == (1280, 800)


def test_without_a_browser_one_sentence_says_so(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Where there is no Chromium nothing is written, and the exit code is 1."""
    monkeypatch.setattr(hands, "chromium_path", lambda: None)
    monkeypatch.setattr(screenshots, "FOLDER", tmp_path / "none")
    assert screenshots.main() == 1
    assert "No Chromium found" in capsys.readouterr().err
    assert not (tmp_path / "none").exists()
