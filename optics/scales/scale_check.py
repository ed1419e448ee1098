"""The scale check: measured marks in; what the scale is, which mark is wrong, and why, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.errors import NoAnswer
from optics.measure.verdict import Verdict
from optics.scales.explanations import (
    Explanation,
    Reference,
    ScaleFault,
    explain,
    reference_named,
    verdict,
)
from optics.scales.ring_marks import ScaleMark
from optics.scales.scale_fit import ZERO, RingScale, ScaleFit, fit_and_name, fit_scale


@dataclass(frozen=True, eq=False)
class ScaleCheck:
    """Everything that measured distance marks tell of a ring.

    `as_it_stands` compares the marks with the camera's own figures, nothing fitted but, from a
    mark on the ring, its zero. `fit` has the figures asked for. `both` has zero, focal length
    and lead together, None where the marks cannot tell them apart at all.
    """

    camera: Camera
    reference: Reference
    as_it_stands: ScaleFit
    fit: ScaleFit | None
    both: ScaleFit | None
    explanations: tuple[Explanation, ...]

    @property
    def verdict(self) -> Explanation | None:
        """The explanation that leads 95 to 5 and fits; None where it cannot be told."""
        return verdict(self.explanations)

    @property
    def judged(self) -> Verdict:
        """Whether the ring is right; any other explanation says what it is instead."""
        found = self.verdict
        if found is None:
            return Verdict.UNSURE
        return Verdict.INSIDE if found.cause is ScaleFault.RIGHT else Verdict.OUTSIDE

    @property
    def both_determined(self) -> bool:
        """Whether the marks tell focal length and lead apart, each to a tenth at 95 %."""
        both = self.both
        return both is not None and all(
            both.is_determined(name) for name in both.free if name != ZERO
        )


def check_scale(
    camera: Camera,
    marks: Sequence[ScaleMark],
    reference: str = Reference.LENS_AT_INFINITY,
    free: Sequence[str] | None = None,
) -> ScaleCheck:
    """Compare a ring's engraved distances with the camera, and say what explains them.

    `marks` are angles + towards the near marks. From `lens at infinity` they begin where the
    ring meets its index with the lens truly at infinity; from `ring mark` at any mark on the
    ring, and then the ring's own place cannot be judged. `free` names what to fit: zero_angle,
    lead, and focal_length (group_focal_length for a front cell); zero and focal length unless
    given.
    Errors: NoAnswer for a camera without a thread or for fewer than two marks; OutOfRange for
    a mark nearer than the lens can focus, or one without uncertainty.
    Limits: paraxial; a thread of constant lead; hiatus, or K of a front cell, taken as given.
    """
    begin = reference_named(reference)
    _refuse_too_few(marks)
    camera.refuse_supposed("the marks of a front cell's scale")
    ring = RingScale.of(camera)
    as_it_stands = fit_scale(ring, marks, (ZERO,) if begin is Reference.RING_MARK else ())
    return ScaleCheck(
        camera=camera,
        reference=begin,
        as_it_stands=as_it_stands,
        fit=_if_determined(ring, marks, (ZERO, ring.lens_figure) if free is None else tuple(free)),
        both=_if_determined(ring, marks, (ZERO, ring.lens_figure, "lead")),
        explanations=explain(ring, marks, begin),
    )


def _refuse_too_few(marks: Sequence[ScaleMark]) -> None:
    if len({mark.distance for mark in marks}) < 2:
        raise NoAnswer(
            f"A scale check needs at least two different marks: got {len(marks)}; measure more "
            "of the scale, the nearest mark above all.",
            quantity="marks",
            value=len(marks),
            limit=2,
        )


def _if_determined(
    ring: RingScale, marks: Sequence[ScaleMark], free: tuple[str, ...]
) -> ScaleFit | None:
    """The fit, or None where so few or such marks do not determine it."""
    try:
        fit = fit_scale(ring, marks, free)
    except NoAnswer:
        return None
    return fit_and_name(ring, marks, free) if fit.dof > 1 else fit
