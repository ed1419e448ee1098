"""An apprentice who reads what is advised, adjusts as the plan says, and knows nothing else."""

from collections.abc import Iterator

from optics.errors import ShimwrightError
from optics.finding.causes import Adjustment
from optics.finding.causes.tilt import TILT
from optics.finding.plan.planning import Plan
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.teaching.practice.controls import HEIGHT_PER_TURN
from optics.teaching.practice.debrief import debrief, plan_after
from optics.teaching.practice.sight import patch_at, rest_of
from optics.teaching.practice.sitting import Action, Adjust, Finish, Read, Sitting

READINGS = 6
# Less gained than this is not worth a reading to the apprentice.
_WORTH = 0.005


def played(start: Sitting, rounds: int) -> Sitting:
    """Give the sitting after so many rounds of six advised readings and their plan, laid down."""
    for _ in range(rounds):
        begun = len(start.actions)
        start = _read(start)
        entries = start.entries[begun:]
        plan = plan_after(start, entries[-1], [e.reading for e in entries if e.reading])
        for move in (*_moves(start, plan), *_height(start)):
            start = start.then(move)
    return start.then(Finish())


def _read(start: Sitting) -> Sitting:
    start = start.then(Read("∞ mark"))
    for _ in range(READINGS - 1):
        gain = debrief(start).remarks[-1].best_next
        if gain is None or gain.wrong_cause[0] - gain.wrong_cause[1] < _WORTH:
            break
        start = start.then(Read(gain.candidate.words))
    return start


def _moves(start: Sitting, plan: Plan) -> Iterator[Action]:
    for step in plan.steps:
        yield from _of_step(start, step.adjustment)


def _of_step(start: Sitting, step: Adjustment) -> Iterator[Action]:
    """What a hand does for one step of the plan, in the bench's own controls."""
    by = {name: change.value for name, change in step.changes.items()}
    for control in start.controls.values():
        if step.cause is TILT and "tilt_x" in control.effects:
            # The plane of the leaves at this screw: four times what the screw does to each.
            screws = start.stand.at_hand.standard_screws
            amount = by.get("seat", 0.0)
            for name, apart in zip(("tilt_x", "tilt_y"), screws, strict=True):
                amount += 4 * control.effects[name] * apart**2 * by.get(name, 0.0)
            if abs(amount) > 1e-6:
                yield Adjust(control.name, round(amount, 4))
        elif set(control.effects) == {step.cause.name}:
            effect = control.effects[step.cause.name]
            yield Adjust(control.name, round(by[step.cause.name] / effect, 6))


def _height(start: Sitting) -> Iterator[Action]:
    """The height screw, by sixteenths of a turn, as the finder shows its moving image."""
    for offered in start.stand.offered.values():
        if not isinstance(offered.reading, CoincidenceReading):
            continue
        try:
            up = patch_at(
                start.stand, start.state, offered, rest_of(start.stand.camera, offered)
            ).up
        except ShimwrightError:
            continue
        turns = round(-up / HEIGHT_PER_TURN * 16) / 16
        if turns:
            yield Adjust("turn the height screw", turns)
        return
