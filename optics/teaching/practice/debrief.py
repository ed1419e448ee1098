"""Looking back on a sitting: what the readings said as they came, and what a plan would have been.

After each reading all readings since the last adjustment are diagnosed together; one taken before
the camera was changed speaks of a camera that is no more. Only such readings are advised as the
bench would take with the camera as it stood then.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from optics.finding.causes import Cause
from optics.finding.diagnosis.diagnose import Diagnosis, diagnose
from optics.finding.diagnosis.hypotheses import weigh
from optics.finding.diagnosis.next_reading import Gain, next_readings
from optics.finding.diagnosis.posterior import posterior_of
from optics.finding.plan.planning import Plan, make_plan
from optics.readings.candidates import Candidate
from optics.readings.practised import Offered
from optics.readings.readings import Judged, Reading
from optics.teaching.practice.score import Score, score
from optics.teaching.practice.sitting import (
    Adjust,
    Read,
    Sitting,
    SittingEntry,
    can_be_taken,
    eye_limit,
)

_NAMED = 3
_DRAWS = 4000


@dataclass(frozen=True)
class Remark:
    """What could be said after a reading: the likeliest causes, and the best next reading.

    `best_next` is, of those that could be taken, the one that leaves the least chance of a wrong
    set of causes; None where none could.
    `misjudged` is how far (mm at the film) the apprentice's own eye was from the sharpest
    place, None for an instrument; `granted` how far either way an eye is granted.
    """

    number: int
    causes: tuple[tuple[Cause, float], ...]
    best_next: Gain | None
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
    first: tuple[SittingEntry, tuple[Reading, ...]] | None = None
    for entry in sitting.entries:
        if isinstance(entry.action, Adjust):
            since = []
        if entry.reading is None:
            continue
        since.append(entry.reading)
        if not entry.round:
            first = entry, tuple(since)
        remarks.append(_remark(sitting, entry, since))
    plan = plan_after(sitting, *first) if first else None
    return Debrief(score(sitting), tuple(remarks), plan)


def plan_after(sitting: Sitting, entry: SittingEntry, readings: Sequence[Reading]) -> Plan:
    """The plan that readings call for; what it says to read first can be read after the entry."""
    found = _diagnosed(sitting, entry, readings)
    offered = tuple(replace(c, words=f"the {c.words}") for c in candidates(sitting, entry))
    return make_plan(replace(found, offered=offered), sitting.stand.at_hand, draws=_DRAWS)


def _diagnosed(sitting: Sitting, entry: SittingEntry, readings: Sequence[Reading]) -> Diagnosis:
    return diagnose(entry.before.practice.camera, readings, sitting.stand.priors)


def _remark(sitting: Sitting, entry: SittingEntry, readings: Sequence[Reading]) -> Remark:
    found = _diagnosed(sitting, entry, readings)
    likely = sorted(found.chances.items(), key=lambda item: -item[1])[:_NAMED]
    assert isinstance(entry.action, Read)
    return Remark(
        number=entry.number,
        causes=tuple(likely),
        best_next=best_next(sitting, entry, found),
        misjudged=entry.by_eye,
        granted=eye_limit(sitting, sitting.stand.offered[entry.action.name]),
    )


def best_next(sitting: Sitting, entry: SittingEntry, found: Diagnosis) -> Gain | None:
    """The reading that would leave the least chance of a wrong set of causes after an entry.

    Causes that no reading has met yet keep their prior chance, so that something new is
    worth more than the same once more.
    """
    everything = tuple(sitting.stand.priors.by_cause)
    left = posterior_of(found.seen, weigh(found.seen, found.priors, everything))
    offered = candidates(sitting, entry)
    if not offered:
        return None
    gains = next_readings(found.camera, left, sitting.stand.duties, offered)
    return min(gains, key=lambda gain: (gain.wrong_cause[1], gain.standard[1]))


def candidates(sitting: Sitting, entry: SittingEntry) -> tuple[Candidate, ...]:
    """Every reading that the bench would take after an entry, with its usual uncertainty."""
    return tuple(
        Candidate(offered.name, offered.reading, _usual(sitting, offered))
        for offered in sitting.stand.offered.values()
        if can_be_taken(sitting, entry, offered)
    )


def _usual(sitting: Sitting, offered: Offered) -> float:
    if offered.reading.judged is Judged.BY_GAUGE:
        return sitting.habits.gauge_limit / math.sqrt(3)
    return eye_limit(sitting, offered) / math.sqrt(3)
