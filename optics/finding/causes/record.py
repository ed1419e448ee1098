"""What a cause is: one record that says all there is to say of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.camera.cautions import Caution
from optics.camera.taken import Taken
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.size import Millimetres
from optics.measure.uncertainty import Estimate
from optics.readings.readings import Reading
from optics.readings.spots import Spot
from optics.units import Leaves

Wanted: TypeAlias = Mapping[str, float]
"""The change wanted of each fault, by its name."""
Added: TypeAlias = Mapping[str, float]
"""What one unit of each fault adds to where a reading looks for lens, seat or film (mm)."""


@dataclass(frozen=True)
class Adjustment:
    """A rounded amount that a hand can set; `changes` is what it adds to each fault it touches.

    `leaves` are those it takes from the drawer, so that no later step counts on them.
    """

    cause: "Cause"
    title: str
    instruction: str
    changes: dict[str, Estimate]
    amounts: tuple[tuple[str, str], ...]
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    figures: dict[str, float | str] = field(default_factory=dict)
    leaves: Leaves = ()

    @property
    def tool(self) -> str:
        """What it is done with."""
        return self.cause.tool


@dataclass(frozen=True)
class Blocked:
    """An adjustment that is wanted and cannot be made, and why."""

    cause: "Cause"
    reason: str


Outcome: TypeAlias = Adjustment | Blocked


def _anywhere(taken: Taken) -> bool:
    del taken
    return True


def _no_coupling(camera: Camera, distance: float) -> Added:
    del camera, distance
    return {}


def _no_step(camera: Camera, at_hand: AtHand) -> float:
    del camera, at_hand
    return 0.0


# Compared and hashed as the very thing it is: two causes are never alike.
@dataclass(frozen=True, eq=False)
class Cause:
    """One thing that can be wrong, and all that the bench knows of it.

    Words: `name` in vectors and results, `in_jobs` in job files, `words` on page and paper;
    `figures` names each fault it has, with what is added when that is moved on purpose;
    `size` words how far off it is; `without` begins the sentence of a plan that avoids it.
    Place: `order` among the causes, `step` in the bench's order of work and `within` that step;
    `drawn` puts it later among those that chance draws from, for seeds that were given out hang
    on the order of the draw.
    Model: `prior` is what is supposed of it, of this camera, or None where it cannot be; `spots`
    are the places where it is seen, as far as it `shows` in what was taken there; `holds` what
    one unit of its faults adds, in the sense "too far out" (left out: as much again);
    `couples` what it adds to where the lens stands when the rangefinder's images meet.
    Cure: `put_right` makes an adjustment of the changes wanted, in steps no finer than
    `smallest`; `tool` is what it is done with. `is_always_open` says that a plan may touch it
    unsuspected; `gives_up` is what a plan leaves unset that avoids it.
    """

    name: str
    in_jobs: str
    words: str
    figures: Mapping[str, str]
    order: int
    step: BenchStep
    size: Millimetres
    prior: Prior | Callable[[Camera], Prior | None]
    spots: frozenset[Spot]
    tool: str
    put_right: Callable[[Camera, AtHand, Wanted], Outcome]
    within: int = 0
    drawn: int = 0
    shows: Callable[[Taken], bool] = _anywhere
    holds: Callable[[Camera, Reading], Added] | None = None
    couples: Callable[[Camera, float], Added] = _no_coupling
    smallest: Callable[[Camera, AtHand], float] = _no_step
    is_always_open: bool = False
    without: str = ""
    gives_up: Spot | None = None

    def supposed_of(self, camera: Camera) -> Prior | None:
        """What is supposed of a camera before it is measured; None where it cannot be."""
        return self.prior if isinstance(self.prior, Prior) else self.prior(camera)

    def disturbs(self, reading: Reading) -> bool:
        """Whether it can show in a reading where that was taken."""
        return reading.spot in self.spots and self.shows(reading.taken)

    def held(self, camera: Camera, reading: Reading) -> Added:
        """What one unit of its faults adds to where a reading looks for lens, seat or film."""
        if not self.disturbs(reading):
            return {}
        return self.holds(camera, reading) if self.holds else dict.fromkeys(self.figures, 1.0)

    def __str__(self) -> str:
        return self.name

    def __repr__(self) -> str:
        return f"Cause({self.name})"
