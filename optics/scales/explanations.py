"""What could have made an engraved scale as it is, each cause with its weight."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from optics.errors import ShimwrightError
from optics.measure.least_squares import (
    LeastSquaresFit,
    Model,
    carried,
    chance_of,
    covariance_of,
    least_squares,
)
from optics.measure.uncertainty import Estimate, Source
from optics.relation import Array
from optics.scales.ring_marks import ScaleMark
from optics.scales.scale_fit import ZERO, RingScale

DEGREE = math.pi / 180
ANYWHERE = math.pi
"""Measured from a mark on the ring, its zero may be anywhere (standard deviation)."""
SLIP = 15 * DEGREE
"""Before measuring, a ring put on by hand is taken to be out by so much (standard deviation)."""
MISENGRAVED = 10 * DEGREE
"""Before measuring, a single wrong mark is taken to be out by so much (standard deviation)."""
OTHER_FIGURE = 0.25
"""Before measuring, another lens or thread is taken to differ by this part of the figure."""
RIGHT_BEFOREHAND = 4.0
"""Before measuring, a ring is so many times as likely to be right as to have any one fault."""
SURE = 0.95
"""The best explanation must have this share of its own and the next one's weight together."""
IMPLAUSIBLE = 0.001
"""Below this probability of its chi-square, even the best explanation does not fit."""


class Reference(StrEnum):
    """What the marks were measured from."""

    LENS_AT_INFINITY = "lens at infinity"
    RING_MARK = "ring mark"


class ScaleFault(StrEnum):
    """The explanations compared."""

    RIGHT = "right"
    SLIPPED = "slipped"
    OTHER_LENS = "other_lens"
    OTHER_LEAD = "other_lead"
    WRONG_MARK = "wrong_mark"


@dataclass(frozen=True)
class Explanation:
    """One cause: its share of belief, what it would have figures be, and how well it fits.

    `found` holds the figures it leaves free, with their uncertainty after measuring; `mark` is
    the place of the wrong mark, for that cause alone, and `shift` its error in rad.
    """

    cause: ScaleFault
    weight: float
    found: dict[str, Estimate]
    chi_square: float
    dof: int
    assumes: str
    mark: int | None = None
    shift: Estimate | None = None

    @property
    def probability(self) -> float:
        """Chance of so large a chi-square if this were the cause; 1 with nothing left over."""
        return chance_of(self.chi_square, self.dof)


@dataclass(frozen=True)
class _Candidate:
    """A cause to be tried: what it leaves free, and its share of the belief beforehand."""

    cause: ScaleFault
    free: tuple[str, ...]
    wrong: tuple[int, ...] = ()
    share: float = 1.0  # Against the other causes; only ratios count.


@dataclass(frozen=True, eq=False)
class _Tried:
    candidate: _Candidate
    solution: LeastSquaresFit
    log_evidence: float
    misfit: float


def explain(
    ring: RingScale, marks: Sequence[ScaleMark], reference: Reference
) -> tuple[Explanation, ...]:
    """Every explanation with its posterior weight, the likeliest first; weights add up to 1.

    The evidence of each is exp(−χ²/2) averaged over what it leaves free (normal priors, the
    integral by Laplace's method), so that a cause that could explain anything gains nothing by
    it. A ring that is right is beforehand four times as likely as any one fault; the faults are
    equally likely, as are all marks to be the wrong one.
    Errors: NoAnswer with no mark that has an uncertainty.
    Limits: reading errors near enough normal; one cause at a time.
    """
    tried = [_try(ring, marks, one, reference) for one in _candidates(ring, marks, reference)]
    best = max(t.log_evidence for t in tried)
    evidence = np.array([math.exp(t.log_evidence - best) * t.candidate.share for t in tried])
    weights = evidence / evidence.sum()
    causes = dict.fromkeys(t.candidate.cause for t in tried)
    found = (_gathered(ring, marks, tried, weights, cause, reference) for cause in causes)
    return tuple(sorted(found, key=lambda explanation: -explanation.weight))


def verdict(explanations: Sequence[Explanation]) -> Explanation | None:
    """The likeliest explanation if it leads the next 95 to 5 and fits; None: cannot tell."""
    first, second = explanations[:2]
    leads = first.weight >= SURE * (first.weight + second.weight)
    return first if leads and first.probability >= IMPLAUSIBLE else None


def _candidates(
    ring: RingScale, marks: Sequence[ScaleMark], reference: Reference
) -> list[_Candidate]:
    # From a mark on the ring nothing can be said of the ring's place, so its zero is left free.
    zero = (ZERO,) if reference is Reference.RING_MARK else ()
    found = [_Candidate(ScaleFault.RIGHT, zero, share=RIGHT_BEFOREHAND)]
    if reference is Reference.LENS_AT_INFINITY:
        found.append(_Candidate(ScaleFault.SLIPPED, (ZERO,)))
    found.append(_Candidate(ScaleFault.OTHER_LENS, (ZERO, ring.lens_figure)))
    found.append(_Candidate(ScaleFault.OTHER_LEAD, (ZERO, "lead")))
    share = 1 / len(marks)
    return found + [_Candidate(ScaleFault.WRONG_MARK, zero, (i,), share) for i in range(len(marks))]


def _priors(ring: RingScale, candidate: _Candidate, reference: Reference) -> Array:
    """Standard deviations beforehand, about the camera's own figures and no error."""
    slip = ANYWHERE if reference is Reference.RING_MARK else SLIP
    known = [slip if n == ZERO else OTHER_FIGURE * ring.given[n] for n in candidate.free]
    return np.array([*known, *(MISENGRAVED for _ in candidate.wrong)])


def _try(
    ring: RingScale, marks: Sequence[ScaleMark], candidate: _Candidate, reference: Reference
) -> _Tried:
    distances = np.array([mark.distance for mark in marks], np.float64)
    angles = [mark.angle for mark in marks]
    start, priors = ring.start(candidate.free, candidate.wrong), _priors(ring, candidate, reference)
    count, beyond = len(marks), len(priors)
    covariance = np.zeros((count + beyond, count + beyond))
    covariance[:count, :count] = covariance_of(angles)
    covariance[count:, count:] = np.diag(priors**2)
    measured = np.concatenate([[angle.value for angle in angles], start])
    model = _with_priors(ring.model(distances, candidate.free, candidate.wrong))
    solved = least_squares(model, start, measured, covariance)
    _, shrunk = np.linalg.slogdet(solved.covariance)
    log_evidence = -solved.chi_square / 2 + shrunk / 2 - float(np.log(priors).sum())
    beforehand = float(np.sum((solved.residuals[count:] / priors) ** 2))
    return _Tried(candidate, solved, log_evidence, solved.chi_square - beforehand)


def _with_priors(model: Model) -> Model:
    """The model with each parameter itself as a further measurement: what is held beforehand."""

    def both(values: Array) -> tuple[Array, Array]:
        predicted, slopes = model(values)
        return np.concatenate([predicted, values]), np.vstack([slopes, np.eye(len(values))])

    return both


def _gathered(
    ring: RingScale,
    marks: Sequence[ScaleMark],
    tried: Sequence[_Tried],
    weights: Array,
    cause: ScaleFault,
    reference: Reference,
) -> Explanation:
    """One explanation from its candidates: their weights together, the best one's figures."""
    own = [i for i, t in enumerate(tried) if t.candidate.cause is cause]
    best = tried[max(own, key=lambda i: float(weights[i]))]
    candidate, solved = best.candidate, best.solution
    names = (*candidate.free, *("the mark's error" for _ in candidate.wrong))
    held = [
        Estimate(0.0, {Source(f"held beforehand of {name}"): float(prior)})
        for name, prior in zip(names, _priors(ring, candidate, reference), strict=True)
    ]
    data = [*(mark.angle for mark in marks), *held]
    figures = [
        carried(float(value), slopes, data)
        for value, slopes in zip(solved.values, solved.gain, strict=True)
    ]
    return Explanation(
        cause=cause,
        weight=float(weights[own].sum()),
        found=dict(zip(candidate.free, figures, strict=False)),
        chi_square=best.misfit,
        dof=len(marks) - len(names),
        assumes=_assumes(cause, reference),
        mark=candidate.wrong[0] if candidate.wrong else None,
        shift=figures[-1] if candidate.wrong else None,
    )


_ASSUMED = {
    ScaleFault.RIGHT: "nothing is fitted",
    ScaleFault.SLIPPED: "the ring alone is out, by 15° or so either way beforehand",
    ScaleFault.OTHER_LENS: "hiatus and thread are this camera's; the scale's focal length is "
    "within about a quarter of the lens's beforehand; the ring was put on by hand",
    ScaleFault.OTHER_LEAD: "the lens is this camera's; the scale's lead is within about a "
    "quarter of the thread's beforehand; the ring was put on by hand",
    ScaleFault.WRONG_MARK: "one mark alone is out, by 10° or so either way beforehand, any of them "
    "equally likely",
}
_FREE_ZERO = "; measured from a mark on the ring, so its zero is left free"


def _assumes(cause: ScaleFault, reference: Reference) -> str:
    says_more = reference is Reference.RING_MARK and cause in (
        ScaleFault.RIGHT,
        ScaleFault.WRONG_MARK,
    )
    return _ASSUMED[cause] + (_FREE_ZERO if says_more else "")


def reference_named(text: str) -> Reference:
    """A reference by its words; ShimwrightError names the two there are."""
    if text in tuple(Reference):
        return Reference(text)
    raise ShimwrightError(
        f"The reference must be one of {', '.join(Reference)}: got {text!r}; choose one.",
        quantity="reference",
        value=text,
    )
