"""The pictures for the guide."""

import io
from contextlib import nullcontext
from pathlib import Path

import hands
import pytest
import screenshots
from PIL import Image
from playwright.sync_api import Browser, Page

from ui.pages import PAGES


def test_every_page_of_the_bench_gets_a_picture(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, chromium: Browser
) -> None:
    """One picture is written for each page that the bench lists, by its title, none twice."""
    visited: list[str] = []
    monkeypatch.setattr(hands, "running_chromium", lambda path: nullcontext(chromium))
    monkeypatch.setattr(hands, "running_bench", lambda: nullcontext("http://bench"))
    monkeypatch.setattr(hands, "open_at", lambda page, address: visited.append(address))
    monkeypatch.setattr(hands, "wait_until_idle", lambda page, still: None)
    written = screenshots.take(tmp_path, "")
    assert visited == [f"http://bench/{place}" for place in PAGES.values()]
    assert [path.name for path in written] == [screenshots.file_name(title) for title in PAGES]
    assert sorted(written) == sorted(tmp_path.iterdir())


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
