"""The score of a sitting: the camera as it was left, then readings and rounds."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from optics.readings.spots import Spot
from optics.teaching.practice.levels import State
from optics.teaching.practice.rounds import rounds_needed
from optics.teaching.practice.sight import EYE
from optics.teaching.practice.sitting import Adjust, Read, Sitting
from optics.teaching.practice.stand import Stand, errors
from optics.units import format_distance

FOCUS, READINGS, ROUNDS = 60, 20, 20
FREE_READINGS, PER_READING, PER_ROUND = 6, 1, 5
RULES = (
    f"{FOCUS} points are shared among the places that were outside tolerance as found: each one "
    "inside at the end earns its share. A place that was inside and has been put outside loses "
    "one share.",
    f"The other {READINGS + ROUNDS} are given only when every place is inside: {READINGS} less "
    f"{PER_READING} for each reading beyond {FREE_READINGS}, and {ROUNDS} less {PER_ROUND} for "
    "each round of adjusting beyond the first.",
    "Where something out of tolerance cannot be read until something else is right, the camera "
    f"needs another round: that one is free, and {FREE_READINGS} more readings with it.",
    "Readings after the last adjustment are as-left readings: they are free, and good practice.",
    "Marks and stop are judged on film, the rangefinder by where the lens stands when its images "
    "meet.",
)


@dataclass(frozen=True)
class JudgedPlace:
    """Somewhere the camera is judged: its error as found and as left, and what is allowed.

    In mm at the film; the rangefinder's height in rad at the eye.
    """

    name: str
    found: float
    left: float
    allowed: float
    is_angle: bool = False

    @property
    def was_inside(self) -> bool:
        """Whether it was inside tolerance as found."""
        return abs(self.found) <= self.allowed

    @property
    def is_inside(self) -> bool:
        """Whether it is inside tolerance as left."""
        return abs(self.left) <= self.allowed


@dataclass(frozen=True)
class Score:
    """The places, the readings that count, and the rounds of adjusting.

    `needed` is how many rounds the camera takes at the least, because not everything can be read
    before something is put right.
    """

    places: tuple[JudgedPlace, ...]
    readings: int
    rounds: int
    needed: int = 1

    @cached_property
    def focus(self) -> int:
        """Points for the camera as it was left."""
        wrong = [place for place in self.places if not place.was_inside]
        mended = sum(place.is_inside for place in wrong)
        spoilt = sum(place.was_inside and not place.is_inside for place in self.places)
        return max(0, round(FOCUS * (mended - spoilt) / max(len(wrong), 1)))

    @property
    def is_right(self) -> bool:
        """Whether every place is inside tolerance."""
        return all(place.is_inside for place in self.places)

    @property
    def for_readings(self) -> int:
        """Points for not reading more than it took."""
        lost = PER_READING * max(0, self.readings - FREE_READINGS * self.needed)
        return max(0, READINGS - lost) if self.is_right else 0

    @property
    def for_rounds(self) -> int:
        """Points for not adjusting more often than it took."""
        lost = PER_ROUND * max(0, self.rounds - self.needed)
        return max(0, ROUNDS - lost) if self.is_right else 0

    @property
    def points(self) -> int:
        """All points, of a hundred."""
        return self.focus + self.for_readings + self.for_rounds


def score(sitting: Sitting) -> Score:
    """Hold the camera as it stands against how it was found, by `RULES`."""
    entries = sitting.entries
    adjusted = [entry.number for entry in entries if isinstance(entry.action, Adjust)]
    last = adjusted[-1] if adjusted else len(entries) + 1
    readings = sum(isinstance(e.action, Read) and e.number < last for e in entries)
    rounds = entries[-1].round if entries else 0
    places = tuple(_places(sitting.stand, sitting.found, sitting.state))
    needed = rounds_needed(sitting.stand, sitting.level, sitting.found)
    return Score(places, readings, rounds, needed)


def _places(stand: Stand, found: State, left: State) -> Iterator[JudgedPlace]:
    before, after = (errors(stand, state.practice.hidden) for state in (found, left))
    corners = []
    for duty, was, now in zip(stand.duties, before, after, strict=True):
        if duty.place != (0.0, 0.0):
            corners.append((was, now, duty.tolerance))
            continue
        yield JudgedPlace(
            _place_name(duty.spot, duty.words, duty.distance), was, now, duty.tolerance
        )
    was, now = (max((corner[i] for corner in corners), key=abs) for i in (0, 1))
    yield JudgedPlace("worst corner", was, now, corners[0][2])
    if stand.finder is not None:
        yield JudgedPlace("rangefinder's height", found.height, left.height, EYE, is_angle=True)


def _place_name(spot: Spot, words: str, distance: float) -> str:
    if spot is Spot.NEAR:
        return f"{format_distance(distance)} mark"
    return f"rangefinder at {format_distance(distance)}" if spot is Spot.COINCIDENCE else words
