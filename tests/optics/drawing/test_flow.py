"""Sections that run from page to page."""

from collections.abc import Callable
from datetime import date
from typing import Any

from optics.drawing.flow import Cell, Flow
from optics.drawing.page import MARGIN, Sheet, paper_named

MM = 25.4 / 72
ReadBack = Callable[[bytes], Any]


def flowing() -> Flow:
    """Give an empty flow on A4."""
    return Flow(Sheet(paper_named("A4"), title="a", made=date(2026, 3, 6)), "running head")


def test_a_long_paragraph_goes_over_to_the_next_page(read_back: ReadBack) -> None:
    """A text too long for a page goes on overleaf under the running head, no word lost."""
    flow = flowing()
    flow.section("Head")
    words = [f"word{n}" for n in range(3000)]
    flow.say(" ".join(words))
    back = read_back(flow.sheet.pdf())
    assert flow.pages == len(back.pages) > 1
    said = set(back.text.split())
    assert [word for word in words if word not in said] == []
    for page in range(len(back.pages)):
        assert back.extent(page)[3] <= 297 - MARGIN + 0.3
        assert ("running head" in back.pages[page].extract_text()) == (page > 0)


def test_a_short_row_is_not_torn(read_back: ReadBack) -> None:
    """A row of a few lines stands whole on one page, wherever the page ends."""
    for above in range(0, 12, 3):
        flow = flowing()
        flow.y = flow.sheet.bottom - above
        flow.row(Cell("first " * 12 + "end", 40), Cell("beside", 40))
        pages = [p.extract_text() for p in read_back(flow.sheet.pdf()).pages]
        assert sum("first" in text for text in pages) == 1
        assert all(("end" in text) == ("beside" in text) for text in pages)


def test_a_section_does_not_begin_at_the_very_foot(read_back: ReadBack) -> None:
    """A heading goes overleaf with its text where there is no room for both."""
    flow = flowing()
    flow.y = flow.sheet.bottom - 8
    flow.section("Heading")
    flow.say("its text")
    first, second = (p.extract_text() for p in read_back(flow.sheet.pdf()).pages)
    assert "Heading" not in first
    assert "its text" in second


def test_the_next_section_begins_below_the_side_heading() -> None:
    """A section goes on below its own side remark, however little the main column holds."""
    flow = flowing()
    flow.section("Head", "a remark of several lines " * 3)
    before = flow.y
    flow.section("Next")
    assert flow.y > before + 6
