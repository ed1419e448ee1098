"""Places on a gate or standard, always as seen from the front: x plus right, y plus up."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, from_repeats, within
from optics.relation import Array

FEWEST, MOST = 3, 12
# Off a line by less than this part of the line's length, the tilt across it is guesswork.
_LEAST_BREADTH = 0.01

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True)
class DepthReading:
    """A depth from the film rails to the standard, at a place seen from the front; in mm."""

    x: float
    y: float
    depth: Estimate

    @property
    def place(self) -> str:
        """The place in words."""
        return place_name(self.x, self.y)


def depth_readings(
    places: Sequence[Point],
    values: Sequence[Sequence[float]],
    limit: float,
    zero_limit: float = 0.0,
) -> tuple[DepthReading, ...]:
    """Readings at `places`, each of one or more repeats, taken with one gauge.

    `limit` (± mm, rectangular) is what each reading may be out by itself; `zero_limit` what
    the gauge's zero may be out, which all readings share, so that no tilt comes of it.
    Errors: OutOfRange for places without readings, or a limit below zero.
    """
    if len(places) != len(values):
        raise OutOfRange(
            f"Every place needs its depth readings: got {len(places)} places and {len(values)} "
            "readings; fill in the missing ones or take the place out.",
            quantity="depth_readings",
            value=len(values),
            limit=len(places),
        )
    zero = within(0.0, zero_limit, "zero of the depth gauge")
    return tuple(
        DepthReading(x, y, from_repeats(taken, limit, f"depth {_at(x, y)}").plus(zero))
        for (x, y), taken in zip(places, values, strict=True)
    )


def _at(x: float, y: float) -> str:
    return f"at {place_name(x, y)} ({x:g}, {y:g})"


def place_name(x: float, y: float) -> str:
    """Top left, right, bottom, middle …, seen from the front."""
    upright = "top" if y > 0 else "bottom" if y < 0 else ""
    across = "right" if x > 0 else "left" if x < 0 else ""
    return f"{upright} {across}".strip() or "middle"


CORNERS = {place_name(x, y): (x, y) for x, y in ((1, 1), (-1, 1), (-1, -1), (1, -1))}
"""Each corner's side and height, seen from the front."""


def in_the_picture(x: float, y: float) -> str:
    """Where a place of the film, seen from the front, is found in the finished picture.

    The image stands on its head; left and right agree, for the film is looked at from its
    emulsion side.
    """
    return place_name(x, -y)


def check_places(places: Sequence[Point], what: str, most: int = MOST) -> None:
    """Refuse places from which no plane can be told; the sentence says what is missing.

    `what` names one of them: reading, screw. Errors: OutOfRange for too few or too many, a
    place that is not finite, or places on one line.
    """
    count = len(places)
    if not FEWEST <= count <= most:
        lacking = (
            f"{FEWEST - count} more at another place, not on one line with the others"
            if count < FEWEST
            else f"leave out {count - most}"
        )
        raise OutOfRange(
            f"A plane needs {FEWEST} to {most} {what}s: got {count}; "
            f"{'add ' if count < FEWEST else ''}{lacking}.",
            quantity=f"{what}_count",
            value=count,
            limit=FEWEST if count < FEWEST else most,
        )
    if not all(map(math.isfinite, (v for place in places for v in place))):
        raise OutOfRange(
            f"Every {what} needs a place in mm across and up: got one that is not a finite "
            "number; measure it from the middle of the frame.",
            quantity=f"{what}_place",
        )
    _check_spread(np.asarray(places, np.float64), what)


def _check_spread(places: Array, what: str) -> None:
    _, (length, breadth), (along, _) = np.linalg.svd(
        places - places.mean(axis=0), full_matrices=False
    )
    if breadth >= _LEAST_BREADTH * length and length > 0:
        return
    if length == 0:
        missing = "the same place: spread them over the frame"
    elif abs(along[0]) > 2 * abs(along[1]):
        missing = (
            "a line across, which leaves open how they lean up and down: add one above or "
            "below that line"
        )
    elif abs(along[1]) > 2 * abs(along[0]):
        missing = (
            "a line up and down, which leaves open how they lean left and right: add one "
            "to the left or right of that line"
        )
    else:
        missing = (
            "a slanting line, which leaves open how they lean across it: add one in another corner"
        )
    raise OutOfRange(
        f"A plane needs {what}s that are not on one line: got {len(places)} on {missing}.",
        quantity=f"{what}_places",
        value=float(breadth),
        limit=float(_LEAST_BREADTH * length),
    )
