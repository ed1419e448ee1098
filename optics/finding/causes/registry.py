"""Every cause there is, found by being in its folder, and where its faults stand in a vector."""

from collections.abc import Iterable
from importlib import import_module
from pkgutil import iter_modules

import numpy as np
from numpy.typing import NDArray

from optics.finding.causes.record import Cause
from optics.readings.spots import Spot

Vector = NDArray[np.float64]

ALL: list[Cause] = []
"""The causes in the order in which they are listed everywhere."""
IN_ORDER: list[Cause] = []
"""The causes in the order in which they are put right."""
NAMES: list[str] = []
"""The faults of all causes, in the order of a vector."""
AT: dict[str, int] = {}
"""Where each fault stands in a vector."""


def add(cause: Cause) -> None:
    """Have a cause looked for; a test may add one of its own, and `drop` it again."""
    _settle([*ALL, cause])


def drop(cause: Cause) -> None:
    """Look for a cause no more."""
    _settle([one for one in ALL if one is not cause])


def _settle(causes: list[Cause]) -> None:
    # Filled in place: whoever has taken hold of these lists sees every cause.
    ALL[:] = sorted(causes, key=lambda one: one.order)
    IN_ORDER[:] = sorted(ALL, key=lambda one: (one.step, one.within))
    NAMES[:] = [name for cause in ALL for name in cause.figures]
    AT.clear()
    AT.update({name: place for place, name in enumerate(NAMES)})


def places(cause: Cause) -> list[int]:
    """Where a cause's faults stand in a vector."""
    return [AT[name] for name in cause.figures]


def named(name: str) -> Cause:
    """The cause of this name."""
    return next(cause for cause in ALL if cause.name == name)


def owner_of(fault: str) -> Cause:
    """The cause that a fault belongs to."""
    return next(cause for cause in ALL if fault in cause.figures)


def disturbed_by(faults: Iterable[str]) -> frozenset[Spot]:
    """Where readings say nothing more once these faults were moved."""
    return frozenset[Spot]().union(*(owner_of(fault).spots for fault in faults))


def find(package: str, folder: list[str]) -> None:
    """Take in every record that stands in the folder of a package."""
    for module in iter_modules(folder):
        found = vars(import_module(f"{package}.{module.name}")).values()
        for one in found:
            if isinstance(one, Cause) and one not in ALL:
                add(one)
