"""What holds for every page of the bench, in either scheme and at either width."""

from collections.abc import Iterator

import hands
import pytest
from playwright.sync_api import Browser, Page, expect
from test_correction_looks import broken_rules

from ui.pages import PAGES


@pytest.fixture(scope="module", params=["light", "dark"])
def scheme_page(chromium: Browser, request: pytest.FixtureRequest) -> Iterator[Page]:
    """A window whose system shows one of the two schemes."""
    context = chromium.new_context(viewport=hands.DESK, color_scheme=request.param)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("title", PAGES)
def test_no_rule_of_access_is_broken(title: str, scheme_page: Page, bench_address: str) -> None:
    """The checker finds nothing wrong, and nothing is wider than a telephone's window."""
    scheme_page.set_viewport_size(hands.DESK)
    hands.open_at(scheme_page, f"{bench_address}/{PAGES[title]}")
    expect(scheme_page).to_have_title(f"{title} · Shimwright")
    assert scheme_page.get_by_test_id("stException").count() == 0
    assert broken_rules(scheme_page) == []
    scheme_page.set_viewport_size(hands.PHONE)
    hands.wait_until_idle(scheme_page)
    assert scheme_page.evaluate("document.documentElement.scrollWidth <= innerWidth")
