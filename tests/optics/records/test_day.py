"""Days, written one way only."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.errors import Unreadable
from optics.records.day import read_day


@given(st.dates())
def test_every_day_can_be_written(day: date) -> None:
    """Every day of the calendar is read from its ISO form, blanks around it or not."""
    assert read_day(day.isoformat()) == read_day(f" {day.isoformat()}\n") == day


@pytest.mark.parametrize(
    "text",
    ["6/3/2026", "2026-3-6", "20260306", "2026-W10-5", "2026-02-29", "2026-13-01", "0000-01-01",
     "２０２６-03-06", "2026-03-06T09:00", "today", "", "1e308", "2026-03-06" * 50],
)  # fmt: skip
def test_any_other_way_of_writing_a_day_is_refused(text: str) -> None:
    """A day that could be read two ways, or is none, is refused with an example."""
    with pytest.raises(Unreadable, match=r"^The date .* cannot be understood: .* 2026-03-06\.$"):
        read_day(text)
