"""Zero and gain of a coupled rangefinder from what was read, by weighted least squares.

Every reading says: at extension x the rangefinder stands at convergence γ, so
γ = γ₀ + G·x (+ C·x²). The answer is a weighted sum of the readings, so each source of error
is carried through to zero and gain with its sign and they stay correlated.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from optics.camera.camera import Camera
from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate, Source, exact, weighted
from optics.rangefinder.acuity import WORKING, Acuity
from optics.rangefinder.coupling import Coupling, film_error_estimate, movement
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import Apart, Reading, eye, lens_stands, target_angle
from optics.relation import Array
from optics.units import format_angle, format_distance

# Two extensions (mm) that differ by less are one place on the scale.
_SAME_PLACE = 1e-6
# A bend is believed from one and a half times U on: at U itself one straight linkage in
# twenty would be taken for bent.
_BENT = 1.5


@dataclass(frozen=True)
class Fit:
    """Zero (rad), gain (rad/mm) and curvature (rad/mm²) with their uncertainty.

    `missing` says what further reading is needed, empty where none is; `scatter` is how many
    times the readings scatter what the eye and the tape account for (0: nothing to compare).
    """

    camera: Camera
    rangefinder: Rangefinder
    zero: Estimate
    gain: Estimate
    curvature: Estimate
    readings: int
    scatter: float = 0.0
    missing: tuple[str, ...] = ()

    @property
    def coupling(self) -> Coupling:
        """The figures without their uncertainty."""
        return Coupling(self.zero.value, self.gain.value, self.curvature.value)

    @property
    def figures(self) -> dict[str, Estimate]:
        """As the relations call them."""
        return {
            "zero_error": self.zero,
            "gain": self.gain,
            "coupling_curvature": self.curvature,
        }

    @cached_property
    def correlation(self) -> float:
        """The correlation of zero and gain, −1 to 1."""
        return correlation(self.zero, self.gain)

    def film_error(self, film_distance: float) -> Estimate:
        """The focus error (mm, + too far out) at a distance when the images meet."""
        return film_error_estimate(self.camera, self.rangefinder, self.figures, film_distance)

    def extension(self, film_distance: float) -> float:
        """How far out (mm) the lens or front cell must stand for a distance."""
        return movement(self.camera, film_distance)


def correlation(one: Estimate, other: Estimate) -> float:
    """The correlation of two estimates through the sources they share; 0 if either is exact."""
    shared = math.fsum(part * other.parts.get(source, 0.0) for source, part in one.parts.items())
    size = one.standard * other.standard
    return shared / size if size else 0.0


def fit(
    camera: Camera,
    rangefinder: Rangefinder,
    readings: Sequence[Reading],
    design: Coupling,
    acuity: Acuity = WORKING,
) -> Fit:
    """Zero and gain from readings at one or more distances; curvature if they show it.

    Equation: minimise Σ w·(γ − γ₀ − G·x − C·x²)², w = 1/u² with u the uncertainty of each
    reading's angle: eye, tape and scale together. With readings at one distance only, the
    gain is taken from `design` and `missing` says so. The curvature is kept only where it is
    one and a half times its own expanded uncertainty or more; otherwise it is that of
    `design`. Where readings scatter more than their uncertainty, what is over is added as a
    source of its own.
    Errors: NoAnswer without readings, or where the sights would turn apart as the lens goes out.
    Limits: small curvature. Source: GUM 5.1.2, H.3.
    """
    if not readings:
        raise NoAnswer(
            "The rangefinder's zero and gain need readings: got none; bring the images together "
            "on a far and on a near target and enter both.",
            quantity="zero_error",
        )
    seen = _Seen.of(camera, rangefinder, readings, design, acuity)
    places = _places(seen.extensions)
    answers = _answers(seen, places)
    if not _turns_together(seen, answers):
        raise _contradiction(readings, answers[1].value)
    return _finished(seen, answers, places)


def _answers(seen: "_Seen", places: int) -> tuple[Estimate, ...]:
    if places > 2:
        curved = seen.solved(3)
        if abs(curved[2].value) > _BENT * curved[2].expanded > 0:
            return curved
    return seen.solved(min(places, 2))


def _turns_together(seen: "_Seen", answers: tuple[Estimate, ...]) -> bool:
    """Whether the sights turn together all the way that the lens goes out, as they must."""
    _, gain, curvature = answers
    ends = np.array([0.0, seen.extensions.min(), seen.extensions.max()])
    return bool((gain.value + 2 * curvature.value * ends > 0).all())


def _contradiction(readings: Sequence[Reading], gain: float) -> NoAnswer:
    """Readings by which the sights would turn apart as the lens goes out, in words."""
    gaps = [one for one in readings if isinstance(one, Apart)]
    if not gaps:
        said = (
            "The distances at which the images meet contradict each other: from far to near the "
            "lens would have to go in instead of out; check that each distance on the lens scale "
            "stands with its own target."
        )
    else:
        listed = " and ".join(
            f"{number} ({format_angle(gap.angle.value)} on the target at "
            f"{format_distance(gap.true.value)}, ring {gap.ring})"
            for number, gap in enumerate(gaps, start=1)
        )
        others = "the other readings" if len(gaps) < len(readings) else "each other"
        said = (
            f"Images apart {listed} contradict {others}: from far to near the sights would have "
            "to turn apart instead of together; check which way the ring would go, then the gap "
            "and the distances."
        )
    return NoAnswer(said, quantity="gain", value=gain)


@dataclass(frozen=True)
class _Seen:
    """All readings as equations, and what is known beforehand."""

    camera: Camera
    rangefinder: Rangefinder
    design: Coupling
    extensions: Array
    angles: tuple[Estimate, ...]

    @classmethod
    def of(
        cls,
        camera: Camera,
        rangefinder: Rangefinder,
        readings: Sequence[Reading],
        design: Coupling,
        acuity: Acuity,
    ) -> "_Seen":
        stands = [lens_stands(camera, r.scale) for r in readings]
        angles = []
        for number, (reading, x) in enumerate(zip(readings, stands, strict=True), start=1):
            angle = target_angle(rangefinder, reading)
            angle = angle.plus(eye(rangefinder, acuity, f"eye at reading {number}"))
            # What the scale hides of the extension comes into the angle through the gain.
            hidden = Estimate(0.0, x.parts)
            angles.append(angle.plus(hidden, -design.gain - 2 * design.curvature * x.value))
        values = np.array([x.value for x in stands])
        return cls(camera, rangefinder, design, values, tuple(angles))

    def solved(self, order: int) -> tuple[Estimate, ...]:
        """Zero, gain and curvature, so many of them from the readings."""
        x, design = self.extensions, self.design
        powers = np.vander(x, 3, increasing=True)
        known = (exact(0.0), exact(design.gain), exact(design.curvature))
        taken = powers[:, order:] @ np.array([k.value for k in known[order:]])
        values = np.array([a.value for a in self.angles]) - taken
        weights = 1 / self._spread
        # A pseudo-inverse keeps its digits where the columns differ a thousandfold.
        scale = np.maximum(np.abs(powers[:, :order]).max(axis=0), 1e-12)
        to_answer = np.linalg.pinv(powers[:, :order] / scale * weights[:, None])
        to_answer = to_answer * weights / scale[:, None]
        seen = [Estimate(float(v), a.parts) for v, a in zip(values, self.angles, strict=True)]
        found = tuple(weighted(row, seen) for row in to_answer)
        left = (values - powers[:, :order] @ (to_answer @ values)) * weights
        return (*self._scattered(found, to_answer, left), *known[order:])

    @cached_property
    def _spread(self) -> Array:
        # Readings without any uncertainty weigh alike.
        spread = np.array([a.standard for a in self.angles])
        return np.where(spread > 0, spread, spread.max() or 1.0)

    def _scattered(
        self, found: tuple[Estimate, ...], to_answer: Array, left: Array
    ) -> tuple[Estimate, ...]:
        """Add what the readings scatter beyond their uncertainty, as independent sources."""
        excess = self._ratio(left, len(found)) ** 2 - 1
        if excess <= 0:
            return found
        dof = len(left) - len(found)
        # A triangular root of the covariance, without forming it: that would square the condition.
        _, upper = np.linalg.qr((to_answer * self._spread).T)
        lower = upper.T * math.sqrt(excess)
        sources = [Source("scatter of the readings", dof) for _ in found]
        return tuple(
            estimate.plus(Estimate(0.0, dict(zip(sources, map(float, row), strict=True))))
            for estimate, row in zip(found, lower, strict=True)
        )

    @staticmethod
    def _ratio(left: Array, order: int) -> float:
        dof = len(left) - order
        return math.sqrt(float(left @ left) / dof) if dof else 0.0

    def scatter(self, answers: tuple[Estimate, ...], order: int) -> float:
        """How many times the readings scatter what is expected of them."""
        powers = np.vander(self.extensions, 3, increasing=True)
        values = np.array([a.value for a in self.angles])
        left = (values - powers @ np.array([a.value for a in answers])) / self._spread
        return self._ratio(left, order)


def _finished(seen: _Seen, answers: tuple[Estimate, ...], places: int) -> Fit:
    zero, gain, curvature = answers
    order = min(places, 3 if curvature.parts else 2)
    return Fit(
        seen.camera,
        seen.rangefinder,
        zero,
        gain,
        curvature,
        len(seen.angles),
        seen.scatter(answers, order),
        _missing(seen, gain, places),
    )


def _places(extensions: Array) -> int:
    return 1 + int(np.sum(np.diff(np.sort(extensions)) > _SAME_PLACE))


def _missing(seen: _Seen, gain: Estimate, places: int) -> tuple[str, ...]:
    """What further readings would tell, in words."""
    if places == 1:
        wanted = "a near" if seen.extensions.max() < _SAME_PLACE else "another, far or near,"
        return (
            f"All readings are at one distance: the gain is taken as designed. Read {wanted} "
            "target to find it.",
        )
    if gain.expanded > seen.design.gain / 10:
        return (
            "The distances are too close to each other to tell the gain within a tenth: read a "
            "nearer target, or repeat the readings.",
        )
    if places == 2:
        return (
            "Two distances cannot show whether the linkage is straight: a third, between "
            "them, would.",
        )
    return ()
