"""Which readings speak for a cause, and which against it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from optics.finding.causes import AT, Cause, Vector, places
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.measure.uncertainty import LEVEL
from optics.readings.readings import Reading

# Twice its standard uncertainty is where a reading is called off.
_OFF = 2.0


@dataclass(frozen=True)
class Evidence:
    """The readings that a cause accounts for, that it would disturb, and that disagree on it.

    `for_it`: off as long as the other causes alone are allowed for, and nearer with this one.
    `against`: accounted for by the others, though this cause would be seen there. `divided`:
    readings of one thing of which some speak for the cause and some against.
    """

    for_it: tuple[Reading, ...]
    against: tuple[Reading, ...]
    divided: tuple[Reading, ...]


def for_and_against(diagnosis: Diagnosis, cause: Cause) -> Evidence:
    """Weigh each reading with the other likely causes allowed for.

    Causes that look just like it are not allowed for: what speaks for one speaks for both.
    Limits: a cause less probable than 5 % has nothing said for it.
    """
    seen = diagnosis.seen
    without = {cause} | diagnosis.determination.confused_with(cause)
    others = diagnosis.left.means[0].copy()
    # All likely causes but this one and its doubles are taken off first, else whatever the
    # strongest of them does would speak for every other that moves the same readings.
    others[[place for c in without for place in places(c)]] = 0.0
    left = np.abs(seen.values - seen.straight.errors(others))
    off = left > _OFF * seen.standard
    shows = _shows(diagnosis, cause)
    is_likely = diagnosis.chances[cause] > 1 - LEVEL
    helped = shows & off & (_left_with(diagnosis, cause) < left) & is_likely
    return _told_apart(seen.readings, helped, shows & ~off)


def _left_with(diagnosis: Diagnosis, cause: Cause) -> Vector:
    """What every reading keeps under the most probable set that has the cause in it."""
    seen, left = diagnosis.seen, diagnosis.left
    # Most probable first, so the first that has it is its best case.
    having = [i for i, one in enumerate(left.hypotheses) if cause in one.causes]
    best = having[0] if having else 0
    return np.abs(seen.values - seen.straight.errors(left.means[best]))


def _shows(diagnosis: Diagnosis, cause: Cause) -> NDArray[np.bool_]:
    """The readings in which the cause would be seen: as found, else at its usual size."""
    seen = diagnosis.seen
    if len(cause.figures) > 1 and cause in diagnosis.leading.causes:
        # Faults that are one together, as a lean's two slopes, may cancel where they were read.
        size = np.abs(seen.straight.rows[:, places(cause)] @ diagnosis.left.means[0][places(cause)])
    else:
        size = _slopes(diagnosis, cause) * diagnosis.priors.typical(cause)
    met = np.array([cause.disturbs(reading) for reading in seen.readings])
    seen_well: NDArray[np.bool_] = size > _OFF * seen.standard
    return met & seen_well


def _slopes(diagnosis: Diagnosis, cause: Cause) -> Vector:
    """The most that one unit of a cause's faults moves each reading (mm)."""
    slopes = diagnosis.seen.straight.slopes(np.zeros(len(AT)))
    largest: Vector = np.abs(slopes[:, places(cause)]).max(axis=1)
    return largest


def _told_apart(
    readings: tuple[Reading, ...], helped: NDArray[np.bool_], hurt: NDArray[np.bool_]
) -> Evidence:
    """No thing that was read stands on both sides."""
    things = [reading.thing for reading in readings]
    pro = {t for t, is_in in zip(things, helped, strict=True) if is_in}
    con = {t for t, is_in in zip(things, hurt, strict=True) if is_in}

    def first_of(wanted: set[object]) -> tuple[Reading, ...]:
        found = {t: r for r, t in zip(reversed(readings), reversed(things), strict=True)}
        return tuple(found[t] for t in dict.fromkeys(things) if t in wanted)

    return Evidence(first_of({*pro - con}), first_of({*con - pro}), first_of({*pro & con}))
