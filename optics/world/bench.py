"""Readings taken on a traced camera by eyes and instruments that are none too sure.

Each gives the figures that were read, try by try, or None where it could not be taken.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np

from optics.errors import NoAnswer
from optics.world.build import Place
from optics.world.camera import MIDDLE, TracedCamera
from optics.world.lens import Stand
from optics.world.trace import Seen

SLIDE = 40.0
"""The reticle goes no farther than this either way (mm)."""
COLLIMATOR = 310.0
"""The collimator's focal length (mm)."""
FAR = 1.5e6
"""Where a target stands that is called infinitely far (mm)."""
RULER_SLOPE = math.radians(45)
# A distance that scatters by a larger part of itself is not written down.
_COARSEST = 0.15


@dataclass(frozen=True)
class Habits:
    """How readings are taken: instruments' limits (± rectangular) and spreads of single tries.

    `eye` is the blur that is just seen, as a part of N·c at the film; `gauge`, `slide`, `tape` in
    mm, `angle` in rad; `acuity` of the finder's images in rad; `mark` how nearly a ring is read,
    in mm of what focuses; `slips` how often a whole reading is wrong, by four to ten spreads.
    """

    tries: int = 3
    eye: float = 0.25
    gauge: float = 0.015
    gauge_spread: float = 0.003
    slide: float = 0.1
    angle: float = math.radians(0.25)
    tape: float = 2.0
    acuity: float = math.radians(1 / 60)
    mark: float = 0.01
    slips: float = 0.004


CAREFUL, USUAL = Habits(tries=5), Habits(tries=2)
STEADY = Habits(1, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
"""What no bench has: readings free of all scatter."""


@dataclass
class Bench:
    """A day at the bench; the depth gauge's own error stays the same all day."""

    camera: TracedCamera
    habits: Habits
    chance: np.random.Generator
    tape: float = 0.0

    def __post_init__(self) -> None:
        """Draw what all gauge readings share."""
        self.gauge_error = self._within(self.habits.gauge)

    def gauged(self, place: Place, register: float) -> list[float]:
        """The register at a place of the seat, by depth gauge; `register` is the published one."""
        faults, hidden = self.camera.faults, self.camera.unmodelled
        seat = faults.seat + faults.tilt[0] * place[0] + faults.tilt[1] * place[1]
        true = register - hidden.register + seat + self.gauge_error
        return [true + off for off in self._scatter(self.habits.gauge_spread)]

    def reticle(
        self, stand: Callable[[float], Stand], on_film: bool = False, place: Place = MIDDLE
    ) -> list[float] | None:
        """How far the collimator's reticle goes towards its lens until it is sharp."""
        found = self._vergences(stand, on_film, place)
        slid = self._within(self.habits.slide)
        shifts = []
        for vergence in found:
            apart = self.camera.unmodelled.collimator
            met = vergence / (1 - apart * vergence)
            shifts.append(met * COLLIMATOR**2 / (1 + met * COLLIMATOR) + slid)
        return shifts if all(abs(shift) <= SLIDE for shift in shifts) else None

    def turned(self, stand: Callable[[float], Stand]) -> list[float]:
        """How far (rad, plus extends) the ring is turned until a far target is sharp on glass."""
        camera, read_off = self.camera, self._within(self.habits.angle)
        per_mm = camera.lens.cell_effect if camera.lens.front_cell else 1.0
        needs = cache(
            lambda missed: camera.lens.needs(
                FAR, stand(missed), camera.unmodelled.glass, camera.eye
            )
        )
        tries = zip(self._blurs(), self._missed(), strict=True)
        outs = [needs(missed) - blur / per_mm for blur, missed in tries]
        return [2 * math.pi * out / camera.build.lead + read_off for out in outs]

    def sharp(self, stand: Callable[[float], Stand]) -> list[float] | None:
        """At which distances a target is sharp on the glass, as the tape tells them."""
        first = self.camera.lens.first_face(stand(0.0))
        found = self._vergences(stand, False, MIDDLE)
        if min(found) <= 0:
            return None
        distances = [1 / vergence + first for vergence in found]
        if np.ptp(distances) > 2 * _COARSEST * min(distances):
            return None
        taped = self._within(self.habits.tape) - self.tape
        return [distance + taped for distance in distances]

    def along_ruler(self, stand: Stand, aim: float) -> list[float] | None:
        """How far from its zero, towards the film, a slanting ruler is sharp on the film."""
        camera, taped = self.camera, self._within(self.habits.tape)
        true_aim = aim + self.tape + taped
        try:
            sharp = camera.lens.sharp_at(stand, camera.faults.gate)
        except NoAnswer:
            return None
        blur = self.camera.lens.glass.focal_length**2 / sharp**2
        # Sharpness falls off alike both ways, so that a middle is found to a fourth of the blur.
        spread = self._eye() / 4 / blur
        return [(true_aim - sharp + off) / math.cos(RULER_SLOPE) for off in self._scatter(spread)]

    def met(self, distance: float) -> list[float] | None:
        """What the ring shows when the finder's images of a target meet; None beyond its ends."""
        camera, coupling = self.camera, self.camera.build.coupling
        stand = camera.meeting(min(distance, FAR))
        if coupling is None or stand is None:
            return None
        ends = [camera.scale.out(mark) for mark in (math.inf, 0.8 * camera.build.marks[1])]
        at = camera.ring_at(stand) - camera.faults.ring
        blur = camera.lens.glass.focal_length**2 * self.habits.acuity
        spread = blur / coupling.base / coupling.magnification / math.sqrt(3)
        spread += self.habits.mark
        if not ends[0] - 1e-9 <= at - 0.3 * spread or at > ends[1]:
            return None
        slack = camera.unmodelled.slack / 2
        tries = [off + self._within(slack) for off in self._scatter(spread)]
        return [camera.read_on_ring(stand, off) for off in tries]

    def _vergences(
        self, stand: Callable[[float], Stand], on_film: bool, place: Place
    ) -> list[float]:
        """The vergences before the lens of what is sharp, try by try."""
        camera, seen = self.camera, self._seen(on_film)
        surface = camera.faults.gate if on_film else camera.unmodelled.glass
        surface += camera.lean(math.inf, place)
        # Towards the film's edge the image comes to lie in front of its middle.
        surface += camera.sag(place)
        # A blur so small moves the vergence by its share of f²; tracing it anew adds nothing.
        slope = camera.lens.glass.focal_length**2
        at = cache(lambda missed: camera.lens.vergence_at(stand(missed), surface, seen))
        tries = zip(self._blurs(), self._missed(), strict=True)
        return [at(missed) + blur / slope for blur, missed in tries]

    def _seen(self, on_film: bool) -> Seen:
        return self.camera.lens.wide_open if on_film else self.camera.eye

    def _eye(self) -> float:
        """The spread of one try by eye, mm at the film."""
        return self.habits.eye * 2 * self.camera.build.tolerance / math.sqrt(3)

    def _blurs(self) -> list[float]:
        return self._scatter(self._eye())

    def _missed(self) -> list[float]:
        """What the thread's lost motion leaves, mm of what focuses, try by try."""
        half = self.camera.unmodelled.lost / 2 / self.camera.build.film_effect
        sides = np.ones(self.habits.tries)
        if not self.camera.unmodelled.one_side:
            sides = self.chance.choice((-1.0, 1.0), self.habits.tries)
        return [float(half * side) for side in sides]

    def _scatter(self, spread: float) -> list[float]:
        """What each try is off by; now and then all of them by a slip."""
        slip = 0.0
        if self.chance.random() < self.habits.slips:
            slip = float(self.chance.choice((-1.0, 1.0)) * self.chance.uniform(4, 10)) * spread
        return [float(off) + slip for off in self.chance.normal(0.0, spread, self.habits.tries)]

    def _within(self, limit: float) -> float:
        return float(self.chance.uniform(-limit, limit))
