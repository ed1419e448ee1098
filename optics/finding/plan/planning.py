"""From a diagnosis to ordered steps, each with its amount and what it leaves."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optics.finding.causes import (
    ALL,
    AT,
    IN_ORDER,
    Adjustment,
    BenchStep,
    Blocked,
    Cause,
    Vector,
    places,
)
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.finding.diagnosis.duties import Duty
from optics.finding.plan.aim import GOOD, Target, choose_controls, on_lattice
from optics.finding.plan.pruning import Drawn, worth_doing
from optics.finding.plan.state import Forecast, PlanOutlook
from optics.measure.monte_carlo import DRAWS
from optics.measure.uncertainty import LEVEL
from optics.measure.verdict import Verdict
from optics.moves import AtHand

# On the way, intervals from every tenth draw will do; the promise is from all.
_COARSE = 10


@dataclass(frozen=True)
class PlanStep:
    """One step of the plan and what is to be expected after it."""

    number: int
    bench_step: BenchStep
    adjustment: Adjustment
    after: PlanOutlook


@dataclass(frozen=True)
class Alternative:
    """Another way that also brings marks and rangefinder inside, and what it leaves wrong."""

    adjustments: tuple[Adjustment, ...]
    avoids: tuple[Cause, ...]
    inside: float
    leaves: tuple[tuple[Duty, float], ...]


@dataclass(frozen=True)
class Plan:
    """What to do, in order; whether it will conform; what else could be done or must be known."""

    diagnosis: Diagnosis
    as_found: PlanOutlook
    steps: tuple[PlanStep, ...]
    blocked: tuple[Blocked, ...]
    alternatives: tuple[Alternative, ...]
    jumped: tuple[BenchStep, ...]

    @property
    def final(self) -> PlanOutlook:
        """What is to be expected when all is done."""
        return self.steps[-1].after if self.steps else self.as_found

    @property
    def will_conform(self) -> bool:
        """Whether the plan promises every duty at 95 %: never while a reading is accused."""
        return self.final.conforms and not self.diagnosis.is_accused

    @property
    def is_unsettled(self) -> bool:
        """Whether a step rests on a cause that is not certain."""
        chances, causes = self.diagnosis.chances, {s.adjustment.cause for s in self.steps}
        return any(chances[cause] < LEVEL for cause in causes & self.diagnosis.named)

    @property
    def verdict(self) -> Verdict:
        """Whether the camera is sure to be inside when all is done, by causes that are certain."""
        is_sure = self.will_conform and not self.is_unsettled
        return Verdict.INSIDE if is_sure else Verdict.UNSURE


def make_plan(
    diagnosis: Diagnosis, at_hand: AtHand | None = None, draws: int = DRAWS, seed: int = 1
) -> Plan:
    """Choose what to put right, by how much and in which order, and foretell the outcome.

    The leading causes are put right, with whatever else the duties need; the amounts are
    chosen together, in what a hand can set, so that the worst error is least, and steps that
    gain nothing are left out again.
    Limits: the promise holds for what the readings met; `jumped` names steps they did not.
    """
    bench = at_hand or AtHand()
    forecast = Forecast(diagnosis.left, diagnosis.duties, draws, seed)
    drawn = Drawn(forecast)
    made, blocked = _worth_doing(diagnosis, bench, drawn)
    as_found = forecast.state(every=_COARSE if made else 1)
    steps = []
    for number, adjustment in enumerate(made, start=1):
        forecast.apply(adjustment)
        after = forecast.state(every=_COARSE if number < len(made) else 1)
        steps.append(PlanStep(number, adjustment.cause.step, adjustment, after))
    return Plan(
        diagnosis=diagnosis,
        as_found=as_found,
        steps=tuple(steps),
        blocked=blocked,
        alternatives=_alternatives(diagnosis, bench, {a.cause for a in made}, drawn),
        jumped=_jumped(diagnosis, made),
    )


def _sizes(diagnosis: Diagnosis) -> Vector:
    """How far off each fault is when its cause is at work, in the order of `AT`; never 0."""
    return np.maximum(diagnosis.priors.spread(ALL), 1e-6)


def _worth_doing(
    diagnosis: Diagnosis, bench: AtHand, drawn: Drawn, without: Sequence[Cause] = ()
) -> tuple[tuple[Adjustment, ...], tuple[Blocked, ...]]:
    """What is done, without the steps that gain nothing, and what would be and cannot."""
    made, blocked = _adjustments(diagnosis, bench, without)

    def chosen(left_out: frozenset[Cause]) -> tuple[Adjustment, ...]:
        # What the readings say is wrong is put right, not made up for by other parts.
        if left_out & diagnosis.named:
            return ()
        return _adjustments(diagnosis, bench, without, left_out)[0]

    return worth_doing(drawn, made, chosen, _kept(diagnosis.duties, without)), blocked


def _adjustments(
    diagnosis: Diagnosis,
    bench: AtHand,
    without: Sequence[Cause] = (),
    left_out: frozenset[Cause] = frozenset(),
) -> tuple[tuple[Adjustment, ...], tuple[Blocked, ...]]:
    """What is done, in the order of the bench, and what would be and cannot.

    The duties of causes to go `without` are given up; those of causes `left_out` stay.
    """
    # A vector in the order of `AT`, carried along: what each step has made of the camera.
    faults = _believed(diagnosis)
    sizes, target = _sizes(diagnosis), Target.of(_kept(diagnosis.duties, without))
    suspected = {c for c, chance in diagnosis.chances.items() if chance > 1 - LEVEL}
    suspected = (suspected - set(diagnosis.faint)) | {c for c in ALL if c.is_always_open}
    closed = {*diagnosis.priors.steps, *without, *left_out}
    allowed = [c for c in diagnosis.possible if c in suspected and c not in closed]
    leading = [c for c in diagnosis.named if c not in closed]
    made: list[Adjustment] = []
    blocked: list[Blocked] = []
    restart = _restart(diagnosis, bench)
    if isinstance(restart, Adjustment):
        # Far larger than the rest and a whole number, it is allowed for from the outset.
        faults[places(restart.cause)] = 0.0
    # Every step may leave something to the next ones, so these are chosen afresh after it.
    for cause in IN_ORDER:
        if cause in diagnosis.priors.steps:
            same = restart is not None and restart.cause is cause
            made += [restart] if isinstance(restart, Adjustment) and same else []
            blocked += [restart] if isinstance(restart, Blocked) and same else []
            continue
        open_now = [c for c in IN_ORDER[IN_ORDER.index(cause) :] if c in allowed]
        expected = [c for c in leading if c in open_now]
        controls = choose_controls(target, faults, expected, open_now, sizes)
        if cause not in controls:
            continue
        ahead = [c for c in open_now if c in controls]
        wanted = _amounts(diagnosis, bench, target, faults, ahead)
        outcome = cause.put_right(diagnosis.camera, bench, dict(zip(AT, wanted, strict=True)))
        if isinstance(outcome, Blocked):
            blocked.append(outcome)
            continue
        made.append(outcome)
        bench = bench.less(outcome.leaves) if outcome.leaves else bench
        for name, change in outcome.changes.items():
            faults[AT[name]] += change.value
    # What cannot be set does not matter where the rest brought everything near enough.
    serious = target.worst(faults) > GOOD
    return tuple(made), tuple(blocked) if serious else ()


def _restart(diagnosis: Diagnosis, bench: AtHand) -> Adjustment | Blocked | None:
    """Back by whole steps, as to the right thread start, where the leading causes say so."""
    off = diagnosis.leading
    if off.stepped is None or not off.steps:
        return None
    wrong = off.steps * diagnosis.priors.step(off.stepped)
    wanted = dict.fromkeys(off.stepped.figures, -wrong)
    return off.stepped.put_right(diagnosis.camera, bench, wanted)


def _believed(diagnosis: Diagnosis) -> Vector:
    """The faults averaged over the hypotheses that share the leading one's steps."""
    left, leading = diagnosis.left, diagnosis.leading
    share = np.array([h.shares_steps(leading) for h in left.hypotheses]) * left.weights
    averaged: Vector = share @ left.means / share.sum()
    return averaged


def _amounts(
    diagnosis: Diagnosis, bench: AtHand, target: Target, faults: Vector, controls: Sequence[Cause]
) -> Vector:
    """The changes wanted of the controls that are left, in whole steps where steps decide."""
    sizes = _sizes(diagnosis)
    steps = [cause.smallest(diagnosis.camera, bench) for cause in controls]
    # Three to the power of the controls are tried; where a drawer decides there is no lattice.
    if all(steps) and len(steps) <= 6:
        return on_lattice(target, faults, controls, steps, sizes)
    return target.wanted(faults, controls, sizes)


def _kept(duties: Sequence[Duty], without: Sequence[Cause]) -> list[Duty]:
    """The duties left when these causes are not to be touched: their own are given up."""
    lost = {cause.gives_up for cause in without}
    kept = [duty for duty in duties if duty.spot not in lost]
    return kept or list(duties)


def _alternatives(
    diagnosis: Diagnosis, bench: AtHand, used: set[Cause], drawn: Drawn
) -> tuple[Alternative, ...]:
    """Ways round the laborious steps, with the price of each."""
    found = []
    for avoided in [cause for cause in ALL if cause.without]:
        if avoided not in used:
            continue
        made, _ = _worth_doing(diagnosis, bench, drawn, (avoided,))
        outlook = drawn.after(made)
        pairs = zip(diagnosis.duties, outlook.means.tolist(), strict=True)
        leaves = tuple((d, mean * d.tolerance) for d, mean in pairs if abs(mean) > GOOD)
        kept = drawn.lines_of(_kept(diagnosis.duties, (avoided,)))
        inside = float(outlook.inside[kept].min())
        if made and inside >= 0.5:
            found.append(Alternative(made, (avoided,), inside, leaves))
    return tuple(found)


def _jumped(diagnosis: Diagnosis, made: Sequence[Adjustment]) -> tuple[BenchStep, ...]:
    """Earlier steps of the bench's order that no reading has checked."""
    last = max((adjustment.cause.step for adjustment in made), default=None)
    if last is None:
        return ()
    unread = {c.step for c in diagnosis.priors.by_cause if c not in diagnosis.possible}
    checked = {c.step for c in diagnosis.possible}
    return tuple(sorted(step for step in unread - checked if step < last))
