"""Barrels put together wrongly by lot, whose truth is known."""

import math
import random
from dataclasses import dataclass

from optics.body.witness import Mark, Ranking, Thread, rank
from optics.camera.camera import Turn
from optics.camera.instruments import INSTRUMENTS
from optics.measure.uncertainty import within
from tests.optics.readings.simulated_camera import SimulatedCamera, WholeLens

DIAL = INSTRUMENTS["dial_over_10"].limit or 0.0
ANGLE_READ = 0.5  # degrees, either way
ALLOWED = 0.042
MAKER = "maker"


@dataclass
class Barrel:
    """A camera whose ring was set to a wrong mark on a wrong start, and its marks in degrees."""

    camera: SimulatedCamera
    marks: dict[str, float]
    present: str
    starts_out: int

    def error(self) -> float:
        """How far out the lens truly is, the ring's infinity at the present mark."""
        return self.camera.fault(math.inf, self.marks[self.present])

    def true_errors(self) -> list[float]:
        """The truth for every mark with every entry of the thread."""
        camera, kept = self.camera, self.camera.entered
        half = camera.starts // 2
        found = []
        for k in range(-half, half + 1):
            camera.entered = kept + k * 360 / camera.starts
            found += [camera.fault(math.inf, angle) for angle in self.marks.values()]
        camera.entered = kept
        return found


def drawn(chance: random.Random) -> Barrel:
    """A barrel of 1 to 8 starts with two to four marks, put together on any of them.

    What the maker left is anywhere within the tolerance.
    """
    starts = chance.randint(1, 8)
    left = chance.uniform(-ALLOWED, ALLOWED)
    camera = SimulatedCamera(
        WholeLens(47.0, 0.6),
        chance.uniform(6, 24),
        starts,
        chance.random() < 0.5,
        28.8,
        [0.1 + left],
        0.1,
    )
    marks = {MAKER: 0.0} | {name: chance.uniform(-40, 40) for name in "ABC"[: chance.randint(1, 3)]}
    half = starts // 2
    moved = chance.randint(-half, half)
    camera.entered += moved * 360 / starts
    return Barrel(camera, marks, chance.choice(list(marks)), moved)


def ranked(barrel: Barrel, chance: random.Random) -> Ranking:
    """Gauge the barrel with the usual instruments, each wrong within its limit, and rank."""
    camera = barrel.camera
    thread = Thread(
        camera.lead,
        camera.starts,
        Turn.CLOCKWISE if camera.right_hand else Turn.COUNTER_CLOCKWISE,
    )
    marks = [
        Mark(name, math.radians(angle + chance.uniform(-ANGLE_READ, ANGLE_READ)))
        for name, angle in barrel.marks.items()
    ]
    read = within(barrel.error() + chance.uniform(-DIAL, DIAL), DIAL, "reading")
    return rank(thread, marks, barrel.present, read, spread=ALLOWED)


def is_true(ranking: Ranking, barrel: Barrel) -> bool:
    """Whether the first is the maker's mark with the maker's start.

    Entered further on the way it extends the lens ends farther in, so the entry to undo that
    is as many starts out.
    """
    outward = barrel.starts_out if barrel.camera.right_hand else -barrel.starts_out
    first = ranking.first
    return first.mark.name == MAKER and first.starts_moved == outward
