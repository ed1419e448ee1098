"""Days as people write them, and none that two readers read differently."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.errors import Unreadable
from optics.typed.day import read_day


@given(st.dates())
def test_every_day_can_be_written(day: date) -> None:
    """Every day of the calendar is read from its ISO form, blanks around it or not."""
    assert read_day(day.isoformat()) == read_day(f" {day.isoformat()}\n") == day


@pytest.mark.parametrize(
    "text",
    [
        "6/3/2026",
        "14.14.2026",
        "12.14.2026",
        "14 De 2026",
        "14 Dez 2026",
        "2026-3-6",
        "20260306",
        "2026-W10-5",
        "2026-13-01",
        "0000-01-01",
        "２０２６-03-06",
        "2026-03-06T09:00",
        "today",
        "",
        "1e308",
        "2026-03-06" * 50,
    ],
)
def test_any_other_way_of_writing_a_day_is_refused(text: str) -> None:
    """A day that could be read two ways, or is none, is refused with an example."""
    with pytest.raises(Unreadable, match=r"^The date .* cannot be understood: .* 2026-03-06\.$"):
        read_day(text)


@pytest.mark.parametrize(
    "text",
    [
        "14 Dec 2026",
        "14 December 2026",
        "14th dec. 2026",
        "14-Dec-26",
        "Dec 14, 2026",
        "December 14th 2026",
        "14.12.2026",
        "14. 12. 26",
        "14/12/2026",
        "12/14/26",
        "14-12-2026",
        " 14  DEC  2026 ",
    ],
)
def test_a_day_is_read_as_people_write_it(text: str) -> None:
    """Every usual way of writing a day that has one meaning is that day."""
    assert read_day(text) == date(2026, 12, 14)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("30.11.2026", date(2026, 11, 30)),
        ("30/11/26", date(2026, 11, 30)),
        ("03.04.2026", date(2026, 4, 3)),
        ("5/5/26", date(2026, 5, 5)),
        ("1 may 69", date(1969, 5, 1)),
        ("1 sept 68", date(2068, 9, 1)),
    ],
)
def test_the_day_stands_first_where_it_must(text: str, day: date) -> None:
    """Dots put the day first, a number above 12 is the day, and two digits are a near year."""
    assert read_day(text) == day


def test_a_day_that_may_be_two_is_refused_with_both() -> None:
    """3 April to one reader and 4 March to the next: the question names both."""
    for text in ("03/04/26", "3-4-2026"):
        with pytest.raises(Unreadable, match="write 2026-03-04 or 2026-04-03"):
            read_day(text)


@given(st.dates(min_value=date(1969, 1, 1), max_value=date(2068, 12, 31)), st.integers(0, 5))
def test_a_day_written_is_never_another(day: date, form: int) -> None:
    """However a day is written, what is read is that day or nothing."""
    written = day.strftime(
        ["%d %b %Y", "%d.%m.%Y", "%d/%m/%y", "%B %d, %Y", "%d.%m.%y", "%d-%m-%Y"][form]
    )
    try:
        assert read_day(written) == day
    except Unreadable:
        assert form in (2, 5)
        assert day.day <= 12


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("31.11.2026", "November 2026 has 30 days"),
        ("2026-02-29", "February 2026 has 28 days"),
        ("31/11/26", "November 2026 has 30 days"),
        ("30 Feb 2024", "February 2024 has 29 days"),
        ("June 31, 2026", "June 2026 has 30 days"),
    ],
)
def test_a_day_beyond_its_month_is_told_how_long_the_month_is(text: str, says: str) -> None:
    """Written rightly but past the end of its month, a day is refused with the month's length."""
    with pytest.raises(Unreadable, match=f"^The date '{text}' cannot be understood: {says}"):
        read_day(text)
