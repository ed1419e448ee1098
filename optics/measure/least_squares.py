"""Fitting a curved model to estimates that may share sources of error.

Solved by orthogonal factors (QR) of the design with its columns brought to one length: forming
the normal equations would square the condition, and units alone would lose digits.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, Source
from optics.relation import Array

Model: TypeAlias = Callable[[Array], tuple[Array, Array]]
"""From parameters to the predicted values and their slopes, one column a parameter."""

MOST_STEPS = 60
MOST_HALVINGS = 30
CLOSE_ENOUGH = 1e-9
"""A step that moves no prediction by more than this part of its uncertainty is the last."""
WORST_CONDITION = 1e12
"""Beyond it fewer than four of a double's sixteen digits are left: refused, never rounded off."""
_ROUNDING = 64 * np.finfo(np.float64).eps


@dataclass(frozen=True, eq=False)
class LeastSquaresFit:
    """The best parameters, what they owe to each measurement, and what is left over.

    Of n measurements and p parameters: `values` (p,), `covariance` (p, p), `residuals` (n,).
    `gain` (p, n) is the slope of each parameter to each measurement; `weight` (n, n) is the matrix
    that turns measurements into weighted residuals, V⁻¹ − V⁻¹J(JᵀV⁻¹J)⁻¹JᵀV⁻¹.
    """

    values: Array
    covariance: Array
    gain: Array
    residuals: Array
    weight: Array
    chi_square: float
    condition: float

    @property
    def dof(self) -> int:
        """Measurements less parameters."""
        return len(self.residuals) - len(self.values)


def chance_of(chi_square: float, dof: int) -> float:
    """Chance of so large a chi-square from the errors alone; 1 where nothing is left over."""
    from scipy.special import chdtrc

    return float(chdtrc(dof, chi_square)) if dof > 0 else 1.0


def covariance_of(estimates: Sequence[Estimate]) -> Array:
    """The covariance matrix (n, n) of n estimates, shared sources included."""
    return _parts(estimates)[1]


def _parts(estimates: Sequence[Estimate]) -> tuple[list[Source], Array]:
    # A row an estimate, a column a source: what two estimates share stands in one column, so that
    # the table times its own transpose has the correlation without any bookkeeping.
    sources = list(dict.fromkeys(source for e in estimates for source in e.parts))
    table = np.array([[e.parts.get(s, 0.0) for s in sources] for e in estimates])
    return sources, table @ table.T


def carried(value: float, slopes: Array, estimates: Sequence[Estimate]) -> Estimate:
    """A value that depends on estimates with the slopes given, its uncertainty by source."""
    whole = Estimate(0.0)
    for slope, estimate in zip(slopes, estimates, strict=True):
        whole = whole.plus(estimate, float(slope))
    return Estimate(value, whole.parts)


def least_squares(
    model: Model, start: Array, measured: Array, covariance: Array
) -> LeastSquaresFit:
    """Weighted least squares by Gauss-Newton steps, halved where they overshoot.

    Minimises rᵀV⁻¹r of the residuals r = measured − predicted with covariance V. Shapes: `start`
    (p,), `measured` (n,), `covariance` (n, n); the model answers (n,) and (n, p).
    Errors: NoAnswer where the measurements do not determine the parameters, or one of them
    has no uncertainty at all.
    Limits: needs a start from which the sum falls steadily; slopes must exist.
    """
    root = _root_of(covariance)
    values, (predicted, slopes) = start, model(start)
    for _ in range(MOST_STEPS):
        design, misfit = _in_units_of(root, slopes), _in_units_of(root, measured - predicted)
        sizes = _sizes(design)
        step = np.asarray(np.linalg.lstsq(design / sizes, misfit, rcond=None)[0]) / sizes
        # Where large terms all but cancel, no step gets nearer than their last digits.
        blind = _ROUNDING * np.max(np.abs(design) @ np.abs(values), initial=0.0)
        values, (predicted, slopes) = _advance(model, values, step, (root, measured, misfit))
        if np.max(np.abs(design @ step), initial=0.0) < max(CLOSE_ENOUGH, blind):
            return _solution(values, measured - predicted, slopes, root)
    raise _undetermined("the fit does not settle")


def _root_of(covariance: Array) -> Array:
    try:
        return np.asarray(np.linalg.cholesky(covariance), np.float64)
    except np.linalg.LinAlgError:
        raise OutOfRange(
            "Every measured mark must have an uncertainty of its own: got one with none; "
            "enter a reading limit above zero.",
            quantity="limit",
            value=0.0,
            limit=0.0,
        ) from None


def _sizes(design: Array) -> Array:
    """The columns' lengths, which depend on the parameters' units alone; 1 where there is none."""
    lengths = np.linalg.norm(design, axis=0)
    return np.where(lengths > 0, lengths, 1.0)


def _in_units_of(root: Array, values: Array) -> Array:
    """Values, or columns of them, as independent multiples of their uncertainty."""
    return np.asarray(np.linalg.solve(root, values), np.float64)


def _advance(
    model: Model, values: Array, step: Array, target: tuple[Array, Array, Array]
) -> tuple[Array, tuple[Array, Array]]:
    """Go along the step as far as the sum of squares falls and the model has a meaning."""
    root, measured, misfit = target
    # At the least sum a step can only lose by rounding: that much worse still counts as arrived.
    present = float(misfit @ misfit) * (1 + 1e-12) + 1e-15
    for _ in range(MOST_HALVINGS):
        try:
            there = model(values + step)
        except (OutOfRange, NoAnswer):
            # A lens cannot have a focal length below 0: too long a step is no sign of a bad fit.
            step = step / 2
            continue
        ahead = _in_units_of(root, measured - there[0])
        if float(ahead @ ahead) <= present:
            return values + step, there
        step = step / 2
    raise _undetermined("no step improves the fit")


def _solution(values: Array, residuals: Array, slopes: Array, root: Array) -> LeastSquaresFit:
    design, white = _in_units_of(root, slopes), _in_units_of(root, residuals)
    condition = _condition(design)
    if not condition <= WORST_CONDITION:
        raise _undetermined(f"condition number {condition:.1e}")
    sizes = _sizes(design)
    directions, triangle = np.linalg.qr(design / sizes)
    # With design = QRS the covariance is S⁻¹R⁻¹(S⁻¹R⁻¹)ᵀ, and QQᵀ is what the fit takes up.
    spread = np.linalg.solve(triangle, np.eye(len(sizes))) / sizes[:, None]
    # `keep` is what no choice of parameters could take up: the residuals live there alone.
    inverse_root = _in_units_of(root, np.eye(len(residuals)))
    keep = np.eye(len(residuals)) - directions @ directions.T
    return LeastSquaresFit(
        values=values,
        covariance=spread @ spread.T,
        gain=spread @ directions.T @ inverse_root,
        residuals=residuals,
        weight=inverse_root.T @ keep @ inverse_root,
        chi_square=float(white @ white),
        condition=condition,
    )


def _condition(design: Array) -> float:
    """How nearly two columns say the same, whatever the units of their parameters."""
    if not design.shape[1]:
        return 1.0
    lengths = np.linalg.norm(design, axis=0)
    if design.shape[0] < design.shape[1] or not np.all(lengths):
        return float("inf")
    return float(np.linalg.cond(design / lengths))


def _undetermined(why: str) -> NoAnswer:
    return NoAnswer(
        f"The marks measured do not determine what was asked of them ({why}); "
        "measure more marks, near ones above all, or ask for fewer figures.",
        quantity="marks",
    )
