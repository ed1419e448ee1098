"""From a job, where everything is text, to the readings weighed together and the plan."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from optics.body.gate.part import solve_gate
from optics.body.standard import depth_readings
from optics.body.standard.part import (
    CORNERS,
    DEPTH_LIMIT,
    DEPTHS,
    FRAME,
    NOMINAL_DEPTH,
    SCREWS_APART,
    ZERO_LIMIT,
    StandardPart,
)
from optics.camera.camera import Camera
from optics.camera.where_taken import Surface, Taken
from optics.errors import OutOfRange, Unreadable
from optics.finding import part as typed
from optics.finding.diagnosis import Priors, diagnose, usual_priors
from optics.finding.part import DiagnosisPart, SuspectPart, cause_of
from optics.finding.plan import make_plan
from optics.finding.whole import WholeCamera
from optics.measure.uncertainty import Estimate, Source, exact
from optics.moves import AdjustingScrew, AtHand
from optics.rangefinder.adjusters import learn
from optics.rangefinder.readings import Coincidence, eyes_part
from optics.rangefinder.set_up import SetUp
from optics.readings.by_eye import eyes_blur
from optics.readings.directions import Direction
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.readings.kinds.gate import GateReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.reading_part import PlacedPart, ReadingPart, SeenPart
from optics.readings.readings import Reading
from optics.records.job import JobDocument
from optics.records.to_bench import workshop_of
from optics.typed import fields, places
from optics.typed.part import optional_value, value
from optics.typed.places import PLACE
from optics.units import format_signed

NO_PARALLAX = "Parallax tells the way only and is not weighed."
NO_NOMINAL = (
    "The standard's depths are not weighed: the depth that is right in the middle is not given."
)
ENDS_ONLY = (
    "Of the rangefinder's readings the farthest and the nearest are weighed: between its two ends "
    "a straight coupling is never quite right."
)
NO_APART = (
    "Of the rangefinder only readings where the images met are weighed: how far apart they stood "
    "hangs on the gain, which is not known yet."
)


@dataclass(frozen=True)
class Seen:
    """A reading to be weighed, and what its own figures do not carry (mm at the film)."""

    reading: Reading
    also: Estimate


def solve_diagnosis(job: JobDocument, camera: Camera, set_up: SetUp | None) -> WholeCamera:
    """Weigh every reading of a job together and plan the work; `set_up` is its rangefinder's.

    Weighed are the readings, the rangefinder's latest far and near coincidence, the standard's
    depths and the gate, as far as the job has them.
    Errors: Unreadable with none of them; OutOfRange or NoAnswer, naming the quantity, for
    figures that cannot be.
    """
    part = job.diagnosis or DiagnosisPart()
    seen = [*_read(job, camera), *_met(set_up), *_standard(job, camera), *_gate(job)]
    if not seen:
        raise Unreadable(
            "The diagnosis has no reading to weigh: add one that gives a figure.",
            quantity="readings",
        )
    found = diagnose(
        camera,
        [one.reading for one in seen],
        priors_of(part, camera),
        [one.also for one in seen],
    )
    plan = make_plan(found, at_hand_of(job, camera, set_up))
    return WholeCamera(found, plan, tuple(_left_out(job, set_up)))


def _read(job: JobDocument, camera: Camera) -> Iterator[Seen]:
    for one in job.readings:
        reading = one.read(camera)
        if isinstance(reading, Direction):
            continue
        reading = reading.taken_so(taken_of(one, reading.taken, job))
        yield Seen(reading, eyes_blur(reading, camera))


def taken_of(part: ReadingPart, usual: Taken, job: JobDocument) -> Taken:
    """Where a reading was taken; what is left out is as usual for its kind.

    Errors: OutOfRange for a reading at the stop with another mark than infinity; Unreadable for
    a corner by name of a picture whose size is not known.
    """
    assert isinstance(part, PlacedPart)
    place = usual.place
    if part.place is not None:
        at = PLACE.read(part.place)
        place = at.within(_picture(job) if at.is_corner and (at.x or at.y) else (0.0, 0.0))
    if not isinstance(part, SeenPart):
        return replace(usual, place=place)
    mark = part.ring_mark
    if part.where == "at the stop" and math.isfinite(value(fields.RING_MARK, mark)):
        raise OutOfRange(
            f"A reading at the infinity stop has no other mark than infinity: got {mark}; take it "
            "for a reading at the mark, or enter ∞.",
            quantity="ring mark",
            limit=math.inf,
        )
    surface = usual.surface if part.judged is None else Surface(part.judged)
    return Taken(part.where == "at the stop", surface, place)


def _picture(job: JobDocument) -> tuple[float, float]:
    part = job.diagnosis or DiagnosisPart()
    if part.picture is not None:
        return places.size_of(typed.PICTURE, part.picture)
    if job.standard is not None:
        return places.size_of(FRAME, job.standard.frame)
    raise Unreadable(
        "A reading in a corner needs the size of the picture: got none; enter it, such as "
        "24 × 36, or the place in mm from the middle, such as 16, 11.",
        quantity=typed.PICTURE.words,
    )


def _met(set_up: SetUp | None) -> Iterator[Seen]:
    """The far and the near target as the rangefinder met them last."""
    if set_up is None:
        return
    bench = set_up.bench
    for one in _latest(set_up):
        reading = CoincidenceReading(target=one.true, set_to=one.scale)
        yield Seen(reading, eyes_part(bench.camera, bench.rangefinder, bench.acuity, one))


def _latest(set_up: SetUp) -> tuple[Coincidence, ...]:
    if set_up.rounds:
        ordered = sorted(set_up.readings, key=lambda one: one.true.value)
        last = set_up.rounds[-1]
        return Coincidence(ordered[-1].true, last.far), Coincidence(ordered[0].true, last.near)
    met = sorted(_met_at(set_up), key=lambda one: one.true.value)
    return (met[-1], met[0]) if len(met) > 1 else tuple(met)


def _met_at(set_up: SetUp) -> list[Coincidence]:
    return [one for one in set_up.readings if isinstance(one, Coincidence)]


def _standard(job: JobDocument, camera: Camera) -> Iterator[Seen]:
    """The standard's depths, which may be counted from anywhere, as so much from the right one."""
    part, right = job.standard, exact(camera.lens.focal_length)
    nominal = optional_value(NOMINAL_DEPTH, part.nominal) if part else None
    if part is None or nominal is None:
        return
    found = DEPTHS.read(part.depths)
    readings = depth_readings(
        list(places.points(found, _apart(part))),
        [[depth.value for depth in depths] for _, depths in found],
        value(DEPTH_LIMIT, part.limit),
        value(ZERO_LIMIT, part.zero_limit),
    )
    for one in readings:
        depth = one.depth.plus(exact(right.value - nominal))
        yield Seen(RegisterReading(depth, right, Taken(place=(one.x, one.y))), exact(0.0))


def _apart(part: StandardPart) -> tuple[float, float]:
    return places.size_of(CORNERS, part.frame if part.corners is None else part.corners)


def _gate(job: JobDocument) -> Iterator[Seen]:
    if job.gate is not None:
        yield Seen(GateReading(solve_gate(job.gate).error), exact(0.0))


def _left_out(job: JobDocument, set_up: SetUp | None) -> Iterator[str]:
    if not all(one.is_measured for one in job.readings):
        yield NO_PARALLAX
    if job.standard is not None and job.standard.nominal is None:
        yield NO_NOMINAL
    if set_up is not None and len(_met_at(set_up)) > 2:
        yield ENDS_ONLY
    if set_up is not None and not set_up.rounds and len(_met_at(set_up)) < len(set_up.readings):
        yield NO_APART


def priors_of(part: DiagnosisPart, camera: Camera) -> Priors:
    """What is supposed of the camera: the usual, with what the job changes.

    Errors: OutOfRange for a chance or size that cannot be, a cause that this camera cannot
    have, or more causes together than are weighed.
    """
    priors = usual_priors(camera)
    for suspect in part.suspects:
        priors = _suspected(priors, suspect)
    most = optional_value(typed.MOST_CAUSES, part.most_causes)
    if most is None:
        return priors
    if most > typed.MOST_TOGETHER:
        raise OutOfRange(
            f"The number of causes together must be at most {typed.MOST_TOGETHER}: got {most:g}; "
            "with more, anything could be anything.",
            quantity=typed.MOST_CAUSES.words,
            value=most,
            limit=typed.MOST_TOGETHER,
        )
    return replace(priors, most_causes=int(most))


def _suspected(priors: Priors, part: SuspectPart) -> Priors:
    cause = cause_of(part.cause)
    if cause not in priors.by_cause:
        raise OutOfRange(
            f"This camera has {cause.lacking}: got {part.cause} among the suspects; leave it out.",
            quantity="cause",
        )
    usual, wrong = part.typed
    figures = {
        "chance": optional_value(typed.CHANCE, part.chance),
        "usual": optional_value(usual, part.usual),
        "wrong": optional_value(wrong, part.wrong),
    }
    return priors.changed(cause, **{name: v for name, v in figures.items() if v is not None})


def at_hand_of(job: JobDocument, camera: Camera, set_up: SetUp | None) -> AtHand:
    """The leaves in the drawer, and how far each screw goes, stated or learned."""
    part = job.diagnosis or DiagnosisPart()
    learned = _learned(camera, set_up)
    zero = optional_value(typed.INFINITY_SCREW, part.infinity_screw)
    gain = optional_value(typed.NEAR_SCREW, part.near_screw)
    near = math.nan
    if gain is not None or learned[1] is not None:
        near = camera.film_side_extension(_near_target(set_up))
    return AtHand(
        workshop_of(job.workshop),
        _screw(zero, learned[0], typed.INFINITY_SCREW.words),
        _screw(gain, learned[1], typed.NEAR_SCREW.words, near),
        _screws(job) or AtHand.standard_screws,
    )


def _screw(
    stated: float | None, learned: Estimate | None, words: str, out: float = 1.0
) -> AdjustingScrew | None:
    """A screw as stated, else as its turns showed; both in mm at an extension `out` (1: any).

    Errors: OutOfRange for a figure with another sign than the turns showed.
    """
    if stated is None:
        return None if learned is None else AdjustingScrew(learned.value / out)
    if learned is not None and stated * learned.value < 0:
        raise OutOfRange(
            f"{words[0].upper()}{words[1:]} must have the sign that the rangefinder's rounds "
            f"showed, {format_signed(learned.value)} for a turn clockwise: got "
            f"{format_signed(stated)}; change its sign, or leave it out and the rounds tell it.",
            quantity=words,
            value=stated,
            limit=learned.value,
        )
    return AdjustingScrew(stated / out)


def _near_target(set_up: SetUp | None) -> float:
    if set_up is None:
        raise OutOfRange(
            "What a turn of the near screw adds was read at the near target: got no rangefinder "
            "readings; enter them, or leave the screw out.",
            quantity=typed.NEAR_SCREW.words,
        )
    return set_up.near


def _learned(camera: Camera, set_up: SetUp | None) -> tuple[Estimate | None, Estimate | None]:
    """What the rounds showed of a turn of each screw: mm at the film, far, and at the near target.

    None where the rounds do not tell even which way it goes.
    """
    if set_up is None or set_up.history is None:
        return None, None
    learned = learn(set_up.history, set_up.bench.rangefinder)
    far, near = (camera.film_side_extension(d) for d in (set_up.far, set_up.near))
    of_zero, of_gain = np.sqrt(learned.variance.diagonal())
    share = near / (near - far)
    stretch = float(learned.table[1, 1] - learned.table[0, 1]) * share
    return (
        _told(float(learned.table[0, 0]), float(of_zero)),
        # Far and near are read each by itself and equally well.
        _told(stretch, math.sqrt(2) * float(of_gain) * share),
    )


def _told(effect: float, doubt: float) -> Estimate | None:
    known = Estimate(effect, {Source("rounds of the rangefinder"): doubt})
    return known if abs(effect) > known.expanded else None


def _screws(job: JobDocument) -> tuple[float, float] | None:
    part = job.diagnosis or DiagnosisPart()
    if part.standard_screws is not None:
        across, up = places.size_of(typed.STANDARD_SCREWS, part.standard_screws)
    elif job.standard is not None and job.standard.screws_apart is not None:
        across, up = places.size_of(SCREWS_APART, job.standard.screws_apart)
    else:
        return None
    return across / 2, up / 2
