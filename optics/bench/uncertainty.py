"""How well a figure is known, carried from the readings to every result.

The method is the Guide to the Expression of Uncertainty in Measurement (GUM, JCGM
100:2008). An `Estimate` remembers how strongly each independent `Source` of error bears
on it, so figures that share a source stay correlated without further bookkeeping.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from optics.errors import OutOfRange
from optics.relation import Formula

LEVEL = 0.95


@dataclass(frozen=True, eq=False)
class Source:
    """One independent cause of error and the degrees of freedom with which it is known."""

    name: str
    dof: float = math.inf


@dataclass(frozen=True)
class Estimate:
    """A value and, for each source, the signed standard uncertainty it contributes."""

    value: float
    parts: dict[Source, float] = field(default_factory=dict)

    @cached_property
    def standard(self) -> float:
        """Combined standard uncertainty (GUM 5.1.2; the sources are independent)."""
        return math.hypot(*self.parts.values())

    @cached_property
    def dof(self) -> float:
        """Effective degrees of freedom (Welch-Satterthwaite, GUM G.4.1)."""
        limited = math.fsum(
            (part / self.standard) ** 4 / source.dof for source, part in self.parts.items() if part
        )
        return 1 / limited if limited else math.inf

    @cached_property
    def coverage(self) -> float:
        """The factor k for 95 %, from Student's t with the effective degrees of freedom."""
        return coverage_factor(self.dof)

    @cached_property
    def expanded(self) -> float:
        """Expanded uncertainty U = k·u at 95 %."""
        return self.coverage * self.standard if self.standard else 0.0

    def plus(self, other: "Estimate", times: float = 1.0) -> "Estimate":
        """This estimate plus `times` the other, shared sources adding with their signs."""
        parts = dict(self.parts)
        for source, part in other.parts.items():
            parts[source] = parts.get(source, 0.0) + times * part
        return Estimate(self.value + times * other.value, parts)


def coverage_factor(dof: float, level: float = LEVEL) -> float:
    """Student's t for a two-sided `level` and any real `dof` ≥ 1 (GUM table G.2)."""
    from scipy.special import ndtri, stdtrit

    tail = (1 + level) / 2
    return float(ndtri(tail) if math.isinf(dof) else stdtrit(dof, tail))


def exact(value: float) -> Estimate:
    """A figure taken as given, such as a distance engraved on a ring."""
    return Estimate(value)


def within(value: float, limit: float, name: str) -> Estimate:
    """A figure known to lie within ± `limit`, every place equally likely (GUM 4.3.7)."""
    if not limit >= 0 or math.isinf(limit):
        raise OutOfRange(
            f"The limit of {name} must be zero or more and finite: got {limit:g}; "
            "enter how far either way the figure may be out.",
            quantity=name,
            value=limit,
            limit=0.0,
        )
    return Estimate(value, {Source(name): limit / math.sqrt(3)} if limit else {})


def from_repeats(values: Sequence[float], limit: float, name: str) -> Estimate:
    """The mean of repeated readings: their spread (Type A) and the instrument's ± `limit`.

    Equation: u² = s²/n + limit²/3, s the sample standard deviation (GUM 4.2.3 and 4.3.7).
    One reading alone has no spread; with two the factor k is 12.7, so take at least three.
    Errors: OutOfRange for no reading, or one that is infinite among several.
    """
    count = len(values)
    if count == 0:
        raise OutOfRange(f"The {name} needs at least one reading: got none.", quantity=name)
    if count == 1:
        return within(values[0], limit, name)
    if any(math.isinf(v) for v in values):
        raise OutOfRange(
            f"Repeated readings of {name} must all be finite: got infinity; enter it once.",
            quantity=name,
            value=math.inf,
        )
    mean = math.fsum(values) / count
    variance = math.fsum((v - mean) ** 2 for v in values) / (count - 1)
    known = within(mean, limit, name)
    spread = {Source(f"spread of {name}", count - 1): math.sqrt(variance / count)}
    return Estimate(mean, known.parts | (spread if variance else {}))


def combine(formula: Formula, **inputs: Estimate) -> Estimate:
    """A formula's answer from estimated inputs: law of propagation, GUM 5.1.2 and 5.2.

    Limits: the formula is nearly straight over each input's uncertainty.
    """
    value, slopes = formula.value_and_partials(**{k: v.value for k, v in inputs.items()})
    parts: dict[Source, float] = {}
    for name, estimate in inputs.items():
        for source, part in estimate.parts.items():
            parts[source] = parts.get(source, 0.0) + slopes[name] * part
    return Estimate(value, parts)


def conformity(estimate: Estimate, tolerance: float) -> float:
    """The probability that the true figure lies within ± `tolerance` (JCGM 106:2012, 7.2).

    Equation: p = F((T − y)/u) − F((−T − y)/u), F the distribution of Student's t with the
    effective degrees of freedom. Limits: nothing else is known of the figure beforehand.
    """
    from scipy.special import ndtr, stdtr

    if not estimate.standard:
        return float(abs(estimate.value) <= tolerance)
    ends = [(end - estimate.value) / estimate.standard for end in (-tolerance, tolerance)]
    low, high = (ndtr(e) if math.isinf(estimate.dof) else stdtr(estimate.dof, e) for e in ends)
    return float(high - low)


def budget(estimate: Estimate) -> Iterable[tuple[str, float, float]]:
    """Each source's name, standard uncertainty and share of the variance, largest first."""
    ordered = sorted(estimate.parts.items(), key=lambda item: -abs(item[1]))
    whole = estimate.standard
    return [(s.name, abs(part), (part / whole) ** 2) for s, part in ordered if part]
