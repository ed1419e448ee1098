"""The customer's page: one page, in words anybody reads."""

import re
from collections.abc import Callable
from typing import Any

import pytest

from optics.bench.verdict import Verdict
from optics.sheets.customer_page import customer_page, said_now
from tests.optics.sheets.reports import CASES, left, report
from tests.optics.sheets.test_certificate import HEADING

MM = 25.4 / 72
# Words of the trade that the page can do without.
JARGON = re.compile(
    r"\b(tolerance|uncertaint|guard band|register|collimat|helicoid, lead|circle of confusion|"
    r"depth of focus|too far (in|out)|degrees of freedom|k =|hiatus|standard|parallax|ILAC|JCGM)",
    re.IGNORECASE,
)


def text_of(read_back: Callable[[bytes], Any], **changed: Any) -> str:
    """Make the page and read it back."""
    return str(read_back(customer_page(report(**changed), **HEADING)).text)


@pytest.mark.parametrize("case", ["whole", "bare", "far out", "exact"])
def test_the_page_is_one_and_free_of_jargon(
    case: str, read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """An everyday job takes one page, and no word of the trade stands on it."""
    back = read_back(customer_page(report(**CASES[case]), **HEADING, page_size=page_size))
    assert len(back.pages) == 1
    assert JARGON.findall(back.text) == []


def test_the_page_says_how_it_came_and_how_it_is(read_back: Callable[[bytes], Any]) -> None:
    """The page says where it was sharp before, what was done, and that it is right now."""
    text = text_of(read_back)
    # The mean of 18.4, 18.9 and 18.6 m, worked by hand.
    assert "Set to infinity (∞), it was really sharp at 18.63 m: distant things came out" in text
    assert "∞ soft: sharp at 18.63 m instead sharp, as marked" in text
    assert "Helicoid cleaned and greased" in text
    assert "The focus is right." in text
    assert "We should like to see it again: 2029-03-01 · grease" in text
    assert "For Zoë Ångström · LS-0147" in text


@pytest.mark.parametrize(
    ("measured", "verdict"),
    [("28.81", Verdict.INSIDE), ("28.90", Verdict.OUTSIDE), ("28.839", Verdict.UNSURE)],
)
def test_the_outcome_is_the_decision(
    measured: str, verdict: Verdict, read_back: Callable[[bytes], Any]
) -> None:
    """Only a camera that is inside tolerance is called right."""
    text = text_of(read_back, left=left(measured))
    assert said_now(verdict) in text
    assert ("The focus is right." in text) == (verdict is Verdict.INSIDE)


def test_what_is_still_open_is_not_passed_over(read_back: Callable[[bytes], Any]) -> None:
    """What besides the lens is not right is named plainly, and nobody is told all is well."""
    whole = report(**CASES["checked"])
    text = text_of(read_back, **CASES["checked"])
    assert "The lens is in focus; not all of the camera is right yet." in text
    assert "The focus is right." not in text
    assert "Please ask us before you rely on it." in text
    for one in whole.open_checks:
        assert one.plain in text
    assert JARGON.findall(text) == []


def test_a_camera_that_was_not_measured_again_is_not_called_right(
    read_back: Callable[[bytes], Any],
) -> None:
    """Without a reading after the work the page says so, and shows no ring marks."""
    text = text_of(read_back, left=[])
    assert "The focus has not been measured after the work." in text
    assert "as marked" not in text


def test_nothing_sharp_is_said_plainly(read_back: Callable[[bytes], Any]) -> None:
    """A lens that stands inside infinity is said to have shown nothing quite sharp."""
    text = text_of(read_back, found=left("28.6"))
    assert "nothing at all came out quite sharp, not even the horizon" in text


def test_the_star_is_drawn_to_its_scale(read_back: Callable[[bytes], Any]) -> None:
    """The discs are as many times larger than the blur as the page says."""
    # 0.1 mm out at f/2.8 spreads a point over 0.1 / 2.8 mm = 0.0357 mm (similar triangles).
    page = read_back(customer_page(report(found=left("28.90")), **HEADING)).pages[0]
    times = int(re.search(r"Drawn (\d+) times", page.extract_text()).group(1))  # type: ignore[union-attr]
    largest = max(c["width"] * MM for c in page.curves if c["fill"] and len(c["pts"]) > 50)
    assert largest == pytest.approx(times * 0.1 / 2.8, rel=0.01)
