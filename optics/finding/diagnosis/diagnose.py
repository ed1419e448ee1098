"""All readings together: which causes are at work, how much, and what cannot be told."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from optics.camera.camera import Camera
from optics.finding.causes import AT, NAMES, Cause, Vector
from optics.finding.diagnosis.determination import (
    Determination,
    determine,
    possible_causes,
    too_faint,
)
from optics.finding.diagnosis.duties import Duty, duties
from optics.finding.diagnosis.hypotheses import Hypothesis, weigh
from optics.finding.diagnosis.next_reading import Gain, next_readings
from optics.finding.diagnosis.observations import Observations, observe
from optics.finding.diagnosis.outlying import Contradiction, Outlier, contradictions, outliers
from optics.finding.diagnosis.posterior import Posterior, posterior_of
from optics.finding.diagnosis.priors import Priors, usual_priors
from optics.measure.uncertainty import LEVEL, Estimate, Source, exact
from optics.readings.candidates import Candidate
from optics.readings.kinds.registry import usual_candidates
from optics.readings.readings import Reading


@dataclass(frozen=True)
class Diagnosis:
    """What the readings together say, and what they leave open.

    `offered` are the further readings that can be taken at all; none stands for the usual ones.
    """

    camera: Camera
    priors: Priors
    seen: Observations
    possible: tuple[Cause, ...]
    left: Posterior
    contradictions: tuple[Contradiction, ...]
    outliers: tuple[Outlier, ...]
    offered: tuple[Candidate, ...] = ()

    @property
    def is_accused(self) -> bool:
        """Whether a reading must be taken again before anything is believed."""
        return bool(self.contradictions or self.outliers)

    @property
    def leading(self) -> Hypothesis:
        """The most probable set of causes."""
        return self.left.hypotheses[0]

    @property
    def probability(self) -> float:
        """How probable the leading set is."""
        return float(self.left.weights[0])

    @cached_property
    def named(self) -> frozenset[Cause]:
        """The leading causes, without those that such readings are too faint to tell."""
        return self.leading.causes - set(self.faint)

    @cached_property
    def named_probability(self) -> float:
        """How probable it is that just these are at work, whatever may be with the faint ones."""
        faint = set(self.faint)
        # A faint cause is as likely in as out; sets that differ by such alone say the same.
        alike = [
            h.causes - faint == self.named and h.shares_steps(self.leading)
            for h in self.left.hypotheses
        ]
        return float(self.left.weights @ np.array(alike, dtype=float))

    @cached_property
    def faint(self) -> tuple[Cause, ...]:
        """The causes that would have to be larger than usual to stand out of the scatter."""
        return too_faint(self.seen, self.priors)

    @cached_property
    def chances(self) -> dict[Cause, float]:
        """How probable each cause is that the readings can meet."""
        return {cause: self.left.chance_of(cause) for cause in self.possible}

    @property
    def claimed(self) -> tuple[Cause, ...]:
        """The causes that are at work with 95 % probability; none while a reading is accused."""
        if self.is_accused:
            return ()
        return tuple(c for c, chance in self.chances.items() if chance >= LEVEL)

    @property
    def open(self) -> tuple[Cause, ...]:
        """The causes of which it cannot be said at 95 % that they are, or are not, at work."""
        return tuple(c for c, chance in self.chances.items() if 1 - LEVEL < chance < LEVEL)

    @cached_property
    def sizes(self) -> dict[str, Estimate]:
        """The faults of the leading set, each with its sources."""
        unit = np.eye(len(NAMES))
        return {name: self.left.under(0, unit[place]) for name, place in AT.items()}

    @cached_property
    def foretold(self) -> Vector:
        """The focus error (mm) that each reading would show with the leading causes alone.

        Of shape (readings,), in their order.
        """
        return self.seen.straight.errors(self.left.means[0])

    @cached_property
    def determination(self) -> Determination:
        """What these readings cannot tell, whatever they showed."""
        return determine(self.seen, self.priors)

    @cached_property
    def duties(self) -> tuple[Duty, ...]:
        """Everywhere the camera must be in focus, as far as the readings looked."""
        return duties(self.seen, self.camera, self.left.means[0])

    def next_readings(self, candidates: Sequence[Candidate] = ()) -> tuple[Gain, ...]:
        """Which further reading would tell most; without candidates, the usual ones."""
        usual = (c.beside(self.seen.readings) for c in usual_candidates(self.camera))
        offered = tuple(candidates) or tuple(usual)
        return next_readings(self.camera, self.left, self.duties, offered)

    @cached_property
    def worth_reading(self) -> Gain | None:
        """The reading that would tell most; None where none is worth its while."""
        gains = self.next_readings([c.beside(self.seen.readings) for c in self.offered])
        return next((gain for gain in gains if gain.is_worth_it), None)


def diagnose(
    camera: Camera,
    readings: Sequence[Reading],
    priors: Priors | None = None,
    also: Sequence[Estimate] = (),
) -> Diagnosis:
    """Weigh every set of up to three causes against all readings together.

    `also`, one for each reading, is added to its focus error; see `observe`.

    Of readings of one thing that contradict each other none is trusted nearer than they lie
    apart, lest a cause be made up that brings them together.
    Suppositions: each fault is normal about zero with the deviation its prior states, sound
    parts too; the readings' errors are normal, widened for few repeats; at most three causes.
    Errors: OutOfRange or NoAnswer, one sentence each, for readings that cannot be.
    Limits: the model is straight to a few micrometres over the faults' usual sizes.
    """
    priors = priors or usual_priors(camera)
    seen = observe(camera, readings, also)
    # Before any cause is weighed: two readings of one thing that no fault can bring together
    # would else have a cause made up for them.
    apart = contradictions(seen, priors)
    if apart:
        seen = observe(camera, readings, _doubted(seen, apart, also))
    # A cause that moves no reading keeps its prior chance, so that to weigh it is wasted work.
    possible = possible_causes(seen, priors)
    weighed = weigh(seen, priors, possible)
    return Diagnosis(
        camera=camera,
        priors=priors,
        seen=seen,
        possible=possible,
        left=posterior_of(seen, weighed),
        contradictions=apart,
        outliers=outliers(seen, weighed),
    )


def _doubted(
    seen: Observations, apart: Sequence[Contradiction], also: Sequence[Estimate]
) -> list[Estimate]:
    """What is added to each focus error, with the contradiction as a further uncertainty."""
    widest = np.zeros(len(seen.readings))
    # A reading may stand in several pairs: it is doubted by as much as the worst of them.
    for one in apart:
        widest[list(one.pair)] = np.maximum(widest[list(one.pair)], one.apart)
    # Two that scatter by this much each lie as far apart as these do, root mean square.
    each = (widest / math.sqrt(2)).tolist()
    before = [*also, *[exact(0.0)] * (len(each) - len(also))]
    # A source for each reading, never one that both share: that would cancel between them.
    return [
        estimate.plus(Estimate(0.0, {Source("contradiction"): gap})) if gap else estimate
        for estimate, gap in zip(before, each, strict=True)
    ]
