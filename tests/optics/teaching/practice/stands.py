"""Sittings for the tests of the practice bench, on the invented cameras."""

from optics.finding.diagnosis import Faults
from optics.records.practice_shelf import SHELF
from optics.teaching.practice.levels import Level, State, draw_state
from optics.teaching.practice.sitting import Action, Sitting
from optics.teaching.practice.stand import Stand

OSTRIN, CORVANE, TARNBROOK = SHELF.values()
STANDS = tuple(SHELF.values())


def sitting(
    *actions: Action, stand: Stand = OSTRIN, level: Level = Level.ONE, seed: int = 1
) -> Sitting:
    """Give a sitting of these actions."""
    return Sitting(stand, level, seed, actions)


def state_of(stand: Stand, faults: Faults, height: float = 0.0) -> State:
    """Give a camera with these faults and no others."""
    drawn = draw_state(stand, Level.ONE, 1).practice
    clean = drawn.__class__(stand.camera, faults, stand.at_hand)
    return State(clean, height)
