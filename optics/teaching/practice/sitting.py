"""A sitting at the practice bench: what was read and done, replayed from level, seed and actions.

Nothing is kept but the actions. Replayed, they give the same camera, the same noise and the same
misses of the hand again, for the chance of each action hangs on its number alone.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TypeAlias

import numpy as np

from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.measure.uncertainty import within
from optics.moves import Control
from optics.readings.practised import Offered
from optics.readings.readings import Reading
from optics.teaching.practice.controls import controls, done
from optics.teaching.practice.instruments import (
    Habits,
    PracticeBench,
    film_per_unit,
)
from optics.teaching.practice.levels import Level, OldMark, State, chance_of, draw_state, old_marks
from optics.teaching.practice.sight import focus_error, reading_at
from optics.teaching.practice.stand import Stand
from optics.teaching.practice.unseen import looking, unread
from optics.units import format_length

MOST_ACTIONS = 200


@dataclass(frozen=True)
class Read:
    """A reading taken; `judged` is where the apprentice's own eye put it, in the moved unit.

    None leaves it to the bench: an instrument's repeats, or five tries by an ordinary eye.
    """

    name: str
    judged: float | None = None


@dataclass(frozen=True)
class Adjust:
    """A control set by a signed amount, in its own unit; `typed` is its size as it was typed."""

    control: str
    amount: float
    typed: str = field(default="", compare=False)


@dataclass(frozen=True)
class Finish:
    """The work is laid down, and the hidden faults are shown."""


Action: TypeAlias = Read | Adjust | Finish


@dataclass(frozen=True)
class SittingEntry:
    """One action with the camera before and after it, and the reading it gave, if it was one.

    `round` counts the spells of adjusting so far; `by_eye` is how far (mm at the film) from the
    sharpest place the apprentice's own eye put it.
    """

    number: int
    action: Action
    before: State
    after: State
    round: int
    reading: Reading | None = None
    by_eye: float | None = None


@dataclass(frozen=True)
class Sitting:
    """A camera with hidden faults, and everything done to it so far."""

    stand: Stand
    level: Level
    seed: int
    actions: tuple[Action, ...] = ()

    def then(self, action: Action) -> "Sitting":
        """The sitting with one more action."""
        return replace(self, actions=(*self.actions, action))

    @cached_property
    def found(self) -> State:
        """The camera as it came to the bench."""
        return draw_state(self.stand, self.level, self.seed)

    @cached_property
    def controls(self) -> dict[str, Control]:
        """What hands can do to it."""
        return controls(self.stand)

    @cached_property
    def old_marks(self) -> tuple[OldMark, ...]:
        """The lines that earlier hands scribed."""
        return old_marks(self.stand, self.found, self.level, self.seed)

    @cached_property
    def habits(self) -> Habits:
        """What instruments and eye can do at this level."""
        return self.level.habits(self.stand)

    @cached_property
    def entries(self) -> tuple[SittingEntry, ...]:
        """Everything replayed.

        Errors: ShimwrightError, one sentence, for an action that cannot be done.
        """
        return tuple(_replayed(self))

    @property
    def state(self) -> State:
        """The camera as it stands now."""
        return self.entries[-1].after if self.entries else self.found

    @property
    def is_finished(self) -> bool:
        """Whether the work has been laid down."""
        return bool(self.actions) and isinstance(self.actions[-1], Finish)


def _replayed(sitting: Sitting) -> Iterator[SittingEntry]:
    state, spells, was_adjusting = sitting.found, 0, False
    bench = _bench_of(sitting)
    if len(sitting.actions) > MOST_ACTIONS:
        raise OutOfRange(
            f"A sitting has at most {MOST_ACTIONS} actions: got {len(sitting.actions)}; finish it.",
            quantity="actions",
            value=len(sitting.actions),
            limit=MOST_ACTIONS,
        )
    for number, action in enumerate(sitting.actions, start=1):
        bench.chance = _chance(sitting, number)
        match action:
            case Read():
                yield _read(sitting, number, action, state, spells, bench)
                was_adjusting = False
            case Adjust():
                spells += not was_adjusting
                after = _adjusted(sitting, number, action, state, bench)
                yield SittingEntry(number, action, state, after, spells)
                state, was_adjusting = after, True
            case Finish():
                yield SittingEntry(number, action, state, state, spells)
                if number < len(sitting.actions):
                    raise Unreadable(
                        "Nothing can be done after the work is laid down: got more actions after "
                        "the finish; take them out, or draw another camera.",
                        quantity="actions",
                    )


def _bench_of(sitting: Sitting) -> PracticeBench:
    """The instruments of the sitting, with the gauge's error that they have all day."""
    return PracticeBench(sitting.habits, _chance(sitting, 0))


def _chance(sitting: Sitting, number: int) -> np.random.Generator:
    return chance_of(sitting.stand, sitting.level, sitting.seed, number)


def can_be_taken(sitting: Sitting, after: SittingEntry, offered: Offered) -> bool:
    """Whether the bench would take a reading, noise and all, as the next action after an entry."""
    number = after.number + 1
    bench = _bench_of(sitting)
    bench.chance = _chance(sitting, number)
    try:
        _taken(sitting, number, offered, after.after, bench)
    except ShimwrightError:
        return False
    return True


def _read(
    sitting: Sitting, number: int, action: Read, state: State, spells: int, bench: PracticeBench
) -> SittingEntry:
    offered = sitting.stand.offered.get(action.name)
    if offered is None:
        names = ", ".join(sitting.stand.offered)
        raise Unreadable(
            f"There is no such reading on this bench: got {action.name!r}; choose from {names}.",
            quantity="reading",
            value=action.name,
        )
    if action.judged is None:
        reading = _taken(sitting, number, offered, state, bench)
        return SittingEntry(number, action, state, state, spells, reading)
    reading = _judged(sitting, state, offered, action.judged)
    with looking(offered):
        by_eye = focus_error(state.practice.camera, state.practice.hidden, reading)
    return SittingEntry(number, action, state, state, spells, reading, by_eye)


def _taken(
    sitting: Sitting, number: int, offered: Offered, state: State, bench: PracticeBench
) -> Reading:
    """The reading as the bench takes it; where it cannot, only that is said, and no figure."""
    try:
        reading = bench.take(state.practice, offered.reading)
        is_taken = reading.within_reach(reading.figure.value)
    except ShimwrightError:
        is_taken = False
    if not is_taken:
        was_adjusted = any(isinstance(action, Adjust) for action in sitting.actions[: number - 1])
        raise unread(sitting.stand, offered, was_adjusted)
    return reading


def _judged(sitting: Sitting, state: State, offered: Offered, amount: float) -> Reading:
    """The reading an eye made, good to what an eye just sees either way."""
    if offered.moved is None:
        raise Unreadable(
            f"The {offered.name} is read off an instrument, not judged by eye: got a judgement; "
            "take the reading instead.",
            quantity="judged",
            value=amount,
        )
    camera = state.practice.camera
    reading = reading_at(camera, offered, amount)
    if not reading.within_reach(reading.figure.value):
        raise reading.beyond_reach(amount)
    limit = eye_limit(sitting, offered) / film_per_unit(camera, reading)
    return reading.showing(within(reading.figure.value, limit, "judged by eye"))


def eye_limit(sitting: Sitting, offered: Offered) -> float:
    """How far either way (mm at the film) an eye sees no difference at this level."""
    return sitting.habits.eye_limit(sitting.stand.camera, offered.reading)


def _adjusted(
    sitting: Sitting, number: int, action: Adjust, state: State, bench: PracticeBench
) -> State:
    control = sitting.controls.get(action.control)
    if control is None:
        names = ", ".join(sitting.controls)
        raise Unreadable(
            f"There is nothing of the kind on this camera: got {action.control!r}; choose from "
            f"{names}.",
            quantity="control",
            value=action.control,
        )
    _check_amount(control, action.amount)
    _check_leaves(sitting, number, control)
    return done(state, control, action.amount, float(bench.chance.uniform(-1, 1)))


def _check_amount(control: Control, amount: float) -> None:
    if control.is_whole and amount != round(amount):
        raise OutOfRange(
            f"A thread is entered a whole number of starts farther: got {amount:g}; enter 1, 2 …",
            quantity=control.name,
            value=amount,
        )
    if not amount or not math.isfinite(amount):
        raise OutOfRange(
            f"To {control.name} takes an amount other than 0 {control.unit}: got {amount:g}; "
            "leave it alone, or say by how much.",
            quantity=control.name,
            value=amount,
            limit=0.0,
        )


def leaves_under(sitting: Sitting, control: Control, until: int) -> float:
    """How much shim (mm) lies where a control puts leaves, before an action."""
    before = (a for a in sitting.actions[:until] if isinstance(a, Adjust))
    put = math.fsum(a.amount for a in before if a.control == control.name)
    return (control.there or 0.0) + put


def _check_leaves(sitting: Sitting, number: int, control: Control) -> None:
    if control.there is None:
        return
    left = leaves_under(sitting, control, number)
    if left < -1e-9:
        before = leaves_under(sitting, control, number - 1)
        raise OutOfRange(
            f"No more shim can come out than is there: got {format_length(before - left)} of "
            f"{format_length(before)}; the seat itself is not to be cut.",
            quantity=control.name,
            value=before - left,
            limit=before,
        )
