"""How many rounds of adjusting a hidden camera needs at the least, however well it is read.

A lens far off hides what only some readings show: with the thread a start too far out, the images
of the rangefinder do not meet on its scale, and its own fault is out of sight until the start is
right; with a start too far in it is the film that shows nothing sharp. Such a camera takes a
second round of the best of hands.
"""

from dataclasses import replace

import numpy as np

from optics.errors import NoAnswer
from optics.finding.causes import Vector, places
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.sensitivity import Matrix, Straight
from optics.readings.readings import Judged
from optics.teaching.practice.instruments import PracticeBench
from optics.teaching.practice.levels import Level, State, chance_of
from optics.teaching.practice.sight import EYE, patch_at, rest_of
from optics.teaching.practice.stand import Stand, errors

# Three causes at most are drawn, and what one round uncovers the next puts right.
_MOST = 3


def rounds_needed(stand: Stand, level: Level, found: State) -> int:
    """The fewest rounds of adjusting that bring every place inside tolerance.

    One where nothing that is out is out of sight. Each round is as good as can be: its readings
    are free of noise, its hands never miss, and who plans it knows which causes are at work.
    """
    state = found
    for rounds in range(1, _MOST):
        state = _after_a_round(stand, level, state)
        if not _is_out(stand, state):
            return rounds
    return _MOST


def _after_a_round(stand: Stand, level: Level, state: State) -> State:
    """The camera when all is put right that the readings of this state tell, and no more."""
    rows = _rows_in_sight(stand, level, state)
    left = state.practice.hidden.vector
    for cause in stand.priors.steps:
        # Whole steps, as of a thread's starts, are told from what else moves the lens.
        left[places(cause)] *= not rows[:, places(cause)].any()
    left -= _best_guess(rows, rows @ left, stand.priors.spread(state.practice.causes))
    height = 0.0 if _is_height_in_sight(stand, state) else state.height
    return State(replace(state.practice, hidden=Faults.of(left)), height)


def _rows_in_sight(stand: Stand, level: Level, state: State) -> Matrix:
    """What each fault adds to each reading that can be taken: readings by faults."""
    bench = PracticeBench(level.habits(stand), chance_of(stand, level, 0, 0))
    taken = [
        offered.reading
        for offered in stand.offered.values()
        if bench.reaches(state.practice, offered.reading)
    ]
    sound = Faults().vector
    return Straight.of(stand.camera, taken).slopes(sound) if taken else sound[None, :]


def _best_guess(rows: Matrix, errors_shown: Vector, spread: Vector) -> Vector:
    """The likeliest faults (normal, with these deviations) that show just these errors.

    Equation: S·(R·S)⁺·e, S the deviations as a diagonal and ⁺ the pseudo-inverse; what no
    reading meets stays 0.
    """
    scaled = np.linalg.lstsq(rows * spread, errors_shown, rcond=None)[0]
    return np.asarray(spread * scaled)


def _is_out(stand: Stand, state: State) -> bool:
    off = errors(stand, state.practice.hidden)
    return abs(state.height) > EYE or any(
        abs(error) > duty.tolerance for error, duty in zip(off, stand.duties, strict=True)
    )


def _is_height_in_sight(stand: Stand, state: State) -> bool:
    """Whether the finder shows its moving image with ring or pointer at a target's distance."""
    for offered in stand.offered.values():
        if offered.reading.judged is not Judged.BY_RANGEFINDER:
            continue
        try:
            patch_at(stand, state, offered, rest_of(stand.camera, offered))
        except NoAnswer:
            continue
        return True
    return False
