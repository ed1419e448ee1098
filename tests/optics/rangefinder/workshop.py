"""Rangefinders to be read and set by hand, which know none of the program's formulas.

The lens is placed by halving intervals on the thin-lens equation, the lines of sight are
drawn from their places, and adjusters are screws or eccentrics that act on each other.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from optics.camera.camera import Camera, Helicoid, Lens, Turn

MINUTE = math.pi / 10_800


def camera(focal_length: float = 50.0, aperture: float = 2.0, blur: float = 0.03) -> Camera:
    """Return a camera with a helicoid."""
    lens = Lens(float(focal_length), float(aperture))
    return Camera("Sample", lens, Helicoid(18.0, 6, Turn.COUNTER_CLOCKWISE), blur)


def halved(wrong: Callable[[float], float], low: float, high: float) -> float:
    """Find where a steady function changes its sign."""
    rising = wrong(high) > wrong(low)
    for _ in range(200):
        middle = (low + high) / 2
        if (wrong(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def extension(focal_length: float, subject: float) -> float:
    """Return how far out a thin lens must stand to throw the subject's image on the film."""
    if math.isinf(subject):
        return 0.0

    def fault(x: float) -> float:
        carried = focal_length + x
        return carried - 1 / (1 / focal_length - 1 / (subject - carried))

    return halved(fault, 0.0, focal_length * 0.999)


def sight_angle(base: float, back: float, subject: float) -> float:
    """Return the angle between the two lines of sight, from where their ends stand."""
    return 0.0 if math.isinf(subject) else math.atan2(base, subject - back)


@dataclass
class HandSet:
    """A coupled rangefinder with two hidden adjusters, read at infinity and at a near target.

    An adjuster that is an eccentric acts as the sine of its turn. `rates` are mm at the film
    for a turn, or the throw of an eccentric; `across` how much each acts in the other's place.
    """

    focal_length: float
    base: float
    back: float
    near: float
    rates: tuple[float, float]
    across: tuple[float, float]
    eccentric: tuple[bool, bool] = (False, False)
    right: tuple[float, float] = (0.0, 0.0)
    off: tuple[float, float] = (0.0, 0.0)
    turned: np.ndarray = field(default_factory=lambda: np.zeros(2))

    def _acts(self, turns: np.ndarray) -> np.ndarray:
        swing = np.where(self.eccentric, np.sin(2 * np.pi * turns), turns)
        return swing * np.array(self.rates)

    @property
    def gone(self) -> np.ndarray:
        """How far each adjuster is from right, in mm at the film."""
        right = np.array(self.right)
        return self._acts(right + self.off + self.turned) - self._acts(right)

    def errors(self) -> np.ndarray:
        """Where the lens stands wrongly when the images meet, far and near."""
        zero, gain = self.gone
        out = extension(self.focal_length, self.near)
        angle = sight_angle(self.base, self.back, self.near)
        shift = zero + self.across[1] * gain
        stretch = 1 + (gain + self.across[0] * zero) / out
        # The lens meets an angle where the linkage, stretched and shifted, takes it.
        return np.array([shift * stretch, (angle / (angle / out) + shift) * stretch - out])


def drawn(chance: np.random.Generator, eccentric_share: float = 0.12) -> tuple[HandSet, Camera]:
    """Draw a set-up of realistic size: up to half a millimetre and a quarter of gain out."""
    while True:
        focal_length = float(chance.choice([35, 40, 45, 47, 50, 75, 80, 105]))
        aperture = float(chance.choice([1.8, 2, 2.8, 3.5, 4.5]))
        blur = 0.03 if focal_length < 60 else 0.05
        is_eccentric = chance.random(2) < eccentric_share
        sign = chance.choice([-1, 1], 2)
        set_up = HandSet(
            focal_length,
            base=float(chance.uniform(20, 70)),
            back=float(chance.uniform(0, 40)),
            near=float(chance.uniform(max(700, 12 * focal_length), 1500)),
            rates=tuple(
                sign
                * np.where(is_eccentric, chance.uniform(0.15, 0.4, 2), chance.uniform(0.15, 0.8, 2))
            ),
            across=(float(chance.uniform(-0.3, 0.3)), float(chance.uniform(-1, 1))),
            eccentric=tuple(bool(e) for e in is_eccentric),
            right=tuple(np.where(is_eccentric, chance.uniform(-1, 1, 2) / (2 * np.pi), 0.0)),
            off=tuple(
                np.where(is_eccentric, chance.uniform(-0.25, 0.25, 2), chance.uniform(-1.2, 1.2, 2))
            ),
        )
        out = extension(focal_length, set_up.near)
        zero, gain = set_up.gone
        if abs(gain + set_up.across[0] * zero) < out / 4 and abs(set_up.errors()).max() < 0.5:
            return set_up, camera(focal_length, aperture, blur)
