"""What `shimwright solve --json` prints: every figure with its uncertainty, documented."""

from typing import Annotated, Literal

from pydantic import Field

from optics.account.result import AccountOut
from optics.body.standard.result import StandardOut, standard_out
from optics.camera.supposed import supposed_lines
from optics.finding.disagreement import Disagreement, disagreement_line
from optics.finding.result import DiagnosisOut, diagnosis_out
from optics.rangefinder.result import RangefinderOut, rangefinder_out
from optics.readings import wording
from optics.readings.correction import Correction, Sight
from optics.readings.directions import Direction
from optics.readings.remedies import Offer, Remedy
from optics.records.accounts import accounts_of
from optics.records.bench_results import (
    BudgetOut,
    GateOut,
    WitnessOut,
    budget_out,
    gate_out,
    witness_out,
)
from optics.records.solve import Solution
from optics.scales.result import ScaleOut, scale_out
from optics.typed.result_parts import Distance, FigureOut, Out, distance_out

_IF_MEASURED = Field(description="null where the job has no such part")


class SightOut(Out):
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
            mark=distance_out(sight.mark),
            sharp_at=_maybe(sight.sharp_at),
            nearest=_maybe(sight.nearest),
            farthest=_maybe(sight.farthest),
            blur_mm=sight.blur,
            looks_sharp=sight.looks_sharp,
        )


class RemedyOut(Out):
    """A remedy, or why it does not apply; `figures` in mm, radians or counts."""

    kind: str
    title: str
    applies: bool
    words: str
    figures: dict[str, float | str] = Field(default_factory=dict)
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


class AnswerOut(Out):
    """The answer to one reading; parallax gives the sense alone."""

    reading: str
    words: str
    sense: str
    error: FigureOut | None = None
    verdict: str | None = None
    sights: tuple[SightOut, ...] = ()
    remedies: tuple[RemedyOut, ...] = ()
    working: tuple[str, ...] = ()


class DisagreementOut(Out):
    """Two answers, counted from 1, that cannot both be true, and how far they lie apart."""

    answers: tuple[int, int]
    words: str
    apart: FigureOut
    allowed: Annotated[float, Field(description="how far apart they may lie, mm at the film")]

    @classmethod
    def of(cls, found: Disagreement) -> "DisagreementOut":
        """The pair as JSON can hold it."""
        one, other = found.indices
        return cls(
            answers=(one + 1, other + 1),
            words=disagreement_line(found),
            apart=FigureOut.of(found.apart),
            allowed=found.allowed,
        )


class ResultDocument(Out):
    """All answers of a job, with the tolerance they were held to (mm at the film)."""

    format: Literal["shimwright result"] = "shimwright result"
    version: Literal[1] = 1
    title: str
    camera: str
    allowed_error: float
    depth_of_focus: float
    answers: tuple[AnswerOut, ...]
    disagreements: Annotated[
        tuple[DisagreementOut, ...],
        Field(description="to be settled before any remedy; a diagnosis has its own `outliers`"),
    ] = ()
    supposed: Annotated[
        tuple[str, ...],
        Field(description="what was taken for figures that were not told, and what that costs"),
    ] = ()
    scale: Annotated[ScaleOut | None, Field(description="null where no scale was measured")] = None
    standard: Annotated[StandardOut | None, _IF_MEASURED] = None
    gate: Annotated[GateOut | None, _IF_MEASURED] = None
    witness: Annotated[WitnessOut | None, _IF_MEASURED] = None
    budget: Annotated[BudgetOut | None, _IF_MEASURED] = None
    rangefinder: Annotated[
        RangefinderOut | None, Field(description="null where no rangefinder was described")
    ] = None
    accounts: Annotated[
        tuple[AccountOut, ...],
        Field(description="what is said of each part, as page, terminal and paper say it"),
    ] = ()
    diagnosis: Annotated[
        DiagnosisOut | None, Field(description="null where the job did not ask for one")
    ] = None


def result_of(solution: Solution) -> ResultDocument:
    """The whole solution as a document."""
    camera = solution.camera
    return ResultDocument(
        title=solution.job.title,
        camera=camera.name,
        allowed_error=camera.allowed_error,
        depth_of_focus=camera.depth_of_focus,
        answers=tuple(_answer(a) for a in solution.answers),
        disagreements=tuple(map(DisagreementOut.of, solution.disagreements)),
        supposed=supposed_lines(camera),
        scale=scale_out(solution.scale, solution.confusion, solution.conventions),
        standard=standard_out(solution.standard),
        gate=gate_out(solution.gate, camera.allowed_error),
        witness=witness_out(solution.witness),
        budget=budget_out(solution.budget),
        rangefinder=rangefinder_out(solution.rangefinder, solution.set_up, solution.cam),
        accounts=tuple(map(AccountOut.of, accounts_of(solution))),
        diagnosis=diagnosis_out(solution.whole),
    )


def _answer(answer: Correction | Direction) -> AnswerOut:
    if isinstance(answer, Direction):
        return AnswerOut(reading=answer.kind, words=answer.advice, sense=answer.sense.words)
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


def _maybe(mm: float | None) -> float | Literal["inf"] | None:
    return None if mm is None else distance_out(mm)
