"""What a cause is: one record that says all there is to say of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.camera.where_taken import Taken
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior, Steps
from optics.finding.causes.size import Millimetres
from optics.moves import AtHand, Made, Move, Refused, Wanted, curing
from optics.readings.readings import Reading
from optics.readings.spots import Spot

Added: TypeAlias = Mapping[str, float]
"""What one unit of each fault adds to where a reading looks for lens, seat or film (mm)."""


@dataclass(frozen=True, kw_only=True)
class Adjustment(Made):
    """A move that puts a cause right."""

    cause: "Cause"


@dataclass(frozen=True)
class Blocked:
    """An adjustment that is wanted and cannot be made, and why."""

    cause: "Cause"
    reason: str


Outcome: TypeAlias = Adjustment | Blocked


def holds_nothing(camera: Camera, reading: Reading) -> Added:
    """What a cause adds that holds neither lens nor film out: it shows in another way."""
    del camera, reading
    return {}


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
    `couples` what it adds to where the lens stands when the rangefinder's images meet. `steps`
    tells of a camera by which whole steps it can be off, where it goes by steps at all.
    `told_by` is the reading that tells it from its like, where the spots do not say so;
    `lacking` what a camera has that cannot have it.
    Cure: the move that changes its faults, found by their names; `look_first` says what must be
    found in order before so large a change is made. `is_always_open` says that a plan may touch
    it unsuspected; `gives_up` is what a plan leaves unset that avoids it.
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
    within: int = 0
    drawn: int = 0
    shows: Callable[[Taken], bool] = lambda _: True
    holds: Callable[[Camera, Reading], Added] | None = None
    couples: Callable[[Camera, float], Added] = lambda *_: {}
    steps: Callable[[Camera], Steps] | None = None
    told_by: str = ""
    lacking: str = "no such part"
    look_first: Callable[[Wanted], str] = lambda _: ""
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

    def cure(self, camera: Camera) -> Move | None:
        """The move that puts it right on a camera; None where no hand can."""
        return curing(self.figures, camera)

    def smallest(self, camera: Camera, at_hand: AtHand) -> float:
        """The smallest change of its faults that a hand can set; 0 where nothing is so small."""
        move = self.cure(camera)
        return move.least(camera, at_hand) if move else 0.0

    def put_right(self, camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
        """Its move by amounts a hand can set, as near as may be to the changes wanted."""
        move = self.cure(camera)
        if move is None:
            return Blocked(self, f"No move on this bench changes it: {self.words}.")
        made, look = move.made(camera, at_hand, wanted), self.look_first(wanted)
        if isinstance(made, Refused):
            return Blocked(self, look or made.reason)
        done = Adjustment(**vars(made), cause=self)
        if not look:
            return done
        said = f"{look} Only if all of these are in order: {made.instruction}"
        return replace(done, instruction=said)

    def __str__(self) -> str:
        return self.name

    def __repr__(self) -> str:
        return f"Cause({self.name})"
