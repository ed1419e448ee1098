"""Which one further reading would tell most, and how much."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera
from optics.finding.causes import Vector
from optics.finding.diagnosis.duties import Duty
from optics.finding.diagnosis.posterior import Posterior
from optics.finding.diagnosis.sensitivity import Matrix, Straight
from optics.measure.uncertainty import LEVEL
from optics.readings.candidates import Candidate

# Points of the Gauss-Hermite rule over what the reading may show.
_NODES = 15
# Less gained than a fifth of the uncertainty is not worth another reading (common practice, no
# source).
_WORTH = 0.2


@dataclass(frozen=True)
class Gain:
    """What a further reading is expected to bring.

    `standard` is the worst duty's standard uncertainty now and after, as mm at the film;
    `wrong_cause` the probability that the most probable set of causes is not the true one.
    """

    candidate: Candidate
    standard: tuple[float, float]
    wrong_cause: tuple[float, float]

    @property
    def is_worth_it(self) -> bool:
        """Whether a fifth of the uncertainty goes, or a twentieth of the risk of a wrong cause."""
        now, after = self.standard
        risk, left = self.wrong_cause
        return after <= (1 - _WORTH) * now or risk - left >= 1 - LEVEL


def next_readings(
    camera: Camera, left: Posterior, wanted: Sequence[Duty], candidates: Sequence[Candidate]
) -> tuple[Gain, ...]:
    """Weigh each candidate by what it may show, best first.

    What it may show is foretold from every hypothesis that remains; for each such answer the
    hypotheses are weighed and the faults worked out again, and the outcome averaged. Ranked by
    the uncertainty left in the worst duty and the chance of a wrong cause, multiplied.
    """
    straight = Straight.of(camera, [c.reading for c in candidates])
    rows = straight.slopes(left.mean)
    duty_rows = np.array([duty.row for duty in wanted])
    gains = [
        _gain(left, duty_rows, candidate, row)
        for candidate, row in zip(candidates, rows, strict=True)
    ]
    return tuple(sorted(gains, key=lambda g: g.standard[1] * (0.05 + g.wrong_cause[1])))


def _gain(left: Posterior, duty_rows: Matrix, candidate: Candidate, row: Vector) -> Gain:
    """What one candidate is expected to bring; `duty_rows` is (duties, faults), `row` (faults,).

    Below, n counts what it may show (hypotheses × nodes), h hypotheses and d duties.
    """
    mean, variance = left.means @ row, ((row @ left.shares) ** 2).sum(axis=1)
    scatter = variance + candidate.standard**2
    shown, chance = _foretold(left.weights, mean, scatter)
    # Each answer weighs the hypotheses afresh by Bayes' rule: (n, h), against the greatest so
    # that nothing underflows to a row of zeros.
    log_density = -0.5 * ((shown[:, None] - mean) ** 2 / scatter + np.log(scatter))
    weights = left.weights * np.exp(log_density - log_density.max(axis=1, keepdims=True))
    weights /= weights.sum(axis=1, keepdims=True)
    after = _duties_after(left, duty_rows, row, (shown[:, None] - mean) / scatter, scatter)
    spread = chance @ _mixture_variance(weights, *after)
    now = _mixture_variance(left.weights[None, :], *_duties_now(left, duty_rows))[0]
    return Gain(
        candidate,
        (math.sqrt(float(now.max())), math.sqrt(float(spread.max()))),
        (1 - float(left.weights.max()), 1 - float(chance @ weights.max(axis=1))),
    )


def _foretold(weights: Vector, mean: Vector, scatter: Vector) -> tuple[Vector, Vector]:
    """What the reading may show, and how likely each is."""
    nodes, shares = np.polynomial.hermite_e.hermegauss(_NODES)
    shown = mean[:, None] + np.sqrt(scatter)[:, None] * nodes
    chance = weights[:, None] * shares / shares.sum()
    return shown.ravel(), chance.ravel()


def _duties_now(left: Posterior, duty_rows: Matrix) -> tuple[Matrix, Matrix]:
    parts = duty_rows @ left.shares
    return (left.means @ duty_rows.T)[None], (parts**2).sum(axis=2)[None]


def _duties_after(
    left: Posterior, duty_rows: Matrix, row: Vector, pull: Matrix, scatter: Vector
) -> tuple[Matrix, Matrix]:
    """Mean and variance of each duty under each hypothesis, once the reading showed something."""
    parts = duty_rows @ left.shares
    # Only what reading and duty share by their sources can be learned of one from the other.
    shared = np.einsum("hds,hs->hd", parts, row @ left.shares)
    means = left.means @ duty_rows.T + pull[:, :, None] * shared
    variances = (parts**2).sum(axis=2) - shared**2 / scatter[:, None]
    return means, np.broadcast_to(variances, means.shape)


def _mixture_variance(weights: Matrix, means: Matrix, variances: Matrix) -> Matrix:
    """Variance within and between hypotheses, for each answer and duty."""
    middle = np.einsum("nh,nhd->nd", weights, means)
    squares = np.einsum("nh,nhd->nd", weights, variances + means**2)
    # A difference of nearly equal squares may come out just below nothing.
    variance: Matrix = np.maximum(squares - middle**2, 0.0)
    return variance
