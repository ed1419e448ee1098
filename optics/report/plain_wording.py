"""What readings showed, to somebody outside the trade: each told of its own mark and no other."""

import math

from optics.measure.verdict import Verdict
from optics.readings.correction import Correction, Sight
from optics.readings.directions import Direction
from optics.readings.readings import Sense
from optics.report.job_report import TakenReading
from optics.units import format_distance, format_length

_SEAT = "where the lens sits"
_OFF_MIDDLE = ", away from the middle of the picture"


def sight_of(taken: TakenReading) -> Sight | None:
    """What was seen with the ring at the mark that was read; None of a gauge or a parallax."""
    return taken.answer.at_mark if isinstance(taken.answer, Correction) else None


def place_of(taken: TakenReading) -> str:
    """Where a reading was taken, as the end of a sentence: at infinity (∞), at 3 m."""
    if sight_of(taken) is None:
        return f"{_SEAT}{_beside(taken)}"
    return f"at {place_on_ring(taken)}"


def place_on_ring(taken: TakenReading) -> str:
    """What the ring was set to: infinity (∞), its infinity stop, 3 m."""
    sight = sight_of(taken)
    assert sight is not None
    assert isinstance(taken.answer, Correction)
    if taken.answer.reading.taken.at_stop:
        return f"its infinity stop{_beside(taken)}"
    name = "infinity (∞)" if math.isinf(sight.mark) else format_distance(sight.mark)
    return f"{name}{_beside(taken)}"


def _beside(taken: TakenReading) -> str:
    assert isinstance(taken.answer, Correction)
    return _OFF_MIDDLE if taken.answer.reading.taken.is_off_centre else ""


def said_of_reading(taken: TakenReading, *, is_now: bool = False) -> str:
    """One reading in one sentence, as the camera came or as it is now."""
    if isinstance(taken.answer, Direction):
        return _said_direction(taken.answer, is_now)
    sight = sight_of(taken)
    if sight is None:
        return _said_gauge(taken, taken.answer, is_now)
    is_, comes, come = ("is", "comes", "come") if is_now else ("was", "came", "came")
    begin = f"Set to {place_on_ring(taken)},"
    if sight.sharp_at is None:
        far = ", not even the horizon" if math.isinf(sight.mark) else ""
        return f"{begin} nothing at all {comes} out quite sharp{far}."
    said = f"{begin} it {is_} really sharp at {format_distance(sight.sharp_at)}"
    if verdict_of(taken) is Verdict.INSIDE:
        return f"{said}, near enough to be right."
    is_soft = verdict_of(taken) is Verdict.OUTSIDE and not sight.looks_sharp
    if is_soft and math.isinf(sight.mark):
        return f"{said}: distant things {come} out soft."
    return f"{said}."


def said_at_mark(taken: TakenReading) -> str:
    """What a mark showed, in a few words; right only where it was judged so."""
    sight = sight_of(taken)
    assert sight is not None
    if sight.sharp_at is None:
        return "nothing quite sharp"
    said = f"sharp at {format_distance(sight.sharp_at)}"
    match verdict_of(taken):
        case Verdict.INSIDE:
            return f"right: {said}"
        case Verdict.OUTSIDE:
            return f"not right: {said}"
        case Verdict.UNSURE | Verdict.NOT_STATED | None:
            return f"not settled: {said}"


def verdict_of(taken: TakenReading) -> Verdict | None:
    """The decision on a reading; None where it has none."""
    return taken.decision.verdict if taken.decision is not None else None


def _said_gauge(taken: TakenReading, found: Correction, is_now: bool) -> str:
    sits = "sits" if is_now else "sat"
    begin = f"Gauged{_beside(taken)}, its lens {sits}"
    match verdict_of(taken):
        case Verdict.INSIDE:
            return f"{begin} at the right distance from the film."
        case Verdict.OUTSIDE:
            amount = format_length(abs(found.error.value), places=2)
            way = "far from" if found.error.value > 0 else "near"
            return f"{begin} {amount} too {way} the film."
        case Verdict.UNSURE | Verdict.NOT_STATED | None:
            return f"{begin} near the right distance from the film; whether at it, was not settled."


def _said_direction(reading: Direction, is_now: bool) -> str:
    """A reading that tells the way and not the amount."""
    if reading.sense is Sense.RIGHT:
        return "By eye no error was seen; none was measured."
    is_ = "is" if is_now else "was"
    return f"Its focus {is_} seen to be off; how far was not measured."
