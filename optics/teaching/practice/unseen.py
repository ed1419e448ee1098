"""What is said where a reading cannot be taken, or nothing is seen: never what is hidden.

A refusal costs no reading, so it must not tell more than an eye at the camera would see. Its
words hang on the camera as engraved, on what is asked of it and on what was done, and are the same
for any two hidden states; an error of the model, whose figures are hidden ones, is not passed on.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from optics.errors import NoAnswer, ShimwrightError
from optics.readings.practised import Offered
from optics.readings.readings import Judged
from optics.teaching.practice.stand import Stand


def instead_of(stand: Stand, offered: Offered) -> tuple[str, ...]:
    """The readings to take in place of one that cannot be taken.

    For a rangefinder every nearer target, then the ∞ mark; for all else the ∞ mark; for that the
    register.
    """
    known = stand.offered.values()
    nearer = (one.name for one in known if one.reading.is_nearer(offered.reading))
    return (*nearer, "register" if offered.name == "∞ mark" else "∞ mark")


def unread(stand: Stand, offered: Offered, was_adjusted: bool) -> NoAnswer:
    """The refusal of a reading that cannot be taken as the camera stands."""
    instead = " or ".join(instead_of(stand, offered))
    back = ", or take back what was adjusted last," if was_adjusted else ""
    return NoAnswer(
        f"The {offered.name} cannot be read as the camera stands: {offered.reading.nowhere}; "
        f"read the {instead} instead, put right what it shows{back} and come back to it.",
        quantity=offered.reading.figure_name,
    )


@contextmanager
def looking(offered: Offered) -> Iterator[None]:
    """Look at the hidden camera: where nothing can be seen, say so in words without figures."""
    try:
        yield
    except ShimwrightError:
        is_finder = offered.reading.judged is Judged.BY_RANGEFINDER
        what = "moving image" if is_finder else "image"
        moved = offered.moved or "instrument"
        raise NoAnswer(
            f"No {what} of the {offered.name} is in sight with the {moved} there: set it nearer "
            "to where it stood at first, or take another reading before it.",
            quantity=offered.reading.figure_name,
        ) from None
