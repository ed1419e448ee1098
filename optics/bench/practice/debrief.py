"""Looking back on a sitting: what the readings said as they came, and what a plan would have been.

After each reading all readings since the last adjustment are diagnosed together; one taken before
the camera was changed speaks of a camera that is no more.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from optics.bench.diagnosis.diagnose import Diagnosis, diagnose
from optics.bench.diagnosis.evidence import Reading
from optics.bench.diagnosis.faults import Cause
from optics.bench.diagnosis.hypotheses import weigh
from optics.bench.diagnosis.next_reading import Candidate, Gain, next_readings
from optics.bench.diagnosis.posterior import posterior_of
from optics.bench.plan.planning import Plan, make_plan
from optics.bench.practice.score import Score, score
from optics.bench.practice.sitting import Adjust, Entry, Read, Sitting, eye_limit
from optics.bench.practice.stand import Offered
from optics.bench.readings import RegisterReading

_NAMED = 3
_DRAWS = 4000


@dataclass(frozen=True)
class Remark:
    """What could be said after a reading: the likeliest causes, and the best next reading.

    `best_next` is the one that leaves the least chance of a wrong set of causes.
    `misjudged` is how far (mm at the film) the apprentice's own eye was from the sharpest
    place, None for an instrument; `granted` how far either way an eye is granted.
    """

    number: int
    causes: tuple[tuple[Cause, float], ...]
    best_next: Gain
    misjudged: float | None
    granted: float


@dataclass(frozen=True)
class Debrief:
    """The score, a remark on each reading, and the plan from the first round's readings.

    `plan` is None where nothing was read before the first adjustment.
    """

    score: Score
    remarks: tuple[Remark, ...]
    plan: Plan | None


def debrief(sitting: Sitting) -> Debrief:
    """Go through the sitting from its first reading to its last."""
    remarks: list[Remark] = []
    since: list[Reading] = []
    first: tuple[Reading, ...] = ()
    for entry in sitting.entries:
        if isinstance(entry.action, Adjust):
            since = []
        if entry.reading is None:
            continue
        since.append(entry.reading)
        if not entry.round:
            first = tuple(since)
        remarks.append(_remark(sitting, entry, since))
    plan = _plan(sitting, first) if first else None
    return Debrief(score(sitting), tuple(remarks), plan)


def _plan(sitting: Sitting, readings: Sequence[Reading]) -> Plan:
    found = _diagnosed(sitting, sitting.entries[0], readings)
    return make_plan(found, sitting.stand.at_hand, draws=_DRAWS)


def _diagnosed(sitting: Sitting, entry: Entry, readings: Sequence[Reading]) -> Diagnosis:
    return diagnose(entry.before.practice.camera, readings, sitting.stand.priors)


def _remark(sitting: Sitting, entry: Entry, readings: Sequence[Reading]) -> Remark:
    found = _diagnosed(sitting, entry, readings)
    likely = sorted(found.chances.items(), key=lambda item: -item[1])[:_NAMED]
    assert isinstance(entry.action, Read)
    offered = sitting.stand.offered[entry.action.name]
    return Remark(
        number=entry.number,
        causes=tuple(likely),
        best_next=best_next(sitting, found),
        misjudged=entry.by_eye,
        granted=eye_limit(sitting, offered),
    )


def best_next(sitting: Sitting, found: Diagnosis) -> Gain:
    """The reading that would leave the least chance of a wrong set of causes.

    Causes that no reading has met yet keep their prior chance, so that something new is
    worth more than the same once more.
    """
    everything = tuple(sitting.stand.priors.by_cause)
    left = posterior_of(found.seen, weigh(found.seen, found.priors, everything))
    gains = next_readings(found.camera, left, sitting.stand.duties, candidates(sitting))
    return min(gains, key=lambda gain: (gain.wrong_cause[1], gain.standard[1]))


def candidates(sitting: Sitting) -> tuple[Candidate, ...]:
    """Every reading of this bench with the standard uncertainty it usually has."""
    return tuple(
        Candidate(offered.name, offered.reading, _usual(sitting, offered))
        for offered in sitting.stand.offered.values()
    )


def _usual(sitting: Sitting, offered: Offered) -> float:
    if isinstance(offered.reading, RegisterReading):
        return sitting.habits.gauge_limit / math.sqrt(3)
    return eye_limit(sitting, offered) / math.sqrt(3)
