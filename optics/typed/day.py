"""Days as people write them, and nothing that two readers read differently.

``2026-03-06`` (ISO 8601), ``14 Dec 2026``, ``December 14, 2026``, ``30.11.2026`` and
``30/11/26``. Dots put the day first (as every locale of the CLDR that writes its numeric days
with dots and the year last does, from memory); strokes and hyphens put it first to one reader
and second to the next, so that both 12 or less, and not the same, is refused. A year of two
digits is of 1969 to 2068 (POSIX, ``strptime``, ``%y``).
"""

import re
from calendar import monthrange
from datetime import date
from typing import Annotated, TypeAlias

from optics.errors import Unreadable
from optics.typed.fields import Typed

_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_YEAR = r"([0-9]{4}|'?[0-9]{2})"
_DAY = r"([0-9]{1,2})(?:st|nd|rd|th)?"
_DOTTED = re.compile(rf"([0-9]{{1,2}})\. ?([0-9]{{1,2}})\. ?{_YEAR}")
_STROKES = re.compile(rf"([0-9]{{1,2}})([/-])([0-9]{{1,2}})\2{_YEAR}")
_DAY_FIRST = re.compile(rf"{_DAY}\.?[ -]?([a-z]+)\.?,?[ -]?{_YEAR}")
_MONTH_FIRST = re.compile(rf"([a-z]+)\.? {_DAY},? {_YEAR}")
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_CENTURY_TURNS = 69
_MOST_MONTHS = 12


def read_day(text: str) -> date:
    """The day that a text names; Unreadable for none, or for two."""
    written = " ".join(text.split()).lower()
    try:
        found = _read(text, written)
    except Unreadable:
        raise
    except ValueError:
        found = None  # Such as the 14th month: no day of the calendar.
    if found is None:
        how = "write 14 Dec 2026, 30.11.2026, or year, month and day, such as 2026-03-06"
        raise _refused(text, how)
    return found


def said_day(text: str | None) -> str:
    """A day as a paper says it, ``2026-03-06``; empty where none was given."""
    return read_day(text).isoformat() if text else ""


def _read(text: str, written: str) -> date | None:
    if _ISO.fullmatch(written):
        return _of_month(text, *map(int, written.split("-")))
    if found := _DOTTED.fullmatch(written):
        return _of_month(text, _year(found[3]), int(found[2]), int(found[1]))
    if found := _DAY_FIRST.fullmatch(written):
        return _of_month(text, _year(found[3]), _month(found[2]), int(found[1]))
    if found := _MONTH_FIRST.fullmatch(written):
        return _of_month(text, _year(found[3]), _month(found[1]), int(found[2]))
    if found := _STROKES.fullmatch(written):
        return _with_strokes(text, int(found[1]), int(found[3]), _year(found[4]))
    return None


def _with_strokes(text: str, one: int, other: int, year: int) -> date:
    if max(one, other) > _MOST_MONTHS or one == other:
        return _of_month(text, year, min(one, other), max(one, other))
    month_first, day_first = date(year, one, other), date(year, other, one)
    raise _refused(text, f"the month may stand first or second; write {month_first} or {day_first}")


def _of_month(text: str, year: int, month: int, day: int) -> date:
    """The day; one past the end of its month is refused with the month's length."""
    first = date(year, month, 1)
    length = monthrange(year, month)[1]
    if day > length:
        name = f"{_MONTHS[first.month - 1].capitalize()} {year}"
        raise _refused(text, f"{name} has {length} days; write the day that is meant")
    return first.replace(day=day)


def _year(digits: str) -> int:
    year = int(digits.removeprefix("'"))
    if len(digits) == len("2026"):
        return year
    return year + (1900 if year >= _CENTURY_TURNS else 2000)


def _month(name: str) -> int:
    """The month of a name, or of its first letters, three at least; 0 for none."""
    numbers = (n for n, month in enumerate(_MONTHS, start=1) if month.startswith(name))
    return next(numbers, 0) if len(name) >= len("jan") else 0


def _refused(text: str, why: str) -> Unreadable:
    return Unreadable(
        f"The date {text.strip()!r:.40} cannot be understood: {why}.", quantity="date", value=text
    )


DAY_HINT = "such as 2026-03-06"
DAY = Typed("date", "", read_day, date.isoformat, "2026-03-06")
Day: TypeAlias = Annotated[str, DAY]
