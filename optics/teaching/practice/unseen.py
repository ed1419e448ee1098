"""What is said where a reading cannot be taken, or nothing is seen: never what is hidden.

A refusal costs no reading, so it must not tell more than an eye at the camera would see. Its
words hang on the camera as engraved, on what is asked of it and on what was done, and are the same
for any two hidden states; an error of the model, whose figures are hidden ones, is not passed on.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from optics.errors import NoAnswer, ShimwrightError
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    MarkReading,
    RotationReading,
    RulerReading,
)
from optics.teaching.practice.instruments import MEASURED, SLIDE
from optics.teaching.practice.stand import Offered, Stand

_NOTHING = {
    CoincidenceReading: "its two images meet nowhere that the scale can be read",
    CollimatorReading: f"its reticle is sharp nowhere on its slide, {SLIDE:g} mm either way",
    MarkReading: "its target is sharp nowhere on the tape",
    RotationReading: "its target is sharp at no turn of the ring",
    RulerReading: "no line of its ruler is sharp on the film",
}
_NO_GAUGE = "its seat is nowhere that the gauge's rod reaches"


def instead_of(stand: Stand, offered: Offered) -> tuple[str, ...]:
    """The readings to take in place of one that cannot be taken.

    For a rangefinder every nearer target, then the ∞ mark; for all else the ∞ mark; for that the
    register.
    """
    nearer = (
        [o.name for o in stand.offered.values() if _is_nearer(o, offered)]
        if isinstance(offered.reading, CoincidenceReading)
        else []
    )
    return (*nearer, "register" if offered.name == "∞ mark" else "∞ mark")


def _is_nearer(one: Offered, other: Offered) -> bool:
    both = one.reading, other.reading
    if not isinstance(both[0], CoincidenceReading) or not isinstance(both[1], CoincidenceReading):
        return False
    return both[0].target.value < both[1].target.value


def unread(stand: Stand, offered: Offered, was_adjusted: bool) -> NoAnswer:
    """The refusal of a reading that cannot be taken as the camera stands."""
    why = _NOTHING.get(type(offered.reading), _NO_GAUGE)
    instead = " or ".join(instead_of(stand, offered))
    back = ", or take back what was adjusted last," if was_adjusted else ""
    return NoAnswer(
        f"The {offered.name} cannot be read as the camera stands: {why}; read the {instead} "
        f"instead, put right what it shows{back} and come back to it.",
        quantity=MEASURED[offered.reading.kind],
    )


@contextmanager
def looking(offered: Offered) -> Iterator[None]:
    """Look at the hidden camera: where nothing can be seen, say so in words without figures."""
    try:
        yield
    except ShimwrightError:
        what = "moving image" if isinstance(offered.reading, CoincidenceReading) else "image"
        moved = offered.moved or "instrument"
        raise NoAnswer(
            f"No {what} of the {offered.name} is in sight with the {moved} there: set it nearer "
            "to where it stood at first, or take another reading before it.",
            quantity=MEASURED[offered.reading.kind],
        ) from None
