"""The readings as numbers: focus errors, the sources they share, and how far to trust them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import zip_longest

import numpy as np

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.finding.causes import Vector
from optics.finding.diagnosis.pooling import pooled
from optics.finding.diagnosis.sensitivity import Matrix, Straight
from optics.measure.uncertainty import Estimate, Source, coverage_factor, exact
from optics.readings.readings import Reading

# Beyond so many degrees of freedom t and normal differ by less than a thousandth.
_PLENTY = 1000.0


@dataclass(frozen=True)
class Observations:
    """Focus errors of all readings, with `shares[i, s]` what source s adds to reading i.

    `shares` is of shape (readings, sources), so that `shares @ shares.T` is their covariance.
    """

    readings: tuple[Reading, ...]
    errors: tuple[Estimate, ...]
    sources: tuple[Source, ...]
    shares: Matrix
    straight: Straight

    @cached_property
    def values(self) -> Vector:
        """The focus errors in mm."""
        return np.array([error.value for error in self.errors])

    @cached_property
    def noise(self) -> Matrix:
        """The covariance that weighs the readings, few repeats made to count for less.

        A source known by its own spread is widened by t/1.96, t Student's factor at 95 % for
        its degrees of freedom: three repeats, 4.30, weigh as if scattered 2.2 times as far.
        """
        wide = self.shares * np.array([widening(source.dof) for source in self.sources])
        # What two readings share, such as one gauge's limit, comes out off the diagonal by itself.
        noise: Matrix = wide @ wide.T
        return noise

    @cached_property
    def standard(self) -> Vector:
        """Each reading's own standard uncertainty in that covariance."""
        return np.sqrt(np.diag(self.noise))

    @cached_property
    def repeated(self) -> tuple[Vector, Vector]:
        """Of each reading, the variance that repeats told and its degrees of freedom."""
        limited = [
            [(part, s.dof) for s, part in error.parts.items() if s.dof < _PLENTY]
            for error in self.errors
        ]
        variance = [sum((part * widening(dof)) ** 2 for part, dof in told) for told in limited]
        dofs = [min((dof for _, dof in told), default=_PLENTY) for told in limited]
        return np.array(variance), np.array(dofs)


@lru_cache(maxsize=256)
def widening(dof: float) -> float:
    """How much wider the 95 % interval is than a normal one, for so many degrees of freedom."""
    if dof > _PLENTY:
        return 1.0
    return coverage_factor(max(dof, 1.0)) / coverage_factor(math.inf)


def observe(
    camera: Camera, readings: Sequence[Reading], also: Sequence[Estimate] = ()
) -> Observations:
    """Work every reading out to its focus error and set up the model for them all.

    `also` is added to each focus error (mm at the film): what the reading's own figures do not
    carry, such as the blur that the eye does not see.

    Errors: OutOfRange without readings, or for one without any uncertainty, which would
    outweigh all others; and whatever a reading itself refuses.
    """
    if not readings:
        raise OutOfRange("A diagnosis needs at least one reading: got none.", quantity="readings")
    alone = [reading.steps(camera)[-1].result for reading in readings]
    # Three repeats tell a scatter badly; nine, of three readings of a kind, tell it well.
    errors = pooled(readings, [e.plus(a) for e, a in zip_longest(alone, also, fillvalue=exact(0))])
    for number, (reading, error) in enumerate(zip(readings, errors, strict=True), start=1):
        if not error.standard:
            raise OutOfRange(
                f"Reading {number} ({reading.kind}) must have an uncertainty of more than 0 mm: "
                "got 0 mm; enter how far either way it may be out.",
                quantity="limit",
                value=0.0,
            )
    sources = tuple(dict.fromkeys(source for error in errors for source in error.parts))
    shares = np.array([[error.parts.get(s, 0.0) for s in sources] for error in errors])
    return Observations(tuple(readings), errors, sources, shares, Straight.of(camera, readings))
