"""The real server and a real browser, shared by all browser tests."""

import os
from collections.abc import Iterator
from pathlib import Path

import hands
import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

# Another browser may be at work beside; how soon an answer comes is for tests that say so.
expect.set_options(timeout=20_000)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark everything in this folder as needing the browser."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for the whole run; missing is a skip at home and a failure in CI."""
    path = hands.chromium_path()
    if path is None:
        refuse = pytest.fail if os.environ.get("CI") == "true" else pytest.skip
        refuse("no Chromium found; install it or name it in SHIMWRIGHT_CHROMIUM")
    with hands.running_chromium(path) as browser:
        yield browser


@pytest.fixture(scope="session")
def bench_address(chromium: Browser) -> Iterator[str]:
    """The address of the real bench."""
    with hands.running_bench() as address:
        yield address


@pytest.fixture(scope="session")
def two_pages_address(chromium: Browser) -> Iterator[str]:
    """The address of a bench that has two pages of fields and nothing else."""
    with hands.running_bench(Path(__file__).with_name("two_pages.py")) as address:
        yield address


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    """A fresh window on the bench's own screen, 1280 by 800."""
    yield from _window(chromium, hands.DESK)


@pytest.fixture
def phone_page(chromium: Browser) -> Iterator[Page]:
    """A fresh window the size of a telephone, 390 by 844."""
    yield from _window(chromium, hands.PHONE)


def _window(browser: Browser, size: ViewportSize) -> Iterator[Page]:
    context = browser.new_context(viewport=size)
    yield context.new_page()
    context.close()
