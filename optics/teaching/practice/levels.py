"""How hard a practice camera is, and the hidden state that a level and a seed give it."""

import math
import zlib
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np

from optics.camera.camera import Bed
from optics.errors import OutOfRange
from optics.finding.causes import AT, places
from optics.moves.turning import film_per_degree
from optics.teaching.practice.camera import PracticeCamera, draw_camera
from optics.teaching.practice.instruments import Habits
from optics.teaching.practice.stand import Stand

MOST_SEED = 999_999
# Every fault drawn shows somewhere by at least this many tolerances.
_SHOWS = 1.25
# Chance that the rangefinder's height is off, from the second level on, and by how much at
# least and at most (rad at the eye).
_HEIGHT_CHANCE = 0.5
_HEIGHTS = (math.radians(3 / 60), math.radians(9 / 60))
# An eye used to the finder: between the 60″ of ordinary work and the 12″ of the trained
# (common practice, no source).
_EYE = math.radians(30 / 3600)


class Level(IntEnum):
    """How many faults there are, and how good instruments and old marks."""

    ONE = 1
    TWO = 2
    THREE = 3

    @property
    def words(self) -> str:
        """What awaits the apprentice."""
        return _WORDS[self]

    @property
    def is_worn(self) -> bool:
        """Whether instruments are worn and old marks mislead."""
        return self is Level.THREE

    def habits(self, stand: Stand) -> Habits:
        """How readings are taken: what the instruments can do, and how eye and hand repeat."""
        base = stand.finder.effective_base if stand.finder else 1.0
        if not self.is_worn:
            return Habits(acuity=_EYE, base=base)
        return Habits(
            eye_part=0.4,
            gauge_limit=0.04,
            gauge_spread=0.008,
            slide_limit=0.3,
            angle_limit=math.radians(0.75),
            distance_limit=5.0,
            acuity=2 * _EYE,
            base=base,
        )


_WORDS = {
    Level.ONE: "1: one fault",
    Level.TWO: "2: two faults",
    Level.THREE: "3: three faults, worn instruments",
}


@dataclass(frozen=True)
class OldMark:
    """A scribed line that met its fellow once: what must be moved, and by how much, to meet.

    In degrees of ring, plus in the extending sense, or mm of pointer towards the film.
    """

    name: str
    apart: float
    is_true: bool


@dataclass(frozen=True)
class State:
    """The camera with what is hidden in it, and its rangefinder's height error.

    `height` in rad at the eye, plus when the moving image stands too high.
    """

    practice: PracticeCamera
    height: float = 0.0


def chance_of(stand: Stand, level: Level, seed: int, number: int) -> np.random.Generator:
    """The chance of one action of a sitting; the same numbers give the same chance again."""
    name = zlib.crc32(stand.camera.name.encode())
    return np.random.default_rng([name, int(level), seed, number])


def draw_state(stand: Stand, level: Level, seed: int) -> State:
    """The camera as it comes to the bench: as many faults as the level says, all of them plain.

    Drawn as the diagnosis supposes cameras to be, and drawn again until there are so many and
    each alone puts some place at least 1.25 tolerances off.
    Errors: OutOfRange for a seed that is not from 0 to 999 999.
    """
    if not 0 <= seed <= MOST_SEED:
        raise OutOfRange(
            f"The seed must be a whole number from 0 to {MOST_SEED}: got {seed}; choose another.",
            quantity="seed",
            value=seed,
            limit=(0, MOST_SEED),
        )
    chance = chance_of(stand, level, seed, 0)
    priors = replace(stand.priors, most_causes=int(level))
    while True:
        drawn = draw_camera(stand.camera, stand.at_hand, priors, chance)
        if len(drawn.causes) == level and _is_plain(stand, drawn):
            return State(drawn, _height(stand, level, chance))


def _is_plain(stand: Stand, drawn: PracticeCamera) -> bool:
    rows = np.array([duty.row / duty.tolerance for duty in stand.duties])
    for cause in drawn.causes:
        alone = np.zeros(len(AT))
        alone[places(cause)] = drawn.hidden.vector[places(cause)]
        if np.abs(rows @ alone).max() < _SHOWS:
            return False
    return True


def _height(stand: Stand, level: Level, chance: np.random.Generator) -> float:
    if stand.finder is None or level is Level.ONE or chance.random() > _HEIGHT_CHANCE:
        return 0.0
    return float(chance.uniform(*_HEIGHTS) * chance.choice([-1, 1]))


def old_marks(stand: Stand, state: State, level: Level, seed: int) -> tuple[OldMark, ...]:
    """Lines scribed across scale ring and barrel (or pointer and bed) by earlier hands.

    At the first two levels there is one, the maker's own; at the third there are three, and
    whether the maker's is among them cannot be seen.
    """
    chance = chance_of(stand, level, seed, MOST_SEED + 1)
    is_bed = isinstance(stand.camera.focusing, Bed)
    per = 1.0 if is_bed else film_per_degree(stand.camera)
    true = -state.practice.hidden["ring"] / per
    if not level.is_worn:
        return (OldMark("A", round(true, 2 if is_bed else 1), True),)
    spread = stand.priors.spread(stand.priors.by_cause)[AT["ring"]] / per
    others = [float(chance.normal(0, spread)) for _ in range(3)]
    keeps = bool(chance.random() < 0.5)
    spots = [true, *others[:2]] if keeps else others
    return tuple(
        OldMark(name, round(spots[i], 2 if is_bed else 1), keeps and int(i) == 0)
        for name, i in zip("ABC", chance.permutation(3), strict=True)
    )
