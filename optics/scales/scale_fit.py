"""Fitting an engraved distance scale to measured marks, and testing every mark against it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid
from optics.errors import NoAnswer, ShimwrightError
from optics.measure.least_squares import (
    LeastSquaresFit,
    Model,
    carried,
    chance_of,
    covariance_of,
    least_squares,
)
from optics.measure.uncertainty import Estimate, coverage_factor
from optics.relation import Array, Formula
from optics.scales.ring_marks import ScaleMark
from optics.theory import front_cell, helicoid, lens, scale

FALSE_ALARM = 0.05
"""Chance that a faultless ring has any mark called wrong, over all its marks together."""
RIVAL = 2 * np.log(19)
"""Fall in chi-square by which one suspect must lead another to be named alone (19 to 1)."""
ZERO = "zero_angle"


@dataclass(frozen=True, eq=False)
class RingScale:
    """Where marks belong on a camera's ring, with all its figures as the camera has them."""

    formula: Formula
    given: dict[str, float]
    camera: Camera

    @classmethod
    def of(cls, camera: Camera) -> "RingScale":
        """The scale of a camera with a focusing thread; NoAnswer for one on a bed."""
        focusing = threaded(camera)
        known = camera.constants | {"lead": focusing.lead, ZERO: 0.0}
        relation = scale.cell_scale_mark if isinstance(focusing, FrontCell) else scale.scale_mark
        return cls(relation.solve_for(scale.mark_angle), known, camera)

    @property
    def lens_figure(self) -> str:
        """The focal length that shapes the scale: the lens's, or its front group's."""
        is_cell = isinstance(self.camera.focusing, FrontCell)
        return "group_focal_length" if is_cell else "focal_length"

    def model(self, distances: Array, free: Sequence[str], wrong: Sequence[int]) -> Model:
        """Predicted angles for the free figures and for an error of each mark called wrong."""
        shifts = np.eye(len(distances))[:, list(wrong)]

        def predict(values: Array) -> tuple[Array, Array]:
            known = self.given | dict(zip(free, map(float, values), strict=False))
            angles, slopes = self.formula.value_and_partials(film_distance=distances, **known)
            columns = [slopes[name] for name in free]
            return angles + shifts @ values[len(free) :], np.column_stack([*columns, shifts])

        return predict

    def start(self, free: Sequence[str], wrong: Sequence[int]) -> Array:
        """The camera's own figures, and no mark in error."""
        return np.array([*(self.given[name] for name in free), *(0.0 for _ in wrong)])

    def at_film(self, angle: float) -> float:
        """What an angle on the ring is worth at the film, in mm, by the camera's own thread."""
        travel = helicoid.ring_rotation.solve_for(helicoid.travel).value(
            rotation=angle, lead=self.given["lead"]
        )
        if not isinstance(self.camera.focusing, FrontCell):
            return travel
        return front_cell.film_effect.solve_for(lens.focus_error).value(
            cell_shift=travel,
            focal_length=self.camera.lens.focal_length,
            group_focal_length=self.camera.focusing.group_focal_length,
        )


def threaded(camera: Camera) -> Helicoid | FrontCell:
    """The camera's focusing thread; NoAnswer where there is none."""
    if isinstance(camera.focusing, Bed):
        raise NoAnswer(
            "A scale check needs a ring on a focusing thread: got a bed or struts; "
            "check its marks one by one with a target.",
            quantity="focusing",
        )
    return camera.focusing


@dataclass(frozen=True)
class MarkCheck:
    """One mark against the fit. Plus: it stands too far towards the near marks.

    `residual` in rad, `arc` in mm along the edge (None without a ring diameter), `at_film` in
    mm, where plus means that the ring set to this mark leaves the lens too far out.
    `out_by` is the mark's error as the other marks alone see it, and `standardised` that error
    over its uncertainty; both None where the fit hangs on this mark and it cannot be tested.
    `disagrees` when it is more than the readings explain, 5 % false alarms over all marks.
    """

    distance: float
    measured: float
    expected: float
    residual: float
    arc: float | None
    at_film: float
    standardised: float | None
    out_by: Estimate | None
    disagrees: bool


@dataclass(frozen=True, eq=False)
class ScaleFit:
    """Figures fitted to a scale: estimates by name, their covariance, and every mark.

    `rivals` are marks that could be wrong instead of one called wrong, nearly as well.
    """

    free: tuple[str, ...]
    found: dict[str, Estimate]
    covariance: Array
    chi_square: float
    dof: int
    condition: float
    marks: tuple[MarkCheck, ...]
    wrong: tuple[int, ...] = ()
    rivals: tuple[int, ...] = ()

    @cached_property
    def probability(self) -> float:
        """Chance of so large a chi-square from reading errors alone; 1 with nothing left over."""
        return chance_of(self.chi_square, self.dof)

    def is_determined(self, name: str, within: float = 0.1) -> bool:
        """Whether a figure is known at 95 % to a tenth of itself, or the part given."""
        estimate = self.found[name]
        return estimate.expanded <= within * abs(estimate.value)


def fit_scale(
    ring: RingScale, marks: Sequence[ScaleMark], free: Sequence[str], wrong: Sequence[int] = ()
) -> ScaleFit:
    """Fit the free figures of a ring's scale, leaving marks called `wrong` out of account.

    Weighted least squares on the catalogue's `scale_mark` or `cell_scale_mark`; the weights
    are the reading uncertainties as stated, with shared sources (reference, ring diameter).
    Errors: NoAnswer where the marks do not determine the figures, OutOfRange as the relation.
    """
    _refuse_unknown(ring, free)
    distances = np.array([mark.distance for mark in marks], np.float64)
    angles = [mark.angle for mark in marks]
    measured = np.array([angle.value for angle in angles])
    solved = least_squares(
        ring.model(distances, free, wrong), ring.start(free, wrong), measured, covariance_of(angles)
    )
    found = {
        name: carried(float(value), slopes, angles)
        for name, value, slopes in zip(free, solved.values, solved.gain, strict=False)
    }
    return ScaleFit(
        free=tuple(free),
        found=found,
        covariance=solved.covariance[: len(free), : len(free)],
        chi_square=solved.chi_square,
        dof=solved.dof,
        condition=solved.condition,
        marks=_checks(ring, marks, solved, tuple(wrong)),
        wrong=tuple(wrong),
    )


def fit_and_name(ring: RingScale, marks: Sequence[ScaleMark], free: Sequence[str]) -> ScaleFit:
    """Fit, call the worst mark wrong if it fails, and fit again until all the rest agree.

    Each round tests the mark whose removal lowers chi-square most, with a threshold that keeps
    false alarms over all marks together at 5 % (Šidák); at most a third of the marks can go.
    """
    fit = fit_scale(ring, marks, free)
    while len(fit.wrong) < len(marks) // 3 and fit.dof > 1:
        suspects = [i for i, mark in enumerate(fit.marks) if mark.disagrees and i not in fit.wrong]
        if not suspects:
            break
        fall = [0.0 if m.standardised is None else m.standardised**2 for m in fit.marks]
        for done in fit.wrong:
            fall[done] = 0.0
        worst = max(suspects, key=fall.__getitem__)
        close = (i for i, f in enumerate(fall) if i != worst and fall[worst] - f < RIVAL)
        rivals = (*fit.rivals, *close)
        fit = replace(fit_scale(ring, marks, free, (*fit.wrong, worst)), rivals=rivals)
    return fit


def _refuse_unknown(ring: RingScale, free: Sequence[str]) -> None:
    allowed = (ZERO, ring.lens_figure, "lead")
    for name in free:
        if name not in allowed:
            raise ShimwrightError(
                f"A scale can be fitted for {', '.join(allowed)}: got {name}; choose from these.",
                quantity="free",
                value=name,
            )


def _checks(
    ring: RingScale, marks: Sequence[ScaleMark], solved: LeastSquaresFit, wrong: tuple[int, ...]
) -> tuple[MarkCheck, ...]:
    angles = [mark.angle for mark in marks]
    first_shift = len(solved.values) - len(wrong)
    checks = []
    for i, mark in enumerate(marks):
        if i in wrong:
            row = first_shift + wrong.index(i)
            shift = carried(float(solved.values[row]), solved.gain[row], angles)
            checks.append(_check(ring, mark, shift.value, shift, len(marks)))
            continue
        out_by = _seen_by_others(solved, i, angles)
        checks.append(_check(ring, mark, float(solved.residuals[i]), out_by, len(marks)))
    return tuple(checks)


def _seen_by_others(solved: LeastSquaresFit, i: int, angles: Sequence[Estimate]) -> Estimate | None:
    """A mark's error against the fit without it; None where that fit would hang in the air."""
    own = float(solved.weight[i, i])
    if own * angles[i].standard ** 2 < 1e-6:
        return None
    return carried(float(solved.weight[i] @ solved.residuals) / own, solved.weight[i] / own, angles)


def _check(
    ring: RingScale, mark: ScaleMark, residual: float, out_by: Estimate | None, count: int
) -> MarkCheck:
    diameter = threaded(ring.camera).ring_diameter
    ratio = None if out_by is None else out_by.value / out_by.standard
    return MarkCheck(
        distance=mark.distance,
        measured=mark.angle.value,
        expected=mark.angle.value - residual,
        residual=residual,
        arc=None if diameter is None else arc_of(residual, diameter),
        at_film=ring.at_film(residual),
        standardised=ratio,
        out_by=out_by,
        disagrees=ratio is not None
        and out_by is not None
        and abs(ratio) > threshold(count, out_by.dof),
    )


def arc_of(angle: float, diameter: float) -> float:
    """An angle as an arc along an edge, in mm."""
    return helicoid.ring_arc.solve_for(helicoid.arc).value(rotation=angle, ring_diameter=diameter)


def threshold(count: int, dof: float) -> float:
    """The standardised error beyond which one of `count` marks is called wrong (Šidák)."""
    return coverage_factor(max(dof, 1.0), (1 - FALSE_ALARM) ** (1 / count))
