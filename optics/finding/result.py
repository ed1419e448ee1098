"""Diagnosis and plan as part of a result document; in mm at the film and rad."""

from typing import Annotated, TypeAlias

from pydantic import Field

from optics.finding.causes import ALL, Adjustment, Cause
from optics.finding.diagnosis import Diagnosis
from optics.finding.diagnosis import reading_wording as readings
from optics.finding.diagnosis import wording as said
from optics.finding.diagnosis.next_reading import Gain
from optics.finding.plan import Alternative, Plan, PlanOutlook, PlanStep
from optics.finding.plan import wording as plan_said
from optics.finding.whole import WholeCamera
from optics.typed.result_parts import FigureOut, Out

Film: TypeAlias = Annotated[float, Field(description="mm at the film; plus is too far out")]
Chance: TypeAlias = Annotated[float, Field(description="probability, 0 to 1")]
# Sets of causes less probable than this are not printed.
_LEAST = 0.001


class WeighedOut(Out):
    """A reading: the focus error it shows, and what the leading causes would make it."""

    words: str
    kind: str
    error: FigureOut
    foretold: Film


class CauseOut(Out):
    """One cause: its probability whatever else is at work, its evidence, what was supposed.

    `figures` hold each fault under the leading set of causes: mm, rad for the standard's two
    slopes, a part of the extension for the rangefinder's gain.
    """

    cause: str
    words: str
    probability: Chance
    evidence: str
    figures: dict[str, FigureOut]
    supposed: str


class CauseSetOut(Out):
    """These causes and no others; `starts` counts thread starts too far out."""

    causes: tuple[str, ...]
    starts: int
    probability: Chance


class FurtherOut(Out):
    """A further reading: the worst standard uncertainty and the risk of a wrong cause after it."""

    words: str
    standard_uncertainty: Annotated[tuple[float, float], Field(description="now, after; mm")]
    wrong_cause: Annotated[tuple[float, float], Field(description="now, after; probability")]

    @classmethod
    def of(cls, gain: Gain) -> "FurtherOut":
        """The gain as JSON can hold it."""
        return cls(
            words=gain.candidate.words,
            standard_uncertainty=gain.standard,
            wrong_cause=gain.wrong_cause,
        )


class ExpectedOut(Out):
    """One place where the camera must be right: what is expected, with its 95 % interval."""

    words: str
    mean: Film
    low: Film
    high: Film
    tolerance: float
    inside: Chance


class StateOut(Out):
    """Every such place, and the probability that all are inside at once."""

    all_inside: Chance
    expected: tuple[ExpectedOut, ...]

    @classmethod
    def of(cls, state: PlanOutlook) -> "StateOut":
        """The state as JSON can hold it."""
        expected = tuple(
            ExpectedOut(
                words=plan_said.duty_words(one.duty),
                mean=one.mean,
                low=one.low,
                high=one.high,
                tolerance=one.duty.tolerance,
                inside=one.inside,
            )
            for one in state.expected
        )
        return cls(all_inside=state.all_inside, expected=expected)


class StepOut(Out):
    """One step of the plan; `changes` as the faults of a cause, `figures` in mm, rad or counts."""

    number: int
    bench_step: int
    cause: str
    words: str
    tool: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    changes: dict[str, FigureOut]
    figures: dict[str, float | str]
    after: StateOut

    @classmethod
    def of(cls, step: PlanStep) -> "StepOut":
        """The step as JSON can hold it."""
        done = step.adjustment
        return cls(
            number=step.number,
            bench_step=int(step.bench_step),
            cause=done.cause.in_jobs,
            words=done.instruction,
            tool=done.tool,
            notes=done.notes,
            cautions=tuple(caution.text for caution in done.cautions),
            changes=_changes(done),
            figures=done.figures,
            after=StateOut.of(step.after),
        )


class AlternativeOut(Out):
    """Another way, and its price."""

    words: str
    avoids: tuple[str, ...]
    inside: Chance
    steps: tuple[str, ...]

    @classmethod
    def of(cls, alternative: Alternative) -> "AlternativeOut":
        """The alternative as JSON can hold it."""
        return cls(
            words=plan_said.alternative_line(alternative),
            avoids=tuple(cause.in_jobs for cause in alternative.avoids),
            inside=alternative.inside,
            steps=tuple(one.instruction for one in alternative.adjustments),
        )


class PlanOut(Out):
    """The steps in the order of the bench, and what is promised when they are done."""

    words: str
    will_conform: bool
    needs: str
    moves_nothing: Annotated[
        str, Field(description="why nothing is to be moved; empty where something is")
    ]
    jumped: str
    blocked: tuple[str, ...]
    as_found: StateOut
    steps: tuple[StepOut, ...]
    alternatives: tuple[AlternativeOut, ...]

    @classmethod
    def of(cls, plan: Plan) -> "PlanOut":
        """The plan as JSON can hold it."""
        return cls(
            words=plan_said.promise_line(plan),
            will_conform=plan.will_conform,
            needs=plan_said.needs_line(plan),
            moves_nothing=plan_said.nothing_line(plan),
            jumped=plan_said.jumped_line(plan),
            blocked=tuple(one.reason for one in plan.blocked),
            as_found=StateOut.of(plan.as_found),
            steps=tuple(map(StepOut.of, plan.steps)),
            alternatives=tuple(map(AlternativeOut.of, plan.alternatives)),
        )


class DiagnosisOut(Out):
    """All readings weighed together, what they leave open, and the plan."""

    words: str
    readings: tuple[WeighedOut, ...]
    outliers: tuple[str, ...]
    causes: tuple[CauseOut, ...]
    cause_sets: Annotated[tuple[CauseSetOut, ...], Field(description="most probable first")]
    cannot_tell: tuple[str, ...]
    further: tuple[FurtherOut, ...]
    left_out: tuple[str, ...]
    plan: PlanOut
    supposed: str


def diagnosis_out(whole: WholeCamera | None) -> DiagnosisOut | None:
    """The diagnosis of a solution; None where the job did not ask for one."""
    if whole is None:
        return None
    found = whole.diagnosis
    return DiagnosisOut(
        words=said.headline(found),
        readings=_readings(found),
        outliers=said.accused_lines(found),
        causes=tuple(_cause(found, cause) for cause, _ in said.ranked(found)),
        cause_sets=_cause_sets(found),
        cannot_tell=said.open_lines(found),
        further=tuple(map(FurtherOut.of, found.next_readings())),
        left_out=whole.left_out,
        plan=PlanOut.of(whole.plan),
        supposed=said.suppositions(found.priors),
    )


def _readings(found: Diagnosis) -> tuple[WeighedOut, ...]:
    seen = found.seen
    return tuple(
        WeighedOut(
            words=readings.placed_words(reading),
            kind=reading.kind,
            error=FigureOut.of(error),
            foretold=float(told),
        )
        for reading, error, told in zip(seen.readings, seen.errors, found.foretold, strict=True)
    )


def _cause(found: Diagnosis, cause: Cause) -> CauseOut:
    return CauseOut(
        cause=cause.in_jobs,
        words=cause.words,
        probability=found.chances[cause],
        evidence=said.evidence(found, cause),
        figures={name: FigureOut.of(found.sizes[name]) for name in cause.figures},
        supposed=readings.supposed_line(found.priors, cause),
    )


def _cause_sets(found: Diagnosis) -> tuple[CauseSetOut, ...]:
    pairs = zip(found.left.hypotheses, found.left.weights, strict=True)
    return tuple(
        CauseSetOut(
            causes=tuple(c.in_jobs for c in ALL if c in one.causes),
            starts=one.steps,
            probability=float(weight),
        )
        for one, weight in pairs
        if weight >= _LEAST
    )


def _changes(done: Adjustment) -> dict[str, FigureOut]:
    return {name: FigureOut.of(change) for name, change in done.changes.items()}
