"""From measured lifts to metal: where to stone a cam, how much, and what that leaves.

Metal only comes off. The rangefinder's zero, and its gain where that can be set, are chosen so
that no place asks for metal to be added and the deepest cut is the least there can be.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, from_repeats
from optics.measure.verdict import Verdict, judge, worst_of
from optics.rangefinder.cam import Cam, steps_to
from optics.relation import Array

# Cuts are given in what a dial gauge shows, as coarse as the tolerance lets it be.
GAUGE_STEPS = (0.01, 0.005, 0.002, 0.001)
_PART_OF_TOLERANCE = 0.25
# How much of the metal to take before measuring again (common practice, no source).
FIRST_PASS = 2 / 3
_ROUNDING = 1e-9


@dataclass(frozen=True)
class LiftReading:
    """The lift read at a rotation (rad) from the lens's infinity place."""

    rotation: float
    lift: Estimate


def lift_readings(
    rotations: Sequence[float], lifts: Sequence[Sequence[float]], limit: float
) -> tuple[LiftReading, ...]:
    """Readings from repeats in mm at each rotation (rad) and the gauge's ± `limit`, in order.

    The gauge's zero is free: only differences of lift count.
    """
    named = (
        LiftReading(r, from_repeats(tuple(v), limit, f"lift at {math.degrees(r):.1f}°"))
        for r, v in zip(rotations, lifts, strict=True)
    )
    return tuple(sorted(named, key=lambda one: one.rotation))


@dataclass(frozen=True)
class StoningRules:
    """How the stoning is asked for.

    `least_gain` and `most_gain`: how far the coupling can be adjusted, as a part of its present
    gain. `sureness`: how many times its expanded uncertainty each reading is held back, so that
    no place is found too low afterwards (0: readings as they are; 1: sure at 95 %). `deepest`:
    the cut in mm above which to warn. `share`: of the metal, to take before measuring again.
    `cutting_lowers`: less metal means less lift; false where the cam holds the follower back.
    """

    least_gain: float = 1.0
    most_gain: float = 1.0
    sureness: float = 0.0
    deepest: float | None = None
    share: float = FIRST_PASS
    cutting_lowers: bool = True

    def __post_init__(self) -> None:
        """Refuse limits of gain that leave out the present one, and shares that are none."""
        _hold("gain at its least", self.least_gain, 0 < self.least_gain <= 1, "above 0, at most 1")
        _hold("gain at its most", self.most_gain, 1 <= self.most_gain < math.inf, "1 or more")
        _hold("sureness", self.sureness, 0 <= self.sureness < math.inf, "0 or more")
        _hold("share of the first pass", self.share, 0 < self.share <= 1, "above 0, at most 1")

    @property
    def way(self) -> float:
        """Change of lift for each mm of metal left on: 1, or −1 where cutting raises the lift."""
        return 1.0 if self.cutting_lowers else -1.0


def _hold(quantity: str, value: float, is_right: bool, limit: str) -> None:
    if not is_right:
        raise OutOfRange(
            f"The {quantity} must be {limit}: got {value:g}; enter it again.",
            quantity=quantity,
            value=value,
            limit=limit,
        )


@dataclass(frozen=True)
class LiftCurve:
    """The focus error at the film, place by place, the rangefinder set right at the first.

    `depth` is the depth of focus each way there.
    """

    focus_error: tuple[Estimate, ...]
    depth: Array
    allowed: float

    @property
    def within_depth(self) -> bool:
        """Whether every place is inside the depth of focus at full aperture."""
        return bool(np.all(np.abs([e.value for e in self.focus_error]) <= self.depth))

    @property
    def worst(self) -> int:
        """Which place is farthest out at the film."""
        return int(np.argmax(np.abs([e.value for e in self.focus_error])))

    @property
    def verdict(self) -> Verdict:
        """Inside only if every place is, outside if any is, each with its guard band."""
        return worst_of(judge(error, self.allowed) for error in self.focus_error)


@dataclass(frozen=True)
class StoningMap:
    """What to take off a cam at each place where its lift was read.

    `datum_shift`: mm to be added to every reading so that it counts from the new infinity.
    `gain`: what to set the coupling to, as a part of its present gain. `removal`: metal in mm,
    to the last digit; `cut` and `first_pass` are what a gauge can show, never more than that.
    """

    cam: Cam
    readings: tuple[LiftReading, ...]
    rules: StoningRules
    datum_shift: float
    gain: float
    removal: Array = field(repr=False)

    @cached_property
    def rotation(self) -> Array:
        """Where the lift was read, in rad."""
        return np.array([r.rotation for r in self.readings])

    @cached_property
    def measured(self) -> Array:
        """The lifts read, in mm from the gauge's zero."""
        return np.array([r.lift.value for r in self.readings])

    @cached_property
    def required(self) -> Array:
        """The lift needed with the new gain, in mm from infinity."""
        return self.cam.lift(self.rotation) / self.gain

    @cached_property
    def tolerance(self) -> Array:
        """The lift error in mm that uses up the tolerance at the film, place by place."""
        return self.cam.rows(self.rotation).tolerance

    @cached_property
    def gauge_step(self) -> float:
        """The step of the cuts: 0.01 mm, or finer where that is over a quarter of tolerance."""
        finest = float(np.min(self.tolerance)) * _PART_OF_TOLERANCE
        return next((s for s in GAUGE_STEPS if s <= finest), GAUGE_STEPS[-1])

    @property
    def cut(self) -> Array:
        """All the metal to come off, rounded down to the gauge's step."""
        return self.rounded(self.removal)

    @property
    def first_pass(self) -> Array:
        """What to take off before the cam is measured again, rounded down likewise."""
        return self.rounded(self.rules.share * self.removal)

    def rounded(self, metal: Array) -> Array:
        """Metal in mm rounded down to the gauge's step."""
        steps: Array = np.floor(metal / self.gauge_step + _ROUNDING) * self.gauge_step
        return steps

    @property
    def low_place(self) -> int:
        """The place where least comes off: the whole cam is cut down to it."""
        return int(np.argmin(self.removal))

    @property
    def deep_places(self) -> tuple[int, ...]:
        """Places where more would come off than the stated depth."""
        deepest = self.rules.deepest
        return () if deepest is None else tuple(np.flatnonzero(self.removal > deepest).tolist())

    @property
    def follower_move(self) -> float:
        """How far (mm) the follower rests from its present place at the first reading, after."""
        return -self.rules.way * float(self.removal[0])

    @property
    def convergence_change(self) -> float | None:
        """Convergence (rad) to set at the rangefinder's zero to make up for that, if known.

        Plus: turn the lines of sight towards each other.
        """
        present = self.cam.law.gain
        return None if present is None else -present * self.gain * self.follower_move

    @cached_property
    def before(self) -> LiftCurve:
        """The cam as it was read, its rangefinder set right at the first place."""
        return self.predicted(np.zeros_like(self.removal), 1.0)

    @cached_property
    def after(self) -> LiftCurve:
        """What is to be expected when all has come off and zero and gain are set."""
        return self.predicted(self.cut, self.gain)

    def predicted(self, cut: Array, gain: float) -> LiftCurve:
        """What any cut (mm of metal at each place) and gain would leave.

        Equation: e = −(ε/y′), ε = g·(m − cut) − y counted from the first place, y′ the slope
        of the lift needed. Limits: lift errors small against the lens's focal length.
        """
        slope = self.cam.slope(self.rotation)
        needed = self.required * self.gain
        error = gain * (self.measured - self.rules.way * cut) - needed
        error = error - error[0]
        first = self.readings[0].lift
        at_film = (
            Estimate(float(-e / y)).plus(
                Estimate(0.0, one.lift.plus(first, -1.0).parts), float(-gain / y)
            )
            for e, y, one in zip(error, slope, self.readings, strict=True)
        )
        allowed = self.cam.camera.allowed_error
        return LiftCurve(tuple(at_film), self.cam.depth(self.rotation), allowed)

    def between(self, step: float) -> tuple[Array, Array]:
        """Rotations every `step` rad between the first and last reading, and metal to remove.

        Straight lines between the readings; nothing is said beyond them.
        """
        first, last = float(self.rotation[0]), float(self.rotation[-1])
        rotations = steps_to(last, step, first)
        return rotations, np.interp(rotations, self.rotation, self.removal)


def stone(
    cam: Cam, readings: Sequence[LiftReading], rules: StoningRules | None = None
) -> StoningMap:
    """The map of metal to remove: none added anywhere, and the deepest cut as small as can be.

    Equation: r = w·(m + a − u·y) ≥ sureness·U, deepest r least; w the way cutting works, u one
    over the gain. With the gain fixed the datum is a = max(u·y − m); else a small linear
    programme finds u, and the gain stays as it is where that is as good.
    Errors: OutOfRange for fewer than two places, or places outside the ring's turn; NoAnswer
    where the body cannot follow the lens.
    """
    rules = rules or StoningRules()
    found = tuple(sorted(readings, key=lambda one: one.rotation))
    _check(cam, found)
    needed = cam.lift(np.array([r.rotation for r in found]))
    measured = np.array([r.lift.value for r in found])
    held = rules.sureness * np.array([r.lift.expanded for r in found])
    stretch = _stretch(rules, measured, needed, held)
    metal = rules.way * (measured - stretch * needed)
    floor = float(np.min(metal - held))
    return StoningMap(cam, found, rules, -rules.way * floor, 1 / stretch, metal - floor)


def _check(cam: Cam, readings: tuple[LiftReading, ...]) -> None:
    rotations = [r.rotation for r in readings]
    if len(set(rotations)) < 2:
        raise OutOfRange(
            f"A stoning map needs lifts at two places at least: got {len(set(rotations))}; "
            "measure all along the cam, every 5° to 10°.",
            quantity="lift readings",
            value=len(set(rotations)),
            limit=2,
        )
    if rotations[0] < -_ROUNDING or rotations[-1] > cam.turn + _ROUNDING:
        raise OutOfRange(
            f"Lifts must be read between 0° and {math.degrees(cam.turn):.1f}° from infinity: got "
            f"{math.degrees(rotations[0]):.1f}° to {math.degrees(rotations[-1]):.1f}°; check the "
            "rotations and the ring's turn.",
            quantity="rotation",
            value=rotations[0] if rotations[0] < 0 else rotations[-1],
            limit=cam.turn,
        )


def _stretch(rules: StoningRules, measured: Array, needed: Array, held: Array) -> float:
    """One over the gain that makes the deepest cut least; 1 where nothing is gained by it."""

    def deepest(stretch: float) -> float:
        metal = rules.way * (measured - stretch * needed)
        return float(np.max(metal) - np.min(metal - held))

    if rules.least_gain == rules.most_gain:
        return 1.0
    best = _programmed(rules, measured, needed, held)
    return best if deepest(best) < deepest(1.0) - _ROUNDING else 1.0


def _programmed(rules: StoningRules, measured: Array, needed: Array, held: Array) -> float:
    """Unknowns: stretch u, datum a (both ways of sign), deepest cut t, which is made least."""
    # Imported here: only an adjustable gain pays for loading scipy.
    from scipy.optimize import linprog

    one = np.ones_like(measured)
    known = rules.way * measured
    turned = -rules.way * needed
    # r = known + turned·u + a, held ≤ r ≤ t.
    above = np.column_stack([-turned, -one, 0 * one])
    below = np.column_stack([turned, one, -one])
    solved = linprog(
        [0, 0, 1],
        A_ub=np.vstack([above, below]),
        b_ub=np.concatenate([known - held, -known]),
        bounds=[(1 / rules.most_gain, 1 / rules.least_gain), (None, None), (0, None)],
    )
    return float(solved.x[0])
