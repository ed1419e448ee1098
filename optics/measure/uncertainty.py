"""How well a figure is known, carried from the readings to every result.

The method is the Guide to the Expression of Uncertainty in Measurement (GUM, JCGM
100:2008). An `Estimate` remembers how strongly each independent `Source` of error bears
on it, so figures that share a source stay correlated without further bookkeeping.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from optics.errors import OutOfRange
from optics.relation import Formula, Quantity

LEVEL = 0.95


@dataclass(frozen=True, eq=False)
class Source:
    """One independent cause of error and the degrees of freedom with which it is known.

    `is_rectangular` says that every place within its limits is equally likely; only a draw
    by chance needs to know. Sources of one `pool` are independent, but one scatter, pooled from
    all their repeats, told the size of each: adding them up adds no degrees of freedom.
    """

    name: str
    dof: float = math.inf
    is_rectangular: bool = False
    pool: object = None


@dataclass(frozen=True)
class Estimate:
    """A value and, for each source, the signed standard uncertainty it contributes.

    `least` is what the expanded uncertainty cannot be below, whatever the sum says.
    """

    value: float
    parts: dict[Source, float] = field(default_factory=dict)
    least: float = 0.0

    @cached_property
    def standard(self) -> float:
        """Combined standard uncertainty (GUM 5.1.2; the sources are independent)."""
        return math.hypot(*self.parts.values())

    @cached_property
    def dof(self) -> float:
        """Effective degrees of freedom (Welch-Satterthwaite, GUM G.4.1)."""
        shares: dict[object, float] = {}
        dofs: dict[object, float] = {}
        for source, part in self.parts.items():
            if part:
                key = source if source.pool is None else source.pool
                shares[key] = shares.get(key, 0.0) + (part / self.standard) ** 2
                dofs[key] = source.dof
        limited = math.fsum(share**2 / dofs[key] for key, share in shares.items())
        return 1 / limited if limited else math.inf

    @cached_property
    def coverage(self) -> float:
        """The factor k for 95 %, from Student's t with the effective degrees of freedom."""
        return coverage_factor(self.dof)

    @cached_property
    def expanded(self) -> float:
        """Expanded uncertainty U = k·u at 95 %, but not below the least."""
        return max(self.coverage * self.standard, self.least) if self.standard else 0.0

    def plus(self, other: "Estimate", times: float = 1.0) -> "Estimate":
        """This estimate plus `times` the other, shared sources adding with their signs."""
        parts = dict(self.parts)
        for source, part in other.parts.items():
            parts[source] = parts.get(source, 0.0) + times * part
        return Estimate(self.value + times * other.value, parts)

    def moved(self, change: "Estimate") -> "Estimate":
        """This estimate after what it is of was moved by so much, known no better than before.

        A well known move raises the degrees of freedom, and its k may fall faster than its own
        doubt makes u grow. Nobody knows a figure better for having moved it, so U does not fall;
        only what both share can cancel, as where one unknown length stands behind both.
        """
        moved = self.plus(change)
        before = Estimate(self.value, {source: moved.parts[source] for source in self.parts})
        return replace(moved, least=max(before.expanded, self.least))


def coverage_factor(dof: float, level: float = LEVEL) -> float:
    """Student's t for a two-sided `level` and any real `dof` ≥ 1 (GUM table G.2).

    Errors: OutOfRange for fewer degrees of freedom, or a level that is not between 0 and 1.
    """
    # An effective number of 1 may have been rounded to a little less.
    if not dof >= 1 - 1e-9:
        raise OutOfRange(
            f"The degrees of freedom must be at least 1: got {dof:g}; take at least two readings.",
            quantity="dof",
            value=dof,
            limit=1,
        )
    if not 0 < level < 1:
        raise OutOfRange(
            f"The level of confidence must be between 0 and 1: got {level:g}; give 0.95 for 95 %.",
            quantity="level",
            value=level,
            limit=1,
        )
    from scipy.special import ndtri, stdtrit

    tail = (1 + level) / 2
    return float(ndtri(tail) if math.isinf(dof) else stdtrit(dof, tail))


def exact(value: float) -> Estimate:
    """A figure taken as given, such as a distance engraved on a ring."""
    return Estimate(value)


def chance_apart(apart: Estimate, pairs: int = 1) -> float:
    """How far two figures of one thing may lie apart by chance, one pair of so many; as `apart`.

    Equation: k·u, k at 95 % for one pair and, so that several pairs accuse no oftener, at
    1 − 0.05/pairs (Bonferroni). `apart` is their difference, shared sources allowed for.
    """
    return coverage_factor(apart.dof, 1 - (1 - LEVEL) / pairs) * apart.standard


def within(value: float, limit: float, name: str) -> Estimate:
    """A figure known to lie within ± `limit`, every place equally likely (GUM 4.3.7).

    Errors: OutOfRange for a figure that is not a number, or a limit below zero or infinite.
    """
    if math.isnan(value):
        raise OutOfRange(f"The {name} is not a number; enter it again.", quantity=name, value=value)
    if not limit >= 0 or math.isinf(limit):
        raise OutOfRange(
            f"The limit of {name} must be zero or more and finite: got {limit:g}; "
            "enter how far either way the figure may be out.",
            quantity=name,
            value=limit,
            limit=0.0,
        )
    source = Source(name, is_rectangular=True)
    return Estimate(value, {source: limit / math.sqrt(3)} if limit else {})


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
    if len(set(values)) == 1:
        # Worked out, the rounding of the mean would be taken for a scatter.
        return within(values[0], limit, name)
    mean = math.fsum(values) / count
    variance = math.fsum((v - mean) ** 2 for v in values) / (count - 1)
    known = within(mean, limit, name)
    spread = {Source(f"spread of {name}", count - 1): math.sqrt(variance / count)}
    return Estimate(mean, known.parts | (spread if variance else {}))


def from_distances(values: Sequence[float], limit: float, name: str) -> Estimate:
    """The distance that repeated readings of where it is sharp come to; infinity may be among them.

    Equation: 1/D is the mean of the 1/Dᵢ, u² = (D²·s/√n)² + limit²/3, s the spread of the 1/Dᵢ.
    What the lens has to do is nearly straight in 1/D and far from straight in D, so the mean is
    taken there (GUM 4.1.4, note). Each value and the limit in mm.
    Errors: OutOfRange for no reading, or one that is not more than zero.
    """
    if any(not value > 0 for value in values):
        raise OutOfRange(
            f"The {name} must be more than 0 mm: got {min(values):g} mm; check the reading.",
            quantity=name,
            value=min(values),
            limit=0.0,
        )
    if len(set(values)) == 1:
        return within(values[0], limit, name)
    nearness = from_repeats([1 / value for value in values], 0.0, name)
    mean = 1 / nearness.value
    known = within(mean, limit, name)
    spread = {source: part * mean**2 for source, part in nearness.parts.items()}
    return Estimate(mean, known.parts | spread)


def combine(formula: Formula, **inputs: Estimate) -> Estimate:
    """A formula's answer from estimated inputs: law of propagation, GUM 5.1.2 and 5.2.

    Errors: OutOfRange for an uncertain input that stands at the limit of what the formula can
    serve, where the least doubt would weigh without end.
    Limits: the formula is nearly straight over each input's uncertainty.
    """
    values = {name: estimate.value for name, estimate in inputs.items()}
    value, slopes = formula.value_and_partials(**values)
    for quantity in formula.inputs:
        if inputs[quantity.name].parts and not math.isfinite(slopes[quantity.name]):
            raise _at_its_limit(formula, quantity, values)
    parts: dict[Source, float] = {}
    for name, estimate in inputs.items():
        for source, part in estimate.parts.items():
            parts[source] = parts.get(source, 0.0) + slopes[name] * part
    return Estimate(value, parts)


def _at_its_limit(formula: Formula, quantity: Quantity, values: dict[str, float]) -> OutOfRange:
    """The sentence for an input so placed that no uncertainty can be carried through it."""
    got = quantity.said(values[quantity.name])
    limits = [
        f"may not stand right at its limit of {quantity.said(bound.limit_for(values))} "
        f"({bound.reason}) with an uncertainty"
        for bound in formula.relation.bounds
        if bound.quantity is quantity and bound.needs <= values.keys()
    ]
    where = (
        limits[0]
        if limits
        else "may not have an uncertainty here, where the least change of it weighs without end"
    )
    return OutOfRange(
        f"The {quantity.meaning} {where}: got {got}; take the reading a little beyond, or enter "
        "it without an uncertainty.",
        quantity=quantity.name,
        value=values[quantity.name],
    )


def weighted(weights: Iterable[float], estimates: Iterable[Estimate]) -> Estimate:
    """The sum of weight times estimate; shared sources add with their signs."""
    total = exact(0.0)
    for weight, estimate in zip(weights, estimates, strict=True):
        total = total.plus(estimate, float(weight))
    return total


def correlated(
    values: Sequence[float], covariance: ArrayLike, name: str, dof: float = math.inf
) -> tuple[Estimate, ...]:
    """Estimates of figures whose covariance matrix is known (GUM 5.2, H.2 and H.3).

    The matrix V is shared out over as many independent sources as there are figures, V = P·Pᵀ
    with P from its eigenvectors, so figures that are fully correlated are taken too.
    Errors: OutOfRange for a matrix that is no covariance of so many figures.
    """
    matrix = np.asarray(covariance, dtype=float)
    size = len(values)
    if matrix.shape != (size, size) or not np.allclose(matrix, matrix.T):
        raise OutOfRange(
            f"The covariance matrix of {name} must be symmetric with {size} rows and columns: "
            f"got {' × '.join(map(str, matrix.shape)) or 'one number'}; enter one row for each "
            "figure.",
            quantity=name,
            limit=size,
        )
    variances, directions = np.linalg.eigh(matrix)
    if variances[0] < -1e-9 * abs(variances[-1]):
        raise OutOfRange(
            f"The covariance matrix of {name} must leave every sum of the figures a variance of "
            f"zero or more: got {variances[0]:g}; check the correlations.",
            quantity=name,
            value=float(variances[0]),
            limit=0.0,
        )
    shares: NDArray[np.float64] = directions * np.sqrt(np.maximum(variances, 0.0))
    sources = [Source(f"{name} {number}", dof) for number in range(1, size + 1)]
    return tuple(
        Estimate(value, dict(zip(sources, row.tolist(), strict=True)))
        for value, row in zip(values, shares, strict=True)
    )


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
