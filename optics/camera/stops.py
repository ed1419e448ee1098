"""Engraved stops: the series in use, old ones among them, and the f-number behind each mark.

One convention everywhere unless a sheet or page says otherwise: a stop set by its mark counts
with its exact f-number, 2^(k/2); the full aperture counts as engraved, for it is no setting of a
series but what the lens was made to have, and tolerances rest on it.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from optics.errors import OutOfRange
from optics.theory import depth

ROOT_TEN = math.log2(10)
"""Whole stops from f/1 to f/3.162, where the old continental series begins."""


class Stops(StrEnum):
    """Which figure stands for an engraved stop in a calculation."""

    EXACT = "exact"
    MARKED = "marked"

    @property
    def words(self) -> str:
        """The convention in words, for whatever prints a stop."""
        return _SAID[self]


_SAID = {
    Stops.EXACT: "the exact f-numbers (f/5.6 is f/5.657; the full aperture as engraved)",
    Stops.MARKED: "the f-numbers as engraved",
}
FULL_AS_ENGRAVED = "The full aperture counts as engraved."
"""What is said beside a figure that rests on the full aperture."""


@dataclass(frozen=True)
class Stop:
    """One stop: the number engraved, and the f-number that belongs to it exactly."""

    marked: float
    exact: float


@dataclass(frozen=True)
class StopTable:
    """A series of engraved stops; `places` are whole stops from f/1, to be exact."""

    key: str
    name: str
    marks: tuple[float, ...]
    places: tuple[float, ...]
    source: str

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """Every stop of the series, the largest opening first."""
        formula = depth.exact_f_number.solve_for(depth.f_number)
        exact = (formula.value(stops=place) for place in self.places)
        return tuple(Stop(*both) for both in zip(self.marks, exact, strict=True))

    def find(self, marked: float) -> Stop | None:
        """The stop engraved so, if this series has it."""
        return next((s for s in self.stops if math.isclose(s.marked, marked)), None)


def _series(first: float, step: float, count: int) -> tuple[float, ...]:
    return tuple(first + step * k for k in range(count))


_EXACT = "exact values 2^(k/2): Dictionary of Optometry, table F1"
_FULL = (0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128)
_HALF = (1, 1.2, 1.4, 1.7, 2, 2.4, 2.8, 3.3, 4, 4.8, 5.6, 6.7, 8, 9.5, 11, 13, 16, 19, 22, 27, 32)
_THIRD = (
    1,
    1.1,
    1.2,
    1.4,
    1.6,
    1.8,
    2,
    2.2,
    2.5,
    2.8,
    3.2,
    3.5,
    4,
    4.5,
    5,
    5.6,
    6.3,
    7.1,
    8,
    9,
    10,
    11,
    13,
    14,
    16,
    18,
    20,
    22,
    25,
    29,
    32,
    36,
    40,
    45,
    51,
    57,
    64,
)
_OLD = (3.2, 4.5, 6.3, 9, 12.5, 18, 25, 36, 50, 71)
_UNIFORM = (1, 2, 4, 8, 16, 32, 64, 128)

FULL = StopTable(
    "full",
    "whole stops",
    _FULL,
    _series(-1, 1, 16),
    f"marked series: ISO 517 (by title; figures common practice); {_EXACT}",
)
HALF = StopTable(
    "half",
    "half stops",
    _HALF,
    _series(0, 1 / 2, 21),
    f"marked series: common practice, no source (3.3 is also engraved 3.4); {_EXACT}",
)
THIRD = StopTable(
    "third",
    "third stops",
    _THIRD,
    _series(0, 1 / 3, 37),
    f"marked series: common practice, no source (29 is also engraved 28); {_EXACT}",
)
OLD_CONTINENTAL = StopTable(
    "old_continental",
    "old continental stops",
    _OLD,
    _series(ROOT_TEN, 1, 10),
    "marked series: common practice, no source; exact values √10·2^(k/2), from memory",
)
UNIFORM_SYSTEM = StopTable(
    "uniform_system",
    "Uniform System (U.S.)",
    _UNIFORM,
    _series(4, 1, 8),
    "U.S. = N²/16: Photographic Society of Great Britain, 1881; table at sizes.com",
)

F_NUMBER_TABLES: tuple[StopTable, ...] = (FULL, THIRD, HALF, OLD_CONTINENTAL)
TABLES: dict[str, StopTable] = {t.key: t for t in (*F_NUMBER_TABLES, UNIFORM_SYSTEM)}


@dataclass(frozen=True)
class Meaning:
    """What an engraved stop is: its exact f-number, and which table says so.

    `table` is None where no series has the figure and it is taken as engraved; `others` are
    further series that have the same figure, with what it would be there.
    """

    marked: float
    f_number: float
    table: StopTable | None
    others: tuple[tuple[StopTable, float], ...] = ()

    @property
    def source(self) -> str:
        """Where the figure comes from, for a note beside it."""
        return "taken as engraved: in no series" if self.table is None else self.table.source


def meaning(marked: float, table: str | None = None) -> Meaning:
    """The exact f-number behind an engraved one, and which table says what.

    Equation: N = 2^(k/2), k the stop's place in its series. Without a `table` (a key of
    `TABLES`) the whole, third, half and old continental stops are searched in that order;
    U.S. stops must be asked for, because their numbers look like f-numbers.
    Errors: OutOfRange for a figure of zero or less, or that the table asked for lacks.
    Limits: makers rounded as they liked; a full aperture such as f/3.5 is often exact as it is.
    """
    depth.f_number.check(float(marked))
    if table is not None:
        return _in_table(marked, TABLES[table])
    found = [(t, s.exact) for t in F_NUMBER_TABLES if (s := t.find(marked))]
    if not found:
        return Meaning(marked, marked, None)
    (first, exact), *others = found
    return Meaning(marked, exact, first, tuple(others))


def _in_table(marked: float, table: StopTable) -> Meaning:
    stop = table.find(marked)
    if stop is None:
        known = ", ".join(f"{mark:g}" for mark in table.marks)
        raise OutOfRange(
            f"The stop must be one of the {table.name} {known}: got {marked:g}; "
            "check the engraving or choose another series.",
            quantity="f_number",
            value=marked,
            limit=table.marks,
        )
    return Meaning(marked, stop.exact, table)


def f_number(marked: float, stops: Stops = Stops.EXACT, table: str | None = None) -> float:
    """The f-number to calculate with for an engraved stop, exact or as marked.

    U.S. numbers are not f-numbers, so for them the exact one is given in either case.
    """
    found = meaning(marked, table)
    as_marked = stops is Stops.MARKED and found.table is not UNIFORM_SYSTEM
    return found.marked if as_marked else found.f_number


def set_stop(marked: float, full_aperture: float, stops: Stops = Stops.EXACT) -> float:
    """The f-number of a lens set to a mark: exact or as marked, wide open always as engraved.

    Equation: as `meaning`, but for the full aperture. Errors: as `meaning`.
    """
    return marked if math.isclose(marked, full_aperture) else f_number(marked, stops)


def said_stop(marked: float, full_aperture: float) -> str:
    """A stop as engraved, and which f-number it counts with when a lens is set to it."""
    said, used = f"f/{marked:.3g}", set_stop(marked, full_aperture)
    if math.isclose(marked, full_aperture):
        return f"{said} as engraved"
    return f"{said} (exactly {used:.4g})"
