"""The board of the posters: one drawing for two papers."""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from optics.errors import OutOfRange
from optics.sheets.poster_board import board

MADE = date(2026, 3, 6)


@pytest.mark.parametrize(("paper", "scale"), [("A3", 1.0), ("A4", 210 / 297)])
def test_a_length_of_the_board_is_in_proportion_on_both_papers(
    read_back: Callable[[bytes], Any], paper: str, scale: float
) -> None:
    """A line of 100 mm on A3 is as much shorter on A4 as the paper is narrower."""
    drawn = board("Title", "Line", made=MADE, page_size=paper)
    drawn.line((50, 200), (150, 200), width=0.7)
    lines = read_back(drawn.pdf()).lines()
    assert any(a[2] - a[0] == pytest.approx(100 * scale, abs=0.02) for a in lines)


def test_a_long_title_is_set_smaller_and_stays_on_the_board(
    read_back: Callable[[bytes], Any],
) -> None:
    """However long the title, it ends before the right edge."""
    drawn = board("A title that is far too long for its line", "Line", made=MADE, page_size="A3")
    assert read_back(drawn.pdf()).extent()[2] < 297 - 14


def test_other_papers_are_refused() -> None:
    """Posters come on A3 and A4 alone."""
    with pytest.raises(OutOfRange, match="A3 or A4"):
        board("Title", "Line", made=MADE, page_size="Letter")
