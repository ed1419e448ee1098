"""Days as they are kept: 2026-03-06 (ISO 8601), and nothing that two readers read differently."""

import re
from datetime import date
from typing import Annotated, TypeAlias

from optics.errors import Unreadable
from optics.records.fields import Typed

_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def read_day(text: str) -> date:
    """The day that a text names; Unreadable for any other way of writing it."""
    written = text.strip()
    try:
        if _ISO.fullmatch(written):
            return date.fromisoformat(written)
    except ValueError:
        pass
    raise Unreadable(
        f"The date {written!r:.40} cannot be understood: write year, month and day, "
        "such as 2026-03-06.",
        quantity="date",
        value=text,
    )


DAY = Typed("date", "", read_day, date.isoformat)
Day: TypeAlias = Annotated[str, DAY]
