"""The circle of confusion a maker worked to, read off the engraved depth marks."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera, FrontCell
from optics.camera.confusion import Convention
from optics.camera.stops import Stops, set_stop
from optics.measure.least_squares import Model, carried, chance_of, covariance_of, least_squares
from optics.measure.uncertainty import Estimate
from optics.relation import Array, Formula, Given
from optics.scales.ring_marks import DepthMark
from optics.scales.scale_fit import threaded, threshold
from optics.theory import scale


@dataclass(frozen=True)
class DepthMarkCheck:
    """One pair of depth marks against the fit; angles in rad, plus when they stand too wide."""

    f_number: float
    measured: float
    expected: float
    residual: float
    standardised: float | None
    disagrees: bool


@dataclass(frozen=True)
class ConfusionFound:
    """The circle of confusion (mm) that the depth marks were made for, and how they agree.

    `stops` says with which f-numbers, `as_engraved` (mm) what it is with the engraved ones.
    """

    value: Estimate
    marks: tuple[DepthMarkCheck, ...]
    chi_square: float
    dof: int
    stops: Stops
    as_engraved: float

    @property
    def probability(self) -> float:
        """Chance of so large a chi-square from reading errors alone; 1 with nothing left over."""
        return chance_of(self.chi_square, self.dof)

    def nearest(self, conventions: Sequence[Convention]) -> tuple[Convention, ...]:
        """The conventions ordered by how near they come; equally near ones stay in order."""
        return tuple(sorted(conventions, key=lambda c: abs(c.value - self.value.value)))

    def agreeing(self, conventions: Sequence[Convention]) -> tuple[Convention, ...]:
        """The conventions inside the 95 % interval, the nearest first."""
        reach = self.value.expanded
        return tuple(
            c for c in self.nearest(conventions) if abs(c.value - self.value.value) <= reach
        )


def infer_confusion(
    camera: Camera, marks: Sequence[DepthMark], stops: Stops = Stops.EXACT
) -> ConfusionFound:
    """The circle of confusion behind a depth scale, from one or more pairs of marks.

    Equation: β = 2π·N·c/L for a lens that moves whole, times (f₁/f)² for a front cell; fitted
    by weighted least squares. The marks' f-numbers are as engraved; `stops` says which ones are
    reckoned with, the exact ones as where a scale is drawn, so that its own is found again.
    Errors: NoAnswer for a camera without a thread; OutOfRange for marks without uncertainty.
    Limits: distant subjects where the whole lens moves, any where the front cell does; makers'
    scales differ in whether they use exact stops.
    """
    camera.refuse_supposed("the depth marks of a front cell")
    angles = [mark.angle for mark in marks]
    widest = camera.lens.full_aperture
    used = np.array([set_stop(mark.f_number, widest, stops) for mark in marks], np.float64)
    measured = np.array([angle.value for angle in angles])
    start = np.array([camera.circle_of_confusion])
    solved = least_squares(_model(camera, used), start, measured, covariance_of(angles))
    worst = [
        _check(mark, float(r), float(p), float(w), len(marks))
        for mark, r, p, w in zip(
            marks,
            solved.residuals,
            solved.weight @ solved.residuals,
            np.diag(solved.weight),
            strict=True,
        )
    ]
    value = carried(float(solved.values[0]), solved.gain[0], angles)
    marked = stops is Stops.MARKED
    engraved = value if marked else infer_confusion(camera, marks, Stops.MARKED).value
    return ConfusionFound(value, tuple(worst), solved.chi_square, solved.dof, stops, engraved.value)


def _model(camera: Camera, stops: Array) -> Model:
    formula, known = depth_mark_formula(camera)

    def predict(values: Array) -> tuple[Array, Array]:
        angles, slopes = formula.value_and_partials(
            f_number=stops, circle_of_confusion=float(values[0]), **known
        )
        return angles, slopes["circle_of_confusion"][:, None]

    return predict


def depth_mark_formula(camera: Camera) -> tuple[Formula, dict[str, Given]]:
    """The relation that places depth marks on a camera's ring, and the camera's figures for it."""
    focusing = threaded(camera)
    known: dict[str, Given] = {"lead": focusing.lead}
    if not isinstance(focusing, FrontCell):
        return scale.depth_mark.solve_for(scale.depth_mark_angle), known
    known |= {
        "focal_length": camera.lens.focal_length,
        "group_focal_length": focusing.group_focal_length,
    }
    return scale.cell_depth_mark.solve_for(scale.depth_mark_angle), known


def _check(mark: DepthMark, residual: float, pull: float, own: float, count: int) -> DepthMarkCheck:
    is_tested = own * mark.angle.standard**2 > 1e-6
    ratio = pull / own**0.5 if is_tested else None
    return DepthMarkCheck(
        f_number=mark.f_number,
        measured=mark.angle.value,
        expected=mark.angle.value - residual,
        residual=residual,
        standardised=ratio,
        disagrees=ratio is not None and abs(ratio) > threshold(count, mark.angle.dof),
    )
