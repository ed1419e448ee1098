"""The teaching posters by their titles, each as A3 and as A4."""

from datetime import date

from optics.drawing.page import Sheet
from optics.errors import OutOfRange
from optics.sheets import (
    poster_depth,
    poster_focus,
    poster_order,
    poster_rangefinder,
    poster_starts,
)

POSTERS = {
    poster_focus.TITLE: poster_focus.poster_focus,
    poster_starts.TITLE: poster_starts.poster_starts,
    poster_depth.TITLE: poster_depth.poster_depth,
    poster_rangefinder.TITLE: poster_rangefinder.poster_rangefinder,
    poster_order.TITLE: poster_order.poster_order,
}


def poster(title: str, *, made: date, page_size: str = "A3") -> Sheet:
    """The poster of a title; the same arguments give the same sheet.

    Errors: OutOfRange for a poster or a paper that there is not.
    """
    if title not in POSTERS:
        known = "; ".join(POSTERS)
        raise OutOfRange(
            f"There is no poster “{title}”: choose one of {known}.",
            quantity="poster",
            value=title,
            limit=known,
        )
    return POSTERS[title](made=made, page_size=page_size)
