"""Sets of up to three causes, with the thread start where that is one, weighed by the readings.

Under one set every fault is normal about zero (a start about its whole pitches), and the
model is straight, so the probability of the readings has a closed form: normal with
covariance S = R + A·V·Aᵀ, where R is the readings' own, A the slopes and V the set's spreads.
Bayes' rule then needs the sets' prior chances alone.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

import numpy as np

from optics.finding.causes import ALL, AT, Cause, Vector, places
from optics.finding.diagnosis.observations import Observations
from optics.finding.diagnosis.priors import Priors
from optics.finding.diagnosis.sensitivity import Matrix

# Starts whose readings are e^30 times less likely than those of the best are not followed up.
_FAR_LESS = 30.0
# A bend of the model (mm) smaller than this is not worth a second step.
_BEND = 0.0005


@dataclass(frozen=True)
class Hypothesis:
    """These causes at work and no others; `steps` counts those of its stepped one too far out."""

    causes: frozenset[Cause]
    steps: int = 0

    @property
    def stepped(self) -> Cause | None:
        """The cause that is off by whole steps; None where there is none."""
        return next((cause for cause in self.causes if cause.steps), None)

    def shares_steps(self, other: "Hypothesis") -> bool:
        """Whether the same cause, or none, is off by as many steps."""
        return self.steps == other.steps and self.stepped is other.stepped


@dataclass(frozen=True)
class Weighed:
    """All hypotheses of one thread start with what the readings make of them.

    `log_weight` is prior times evidence, not yet shared out; `gains[h]` carries the readings
    to the faults; `centre` is the readings less what start and bend account for. Shapes:
    `log_weight` (hypotheses,), `spreads` (hypotheses, faults), `inverse` (hypotheses, readings,
    readings), `slopes` (readings, faults), `centre` (readings,), `shift` (faults,).
    """

    hypotheses: tuple[Hypothesis, ...]
    log_weight: Vector
    spreads: Matrix
    inverse: Matrix
    slopes: Matrix
    centre: Vector
    shift: Vector


@lru_cache(maxsize=64)
def cause_sets(causes: tuple[Cause, ...], most: int) -> tuple[frozenset[Cause], ...]:
    """Every set of at most so many of the causes."""
    return tuple(
        frozenset(chosen) for size in range(most + 1) for chosen in combinations(causes, size)
    )


@lru_cache(maxsize=64)
def _members(sets: tuple[frozenset[Cause], ...], possible: tuple[Cause, ...]) -> Matrix:
    """One for each cause that is in a set, a row for each set."""
    return np.array([[float(cause in chosen) for cause in possible] for chosen in sets])


def set_spreads(members: Matrix, possible: Sequence[Cause], priors: Priors) -> Matrix:
    """The standard deviation of each fault under each set, (sets, faults)."""
    sound = priors.spread(())
    at_work = np.array([priors.spread((cause,)) - sound for cause in possible])
    spreads: Matrix = sound + members @ at_work
    return spreads


def set_chances(members: Matrix, possible: Sequence[Cause], priors: Priors) -> Vector:
    """The logarithm of the prior chance that just the causes of each set are at work."""
    chance = np.array([priors.by_cause[cause].chance for cause in possible])
    logs: Vector = members @ np.log(chance) + (1 - members) @ np.log1p(-chance)
    return logs


def weigh(seen: Observations, priors: Priors, possible: tuple[Cause, ...]) -> list[Weighed]:
    """Weigh every set of the possible causes at every number of steps worth following up.

    Limits: two causes that go by steps are not looked for together.
    """
    sets = cause_sets(possible, priors.most_causes)
    # A count of steps shifts the readings, which a normal fault about zero cannot say; so each
    # count is a model of its own, and only the sets that share it are weighed in one go.
    plain = tuple(chosen for chosen in sets if not chosen & priors.steps.keys())
    weighed = [_at_steps(seen, priors, possible, Hypothesis(frozenset()), plain)]
    for cause in (cause for cause in possible if cause in priors.steps):
        with_it = tuple(chosen for chosen in sets if chosen & priors.steps.keys() == {cause})
        for count in _likely_steps(seen, priors, cause):
            off = Hypothesis(frozenset({cause}), count)
            weighed.append(_at_steps(seen, priors, possible, off, with_it))
    return weighed


def _likely_steps(seen: Observations, priors: Priors, cause: Cause) -> list[int]:
    """The numbers of steps that the readings do not rule out even with everything else wrong."""
    spread, steps = priors.spread(ALL), priors.steps[cause]
    # Readings by faults; one step moves the readings by its size times its fault's column.
    slopes = seen.straight.slopes(np.zeros(len(spread)))
    inverse = np.linalg.inv(seen.noise + (slopes * spread**2) @ slopes.T)
    counts = [0, *steps.counts]
    (at,) = places(cause)
    left = seen.values - np.outer(counts, steps.size * slopes[:, at])
    score = -0.5 * np.einsum("ki,ij,kj->k", left, inverse, left)
    return [k for k, s in zip(counts, score, strict=True) if k and s > score.max() - _FAR_LESS]


def _at_steps(
    seen: Observations,
    priors: Priors,
    possible: tuple[Cause, ...],
    off: Hypothesis,
    sets: tuple[frozenset[Cause], ...],
) -> Weighed:
    """Weigh the sets that share the steps that one cause, or none, is `off` by."""
    shift = np.zeros(len(AT))
    for cause in off.causes:
        shift[places(cause)] = off.steps * priors.step(cause)
    members = _members(sets, possible)
    spreads = set_spreads(members, possible, priors)
    prior = set_chances(members, possible, priors)
    # The chance that the cause is at work is shared out evenly among its counts.
    for cause in off.causes:
        prior -= math.log(len(priors.steps[cause].counts))
    hypotheses = tuple(Hypothesis(causes, off.steps) for causes in sets)
    first = _linear(seen, hypotheses, prior, spreads, shift, shift)
    best = int(np.argmax(first.log_weight))
    mean = fault_means(first, np.array([best]))[0]
    bend = seen.straight.errors(mean) - seen.straight.errors(shift)
    if np.abs(bend - first.slopes @ (mean - shift)).max() < _BEND:
        return first
    # One Gauss-Newton step: straighten the model where the best set puts the faults.
    return _linear(seen, hypotheses, prior, spreads, shift, mean)


def _linear(
    seen: Observations,
    hypotheses: tuple[Hypothesis, ...],
    prior: Vector,
    spreads: Matrix,
    shift: Vector,
    about: Vector,
) -> Weighed:
    """Weigh with the model made straight about a point (faults,).

    All sets at once: arrays run over (sets, readings, readings), small and many.
    """
    slopes = seen.straight.slopes(about)
    centre = seen.values - seen.straight.errors(about) + slopes @ (about - shift)
    spread_out = slopes[None] * spreads[:, None, :]
    covariance = seen.noise + spread_out @ spread_out.transpose(0, 2, 1)
    inverse = np.asarray(np.linalg.inv(covariance), dtype=np.float64)
    # The determinant is what a set pays for being able to explain much: Occam's factor.
    (_, log_det) = np.linalg.slogdet(covariance)
    distance = np.einsum("i,hij,j->h", centre, inverse, centre)
    weight = prior - 0.5 * (distance + log_det)
    return Weighed(hypotheses, weight, spreads, inverse, slopes, centre, shift)


def gains(weighed: Weighed, chosen: Vector) -> Matrix:
    """For the chosen hypotheses, the matrix that carries the readings to the faults.

    Equation: G = V·Aᵀ·S⁻¹, of shape (chosen, faults, readings).
    """
    spread = weighed.spreads[chosen] ** 2
    carried: Matrix = (spread[:, :, None] * weighed.slopes.T) @ weighed.inverse[chosen]
    return carried


def fault_means(weighed: Weighed, chosen: Vector) -> Matrix:
    """The most likely faults under each of the chosen hypotheses, (chosen, faults)."""
    means: Matrix = weighed.shift + gains(weighed, chosen) @ weighed.centre
    return means
