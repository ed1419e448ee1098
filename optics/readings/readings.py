"""What a reading is: it tells where the lens stands against where it should.

Every measured kind yields the focus error in mm with its uncertainty, through steps that
can be shown. `taken` says where it was taken: nothing of the calculation, but it decides which
faults can have disturbed the reading. A reading taken at the infinity stop has infinity for its
mark. The kinds themselves are one file each in `kinds/`.
"""

import math
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum, IntEnum, StrEnum
from typing import Any, ClassVar, Self, TypeAlias, cast

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import Surface, Taken
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, combine
from optics.readings.missing import Missing
from optics.readings.spots import Spot
from optics.relation import Formula, Quantity
from optics.theory import lens
from optics.units import format_distance

Meets: TypeAlias = Callable[[float], float]
"""How far (mm at the film) beyond its place the lens stands when the images of a target meet."""
Thing: TypeAlias = tuple[Spot, float, Surface, tuple[float, float]]
"""What was looked at, by whatever instrument."""


@dataclass(frozen=True)
class Step:
    """One formula with the estimates put into it and the answer that came out."""

    formula: Formula
    inputs: dict[str, Estimate]
    result: Estimate

    @classmethod
    def of(cls, formula: Formula, **inputs: Estimate) -> "Step":
        """Work the formula out."""
        return cls(formula, inputs, combine(formula, **inputs))

    def working(self) -> tuple[str, ...]:
        """The step as LaTeX lines with its numbers."""
        return self.formula.working(**{k: v.value for k, v in self.inputs.items()})

    def working_text(self) -> tuple[str, ...]:
        """The step in plain Unicode with its numbers."""
        return self.formula.working_text(**{k: v.value for k, v in self.inputs.items()})


class Sense(IntEnum):
    """Which way the lens is off; the words say it on screen."""

    TOO_FAR_IN = -1
    RIGHT = 0
    TOO_FAR_OUT = 1

    @property
    def words(self) -> str:
        """As the repairer says it."""
        return {-1: "too far in", 0: "right", 1: "too far out"}[self.value]

    @classmethod
    def of(cls, error: float, least: float = 0.0005) -> "Sense":
        """The sense of an error; below half a micrometre there is none to speak of."""
        return cls(0 if abs(error) < least else int(math.copysign(1, error)))


class Judged(Enum):
    """By what a reading is judged: all that are judged alike scatter alike at the film."""

    BY_EYE = "eye"
    BY_GAUGE = "gauge"
    BY_RANGEFINDER = "rangefinder"


class Scale(Enum):
    """What the measured figure is read off, which has a limit of its own."""

    TAPE = "tape"
    SLIDE = "slide"
    PROTRACTOR = "protractor"


class Moved(StrEnum):
    """What is moved until the image is sharp, or the two images meet; each in its own unit.

    The ring by degrees, plus in the extending sense; the reticle by mm, plus towards the
    collimator's lens; the target to its distance from the film in m; the pointer along a bed's
    scale by mm, plus outwards from its ∞ mark.
    """

    RING = "ring"
    RETICLE = "reticle"
    TARGET = "target"
    POINTER = "pointer"


@dataclass(frozen=True)
class Reading(ABC):
    """What every kind of measured reading says of itself; the usual answer where there is one.

    Measured: `figure_name` is the field that holds the measured figure, `is_distance` whether
    that is a distance from the film; `judged` and `scale` tell how it is taken. `shrinks` says
    that the true focal length bends what it shows, as it does a collimator's.
    Words: `by` tells it from another kind that read the same thing; at the practice bench
    `taken_with` is what it is taken with, `looked_at` what the eye sees meanwhile, and `nowhere`
    why it cannot be taken where nothing is sharp.
    """

    kind: ClassVar[str]
    figure_name: ClassVar[str]
    by: ClassVar[str]
    nowhere: ClassVar[str]
    judged: ClassVar[Judged] = Judged.BY_EYE
    scale: ClassVar[Scale] = Scale.TAPE
    is_distance: ClassVar[bool] = False
    shrinks: ClassVar[bool] = False
    taken_with: ClassVar[str] = "by eye on the ground glass"
    looked_at: ClassVar[str] = ""

    @property
    @abstractmethod
    def taken(self) -> Taken:
        """Where it was taken."""

    @property
    def figure(self) -> Estimate:
        """The measured figure."""
        return cast(Estimate, getattr(self, self.figure_name))

    def showing(self, figure: Estimate) -> Self:
        """The reading with another measured figure."""
        changed: Any = {self.figure_name: figure}
        return replace(self, **changed)

    def taken_so(self, taken: Taken) -> Self:
        """The same reading, taken elsewhere or otherwise."""
        changed: Any = {"taken": taken}
        return replace(self, **changed)

    # ----------------------------------------------------------------- what it says of the lens

    @abstractmethod
    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The calculation, in order; the last step's result is the focus error."""

    def hangs_on(self, camera: Camera) -> tuple[Missing, ...]:
        """The camera's figures on which the focus error in mm hangs."""
        del camera
        return (Missing.FOCAL_LENGTH,)

    @property
    def tells_sense(self) -> bool:
        """Whether which way the lens is off hangs on no figure of the camera."""
        return True

    @property
    def turned_back(self) -> Estimate | None:
        """The turn (rad) by which the ring is off, where the reading itself is that turn."""
        return None

    @property
    def came_sharp_at(self) -> float | None:
        """The distance for which the lens was left sharp, so that its ring can be set to it."""
        return None

    def left_open(self, camera: Camera) -> str:
        """What it matters that something of it was not told; nothing where all was."""
        del camera
        return ""

    @property
    def is_bound_at_infinity(self) -> bool:
        """Whether a limit was stated for a tape that reached to infinity."""
        return False

    # ------------------------------------------------------------------- where it was taken

    @property
    def spot(self) -> Spot:
        """The kind of place at which it was taken."""
        if self.taken.at_stop:
            return Spot.STOP
        return Spot.INFINITY if math.isinf(self.seen_at) else Spot.NEAR

    @property
    def seen_at(self) -> float:
        """The distance from the film of what it was taken on, as far as it is stated."""
        return math.inf

    @property
    def looked_from(self) -> float | None:
        """The ring mark from which the eye looked; None where no eye did."""
        return math.inf

    @property
    def thing(self) -> Thing:
        """What was looked at, by whatever instrument: readings of one thing must agree."""
        return self.spot, self.seen_at, self.taken.surface, self.taken.place

    # ------------------------------------------------------------------ what a model foretells

    @abstractmethod
    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The measured figure on a lens held `off` (mm at the film) where it is looked for.

        Errors: NoAnswer where nothing would be sharp.
        """

    @property
    def sharp_target(self) -> float:
        """The distance from the film of what was really sharp when it was taken."""
        return math.inf

    @property
    def meets_at(self) -> float | None:
        """The distance at which the rangefinder's images met; None for another reading."""
        return None

    def out_of_focus(self, off: float, true: TrueLens, meets: Meets) -> float:
        """How far (mm at the film) the image lies from the glass, the figure being set.

        Plus: the lens stands too far out for what is looked at.
        """
        del off, true, meets
        raise TypeError(f"nothing is looked at in a {self.kind} reading")

    @abstractmethod
    def said(self, figure: float, camera: Camera) -> str:
        """A figure that it would show, as it would be written down."""

    # ------------------------------------------------------------------- at the practice bench

    def said_as_read(self, camera: Camera) -> str:
        """The measured figure, in the unit it was read in."""
        return self.said(self.figure.value, camera)

    def within_reach(self, figure: float) -> bool:
        """Whether the instrument reaches as far as to show a figure."""
        del figure
        return True

    def beyond_reach(self, amount: float) -> NoAnswer:
        """The refusal of a figure that the instrument does not reach."""
        del amount
        raise TypeError(f"nothing is beyond the reach of a {self.kind} reading")

    def instead(self, camera: Camera) -> "Reading | None":
        """What is read instead where this one cannot be taken."""
        del camera
        return None

    def is_nearer(self, other: "Reading") -> bool:
        """Whether it can be taken in the place of another since its target stands nearer."""
        del other
        return False

    def set_at(self, camera: Camera, moved: Moved | None, amount: float) -> float:
        """The measured figure with what is moved at an amount, in the unit of that."""
        del camera, moved
        return amount

    def rests_at(self, camera: Camera, moved: Moved | None) -> float:
        """Where what is moved stands when a look begins."""
        del camera, moved
        return 0.0


def known(steps: tuple[Step, ...], *figures: tuple[Quantity, Estimate]) -> tuple[Step, ...]:
    """The steps, unless a distance in them has limits that reach down to nothing.

    Asked last, since a distance that no lens can serve is the plainer thing to be told of.
    """
    for quantity, figure in figures:
        parts = (abs(part) for source, part in figure.parts.items() if source.is_rectangular)
        limit = sum(parts) * math.sqrt(3)
        if limit >= figure.value * (1 - 1e-12):
            raise OutOfRange(
                f"The uncertainty of the {quantity.meaning} must be smaller than the figure "
                f"itself: got {format_distance(figure.value)} ± {format_distance(limit)}; check "
                "what stands after the ± and its unit.",
                quantity=quantity.name,
                value=limit,
                limit=figure.value,
            )
    return steps


def mark_step(camera: Camera, sharp: Estimate, mark: Estimate) -> Step:
    """The focus error of a lens that is sharp at one distance with its ring at another."""
    formula, constants = camera.mark_error_formula(lens.focus_error)
    return Step.of(formula, sharp_distance=sharp, mark_distance=mark, **camera.estimates(constants))


def set_to(taken: Taken, mark: Estimate, camera: Camera) -> float:
    """How far the ring's mark sets the lens beyond infinity, by the scale as engraved."""
    return TrueLens(camera, 0.0).needs(math.inf if taken.at_stop else mark.value)
