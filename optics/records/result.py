"""What `shimwright solve --json` prints: every figure with its uncertainty, documented."""

import math
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from optics.bench import wording
from optics.bench.correction import Correction, Sight, parallax_advice
from optics.bench.readings import ParallaxReading
from optics.bench.remedies import Offer, Remedy
from optics.bench.uncertainty import Estimate, budget
from optics.records.solve import Solution

Distance: TypeAlias = Annotated[
    float | Literal["inf"], Field(description="mm from the film plane, or “inf”")
]


class _Out(BaseModel):
    model_config = ConfigDict(frozen=True)


class FigureOut(_Out):
    """A figure in mm at the film with its uncertainty."""

    value: float
    standard_uncertainty: float
    degrees_of_freedom: Annotated[float | None, Field(description="effective; null means infinite")]
    coverage_factor: Annotated[float, Field(description="k for 95 %, Student's t")]
    expanded_uncertainty: Annotated[float, Field(description="U = k·u, 95 %")]
    budget: Annotated[dict[str, float], Field(description="standard uncertainty from each source")]

    @classmethod
    def of(cls, estimate: Estimate) -> "FigureOut":
        """The figure as JSON can hold it."""
        return cls(
            value=estimate.value,
            standard_uncertainty=estimate.standard,
            degrees_of_freedom=None if math.isinf(estimate.dof) else estimate.dof,
            coverage_factor=estimate.coverage,
            expanded_uncertainty=estimate.expanded,
            budget={name: size for name, size, _ in budget(estimate)},
        )


class SightOut(_Out):
    """What is seen with the ring at a mark; null where nothing is sharp."""

    mark: Distance
    sharp_at: Distance | None
    nearest: Distance | None
    farthest: Distance | None
    blur_mm: float
    looks_sharp: bool

    @classmethod
    def of(cls, sight: Sight) -> "SightOut":
        """The sight as JSON can hold it."""
        return cls(
            mark=_distance(sight.mark),
            sharp_at=_maybe(sight.sharp_at),
            nearest=_maybe(sight.nearest),
            farthest=_maybe(sight.farthest),
            blur_mm=sight.blur,
            looks_sharp=sight.looks_sharp,
        )


class RemedyOut(_Out):
    """A remedy, or why it does not apply; `figures` in mm, radians or counts."""

    kind: str
    title: str
    applies: bool
    words: str
    figures: dict[str, float | str] = {}
    residual: FigureOut | None = None
    verdict: str | None = None
    within_depth_of_focus: bool | None = None
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @classmethod
    def of(cls, offer: Offer) -> "RemedyOut":
        """The offer as JSON can hold it."""
        if not isinstance(offer, Remedy):
            return cls(kind=offer.kind, title=offer.title, applies=False, words=offer.reason)
        return cls(
            kind=offer.kind,
            title=offer.title,
            applies=True,
            words=offer.instruction,
            figures=offer.figures,
            residual=FigureOut.of(offer.residual),
            verdict=offer.verdict,
            within_depth_of_focus=offer.within_depth_of_focus,
            notes=offer.notes,
            cautions=tuple(c.text for c in offer.cautions),
        )


class AnswerOut(_Out):
    """The answer to one reading; parallax gives the sense alone."""

    reading: str
    words: str
    sense: str
    error: FigureOut | None = None
    verdict: str | None = None
    sights: tuple[SightOut, ...] = ()
    remedies: tuple[RemedyOut, ...] = ()
    working: tuple[str, ...] = ()


class ResultDocument(_Out):
    """All answers of a job, with the tolerance they were held to (mm at the film)."""

    format: Literal["shimwright result"] = "shimwright result"
    version: Literal[1] = 1
    title: str
    camera: str
    allowed_error: float
    depth_of_focus: float
    answers: tuple[AnswerOut, ...]


def result_of(solution: Solution) -> ResultDocument:
    """The whole solution as a document."""
    camera = solution.camera
    return ResultDocument(
        title=solution.job.title,
        camera=camera.name,
        allowed_error=camera.allowed_error,
        depth_of_focus=camera.depth_of_focus,
        answers=tuple(_answer(a) for a in solution.answers),
    )


def _answer(answer: Correction | ParallaxReading) -> AnswerOut:
    if isinstance(answer, ParallaxReading):
        return AnswerOut(
            reading=answer.kind, words=parallax_advice(answer), sense=answer.sense.words
        )
    return AnswerOut(
        reading=answer.reading.kind,
        words=wording.headline(answer),
        sense=answer.sense.words,
        error=FigureOut.of(answer.error),
        verdict=answer.verdict,
        sights=tuple(SightOut.of(s) for s in answer.sights),
        remedies=tuple(RemedyOut.of(o) for o in answer.offers),
        working=tuple(line for step in answer.steps for line in step.working_text()),
    )


def _distance(mm: float) -> float | Literal["inf"]:
    return "inf" if math.isinf(mm) else mm


def _maybe(mm: float | None) -> float | Literal["inf"] | None:
    return None if mm is None else _distance(mm)
