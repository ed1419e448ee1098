"""One coupled rangefinder on the bench: from its readings and rounds to what to do next."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from optics.camera.camera import Camera
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate
from optics.rangefinder.acuity import Acuity, Goal, film_uncertainty, goal
from optics.rangefinder.adjusters import (
    AdjusterStep,
    Advice,
    Done,
    EndErrors,
    History,
    Stuck,
    Trial,
    Which,
    advise,
)
from optics.rangefinder.correction import CouplingChange, correct
from optics.rangefinder.coupling import Coupling, movement, set_at
from optics.rangefinder.fit import Fit, fit
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import NearAdvice, where_to_set
from optics.rangefinder.readings import Coincidence, Reading, error_read
from optics.theory import rangefinder as theory

# The best near setting takes a tenth of a second, and most keys typed do not touch it.
_REMEMBERED = 32


@dataclass(frozen=True)
class Round:
    """Turns of the two adjusters (plus clockwise), then the lens scale read at both targets.

    `far` and `near` are distances on the scale (mm) at which the images of the far and of the
    near target meet. `typed` are the two turns in words as they were typed, if they were.
    """

    zero: float
    gain: float
    far: Estimate
    near: Estimate
    typed: tuple[str, str] = ("", "")


@dataclass(frozen=True)
class CoupledCamera:
    """A camera, its rangefinder, the eye that looks, and the near end of the range in use (mm).

    Errors: OutOfRange for a near end at infinity.
    """

    camera: Camera
    rangefinder: Rangefinder
    acuity: Acuity
    near_end: float

    def __post_init__(self) -> None:
        """Refuse a range that has no near end."""
        if math.isinf(self.near_end):
            raise OutOfRange(
                "The near end of the range in use must be finite: got infinity; enter the "
                "nearest distance the camera is used at.",
                quantity="near_end",
                value=self.near_end,
            )

    @cached_property
    def design(self) -> Coupling:
        """The coupling as it is usually meant: exact at infinity and at the near end."""
        return set_at(self.camera, self.rangefinder, math.inf, self.near_end)

    @property
    def goal(self) -> Goal:
        """What far and near are to be brought within."""
        return goal(self.camera, self.rangefinder, self.acuity)

    @property
    def noise(self) -> float:
        """The standard uncertainty (mm at the film) of one setting by eye."""
        return film_uncertainty(self.camera, self.rangefinder, self.acuity) / math.sqrt(3)


@dataclass(frozen=True)
class SetUp:
    """What was found, what is to change, and what to turn next.

    `found` is fitted to all first readings, `now` to the latest of each target; `far` and
    `near` are the targets (mm) that the rangefinder is to be exact at. `history` and `advice`
    are None with readings at one distance only.
    """

    bench: CoupledCamera
    readings: tuple[Reading, ...]
    rounds: tuple[Round, ...]
    far: float
    near: float
    found: Fit
    now: Fit
    wanted: Coupling
    correction: CouplingChange
    history: History | None
    advice: Advice | None

    @property
    def states(self) -> tuple[EndErrors, ...]:
        """The film errors at both targets, before anything was turned and after each round."""
        if self.history is None:
            return ()
        return (self.history.start, *(turned.after for turned in self.history.turned))

    @cached_property
    def where(self) -> NearAdvice:
        """Where to set near, for the linkage as it was found."""
        return near_advice(self.bench, self.found.curvature.value)


@lru_cache(maxsize=_REMEMBERED)
def near_advice(bench: CoupledCamera, curvature: float = 0.0) -> NearAdvice:
    """Where to set near so that the worst error over the range in use is least."""
    return where_to_set(bench.camera, bench.rangefinder, bench.near_end, curvature=curvature)


def next_turns(advice: Advice | None) -> tuple[float, float]:
    """Turns of the infinity and the near adjuster (plus clockwise) that the advice asks for."""
    match advice:
        case Trial(which, turns):
            return (turns, 0.0) if which is Which.ZERO else (0.0, turns)
        case AdjusterStep(zero, gain):
            return zero, gain
        case Done() | Stuck() | None:
            return 0.0, 0.0


def excess(bench: CoupledCamera, coupling: Coupling, film_distance: float) -> float:
    """By how much (rad) the sights converge too much with the lens right for a distance.

    Equation: γ₀ + G·x + C·x² − γ, with x the right extension and γ the right convergence.
    """
    stands = theory.curved_coupling.solve_for(theory.convergence).value(
        coupled_extension=movement(bench.camera, film_distance), **coupling.figures
    )
    return stands - bench.rangefinder.convergence(film_distance)


def set_up(
    bench: CoupledCamera, readings: Sequence[Reading], rounds: Sequence[Round] = ()
) -> SetUp:
    """Zero and gain as they stand, what is to change, and the next turn.

    The farthest and the nearest target of `readings` are the two that the rounds read again and
    the wanted coupling is exact at. Where all readings are at one distance, the other is taken
    to be infinity, or the near end.
    Errors: NoAnswer without readings, or for rounds without two targets.
    """
    readings, rounds = tuple(readings), tuple(rounds)
    camera, rangefinder = bench.camera, bench.rangefinder
    found = fit(camera, rangefinder, readings, bench.design, bench.acuity)
    far, near = _targets(bench, readings)
    history = _history(bench, readings, rounds, found, (far, near))
    now = _now(bench, readings, rounds, found) if rounds else found
    wanted = set_at(camera, rangefinder, far, near, found.curvature.value)
    return SetUp(
        bench,
        readings,
        rounds,
        far,
        near,
        found,
        now,
        wanted,
        correct(now, wanted, far, near),
        history,
        None if history is None else advise(history, bench.goal.error, rangefinder),
    )


def _ends(readings: Sequence[Reading]) -> tuple[Reading, Reading]:
    """The readings of the farthest and of the nearest target."""
    ordered = sorted(readings, key=lambda one: one.true.value)
    return ordered[-1], ordered[0]


def _targets(bench: CoupledCamera, readings: Sequence[Reading]) -> tuple[float, float]:
    far, near = (end.true.value for end in _ends(readings))
    if far > near:
        return far, near
    return (far, bench.near_end) if far > bench.near_end else (math.inf, near)


def _history(
    bench: CoupledCamera,
    readings: Sequence[Reading],
    rounds: Sequence[Round],
    found: Fit,
    targets: tuple[float, float],
) -> History | None:
    far, near = _ends(readings)
    if far.true.value == near.true.value:
        if not rounds:
            return None
        raise NoAnswer(
            "The rounds of adjusting need a far and a near target: got readings at one distance; "
            "read a second target before anything is turned.",
            quantity="true_distance",
            value=targets[0],
        )

    def error(reading: Reading) -> float:
        return error_read(bench.camera, reading, found.gain.value)

    history = History(EndErrors(error(far), error(near)), noise=bench.noise)
    for one in rounds:
        after = (error(met) for met in _met(one, far, near))
        history = history.then(one.zero, one.gain, *after)
    return history


def _now(
    bench: CoupledCamera, readings: Sequence[Reading], rounds: Sequence[Round], found: Fit
) -> Fit:
    """Zero and gain after the last round; two targets leave the curvature as it was found."""
    far, near = _ends(readings)
    latest = _met(rounds[-1], far, near)
    curved = replace(bench.design, curvature=found.curvature.value)
    return fit(bench.camera, bench.rangefinder, latest, curved, bench.acuity)


def _met(one: Round, far: Reading, near: Reading) -> tuple[Coincidence, Coincidence]:
    """After a round the images are brought together on both targets, however they stood before."""
    return Coincidence(far.true, one.far), Coincidence(near.true, one.near)
