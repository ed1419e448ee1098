"""The scale check as part of a result document; angles in rad, lengths in mm."""

from typing import Annotated

from pydantic import Field

from optics.camera.confusion import Convention
from optics.scales import scale_wording as wording
from optics.scales.depth_marks import ConfusionFound
from optics.scales.explanations import Explanation
from optics.scales.scale_check import ScaleCheck
from optics.scales.scale_fit import ScaleFit
from optics.typed.result_parts import Distance, FigureOut, Out

Figures = Annotated[
    dict[str, FigureOut],
    Field(description="zero_angle in rad; focal_length, group_focal_length and lead in mm"),
]
Probability = Annotated[
    float, Field(description="chance of so large a chi-square from reading errors alone")
]


class ExplanationOut(Out):
    """One cause with its weight; `mark` and `shift` (rad) for a single wrong mark alone."""

    cause: str
    weight: Annotated[float, Field(description="share of belief; all weights add up to 1")]
    words: str
    assumes: str
    figures: Figures
    chi_square: float
    degrees_of_freedom: int
    probability: Probability
    mark: Distance | None = None
    shift: FigureOut | None = None

    @classmethod
    def of(cls, check: ScaleCheck, cause: Explanation) -> "ExplanationOut":
        """The explanation as JSON can hold it."""
        marks = check.as_it_stands.marks
        return cls.taken_from(
            cause,
            words=wording.explanation_line(check, cause),
            figures=cause.found,
            degrees_of_freedom=cause.dof,
            mark=None if cause.mark is None else marks[cause.mark].distance,
        )


class MarkOut(Out):
    """A mark against the camera as it stands; plus is towards the near marks, too far out."""

    mark: Distance
    measured: Annotated[float, Field(description="rad")]
    expected: Annotated[float, Field(description="rad")]
    arc: Annotated[float | None, Field(description="mm off along the edge; null: no diameter")]
    at_film: Annotated[float, Field(description="mm, lens at this mark; plus is too far out")]
    disagrees: bool
    words: str


class FitOut(Out):
    """Figures fitted to the marks, the marks called wrong, and those that may be instead."""

    figures: Figures
    chi_square: float
    degrees_of_freedom: int
    probability: Probability
    wrong: tuple[Distance, ...]
    rivals: tuple[Distance, ...]

    @classmethod
    def of(cls, fit: ScaleFit | None) -> "FitOut | None":
        """The fit as JSON can hold it; None where the marks do not determine one."""
        if fit is None:
            return None
        return cls.taken_from(
            fit,
            figures=fit.found,
            degrees_of_freedom=fit.dof,
            wrong=[fit.marks[i].distance for i in fit.wrong],
            rivals=[fit.marks[i].distance for i in fit.rivals],
        )


class DepthMarkOut(Out):
    """One pair of depth marks, as angles from the index in rad."""

    f_number: float
    measured: float
    expected: float
    disagrees: bool


class ConfusionOut(Out):
    """The maker's circle of confusion in mm, read off the depth marks."""

    circle_of_confusion: FigureOut
    words: str
    chi_square: float
    degrees_of_freedom: int
    probability: Probability
    agrees_with: Annotated[
        tuple[str, ...], Field(description="conventions of the negative inside U, nearest first")
    ]
    marks: tuple[DepthMarkOut, ...]


class ScaleOut(Out):
    """What the measured scale tells; `verdict` is null where it cannot be told."""

    words: str
    verdict: str | None
    reference: str
    explanations: tuple[ExplanationOut, ...]
    marks: tuple[MarkOut, ...]
    fit: Annotated[FitOut | None, Field(description="zero and focal length fitted")]
    both: Annotated[FitOut | None, Field(description="zero, focal length and lead fitted")]
    both_determined: bool
    confusion: ConfusionOut | None


def scale_out(
    check: ScaleCheck | None,
    confusion: ConfusionFound | None,
    known: tuple[Convention, ...],
) -> ScaleOut | None:
    """The scale check, with the circle of confusion its depth marks show; None without one.

    `known` are the conventions that circle is compared with.
    """
    if check is None:
        return None
    return ScaleOut(
        words=wording.scale_headline(check),
        verdict=check.verdict.cause if check.verdict else None,
        reference=check.reference,
        explanations=tuple(ExplanationOut.of(check, e) for e in check.explanations),
        marks=tuple(
            MarkOut.taken_from(mark, mark=mark.distance, words=wording.mark_line(mark))
            for mark in check.as_it_stands.marks
        ),
        fit=FitOut.of(check.fit),
        both=FitOut.of(check.both),
        both_determined=check.both_determined,
        confusion=_confusion(confusion, known),
    )


def _confusion(found: ConfusionFound | None, known: tuple[Convention, ...]) -> ConfusionOut | None:
    if found is None:
        return None
    return ConfusionOut.taken_from(
        found,
        circle_of_confusion=found.value,
        words=wording.confusion_line(found, known),
        degrees_of_freedom=found.dof,
        agrees_with=[convention.name for convention in found.agreeing(known)],
    )
