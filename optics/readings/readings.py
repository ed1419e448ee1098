"""Bench readings, each of which tells where the lens stands against where it should.

Every measured kind yields the focus error in mm with its uncertainty, through steps that
can be shown; parallax yields the direction alone. `taken` says where it was taken: nothing of
the calculation, but it decides which faults can have disturbed the reading. A reading taken at
the infinity stop has infinity for its mark.
"""

import math
from dataclasses import dataclass, field
from enum import IntEnum
from typing import ClassVar, Protocol

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid
from optics.camera.taken import ON_FILM, USUAL, Taken
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, Source, combine, exact
from optics.relation import Formula, Quantity
from optics.theory import collimation, gate, lens
from optics.units import format_distance


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


class Measurement(Protocol):
    """What every measured reading offers; the last step's result is the focus error."""

    kind: ClassVar[str]

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The calculation, in order."""
        ...


def _known(steps: tuple[Step, ...], *figures: tuple[Quantity, Estimate]) -> tuple[Step, ...]:
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


def _mark_step(camera: Camera, sharp: Estimate, mark: Estimate) -> Step:
    formula, constants = camera.mark_error_formula(lens.focus_error)
    return Step.of(formula, sharp_distance=sharp, mark_distance=mark, **camera.estimates(constants))


@dataclass(frozen=True)
class MarkReading:
    """With the ring at a mark, a target at a measured distance from the film is sharp."""

    mark: Estimate
    sharp_at: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "mark"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is the difference of the two extensions."""
        steps = (_mark_step(camera, self.sharp_at, self.mark),)
        return _known(steps, (lens.mark_distance, self.mark), (lens.sharp_distance, self.sharp_at))


@dataclass(frozen=True)
class RotationReading:
    """The ring was turned from a mark until a target was sharp.

    `rotation` in radians, plus in the direction that extends the lens; `target` is the
    target's distance from the film; `mark` is where the ring started, usually infinity.
    """

    rotation: Estimate
    target: Estimate
    mark: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "rotation"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is what the target calls for less what the turn gave."""
        focusing = camera.focusing
        if isinstance(focusing, Bed):
            raise NoAnswer(
                "A rotation says nothing of a lens that slides on a bed or struts: "
                "got a rotation reading; take a ring mark, register or collimator reading.",
                quantity="rotation",
                value=self.rotation.value,
            )
        constants = {"focal_length": camera.lens.focal_length, "lead": focusing.lead}
        relation = collimation.rotation_error
        if isinstance(focusing, FrontCell):
            relation = collimation.cell_rotation_error
        step = Step.of(
            relation.solve_for(lens.focus_error),
            rotation=self.rotation,
            sharp_distance=self.target,
            mark_distance=self.mark,
            **camera.estimates(constants | camera.constants),
        )
        return _known((step,), (lens.sharp_distance, self.target), (lens.mark_distance, self.mark))


@dataclass(frozen=True)
class RegisterReading:
    """The distance from lens seat to film, gauged, against what the lens is made for."""

    measured: Estimate
    nominal: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "register"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is measured less nominal."""
        del camera  # The register is the body's alone.
        formula = collimation.register_error.solve_for(lens.focus_error)
        step = Step.of(formula, measured_register=self.measured, nominal_register=self.nominal)
        return _known(
            (step,),
            (collimation.measured_register, self.measured),
            (collimation.nominal_register, self.nominal),
        )


@dataclass(frozen=True)
class CollimatorReading:
    """With the ring at infinity, the collimator's reticle was shifted until sharp at the film.

    `shift` is plus when the reticle moved inside the focus, towards the collimator's lens;
    `to_lens` is the distance from that lens to the camera's, None where nobody told it.
    """

    shift: Estimate
    collimator_focal_length: Estimate
    taken: Taken = USUAL
    to_lens: Estimate | None = None
    _untold: Source = field(
        default_factory=lambda: Source(
            "collimator lens to camera lens, not told", is_rectangular=True
        ),
        compare=False,
        repr=False,
    )
    kind: ClassVar[str] = "collimator"

    def farthest(self, camera: Camera) -> float:
        """As far apart (mm) as the lenses are supposed to stand where nobody tells: f + f_c.

        There the facing focal points meet, as in the textbooks. From touching to there is what
        a bench allows (common practice, no source).
        """
        return self.collimator_focal_length.value + camera.lens.focal_length

    def apart(self, camera: Camera) -> Estimate:
        """The distance between the lenses: as told, else anywhere from touching to f + f_c."""
        if self.to_lens is not None:
            return self.to_lens
        half = self.farthest(camera) / 2
        return Estimate(half, {self._untold: half / math.sqrt(3)})

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The reticle's image, seen from the camera's lens, is what the lens was sharp on."""
        if self.to_lens is None:
            self.span(camera)  # A shift that no image goes with at one end is refused.
        return (self._step(camera, self.apart(camera)),)

    def span(self, camera: Camera) -> tuple[float, float]:
        """The focus error with the lenses touching, and with their focal points together.

        Errors: OutOfRange for a shift that has no image with the lenses touching.
        """
        ends = (exact(0.0), exact(self.farthest(camera)))
        near, far = (self._step(camera, end).result.value for end in ends)
        return near, far

    def _step(self, camera: Camera, apart: Estimate) -> Step:
        return Step.of(
            collimation.collimator_conjugates.solve_for(lens.focus_error),
            reticle_shift=self.shift,
            focal_length=exact(camera.lens.focal_length),
            collimator_focal_length=self.collimator_focal_length,
            collimator_to_lens=apart,
        )


@dataclass(frozen=True)
class RulerReading:
    """A film test on a slanting ruler whose zero stands at `aim` from the film.

    `offset` is the place of best sharpness along the ruler, plus towards the camera;
    `slope` the angle between ruler and lens axis; `mark` what the ring was set to.
    """

    aim: Estimate
    offset: Estimate
    slope: Estimate
    mark: Estimate
    taken: Taken = ON_FILM
    kind: ClassVar[str] = "ruler"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The offset gives the sharp distance, and that the focus error."""
        sharp = Step.of(
            collimation.tilted_ruler.solve_for(lens.sharp_distance),
            aim_distance=self.aim,
            ruler_offset=self.offset,
            ruler_slope=self.slope,
        )
        steps = (sharp, _mark_step(camera, sharp.result, self.mark))
        return _known(steps, (collimation.aim_distance, self.aim), (lens.mark_distance, self.mark))


@dataclass(frozen=True)
class CoincidenceReading:
    """The rangefinder's two images of a target met with the ring set to `set_to`.

    `target` is the target's true distance from the film. The error is how far the lens then
    stood, by its ring, from where the target calls for it.
    """

    target: Estimate
    set_to: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "coincidence"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The error is the ring's extension less the target's."""
        return (_mark_step(camera, self.set_to, self.target),)


@dataclass(frozen=True)
class GateReading:
    """Where the film lies against the ground glass, gauged at the gate without the lens.

    `behind` is how far (mm) the emulsion lies behind the ground side, farther from the lens.
    """

    behind: Estimate
    taken: Taken = ON_FILM
    kind: ClassVar[str] = "gate"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """A lens that is right on the ground glass is too far out by as much."""
        del camera  # The gate is the body's alone.
        formula = gate.emulsion_error.solve_for(lens.focus_error)
        glass = exact(0.0).plus(self.behind, -1.0)
        return (Step.of(formula, rest=exact(0.0), play=exact(0.0), reference_depth=glass),)


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


@dataclass(frozen=True)
class ParallaxReading:
    """On the ground glass, how the image moves against the pencil cross when the eye moves.

    The eye looks from behind. An image that moves with the eye lies beyond the cross, that
    is nearer the lens, so the lens is too far out for the target.
    """

    image_moves_with_eye: bool | None
    kind: ClassVar[str] = "parallax"

    @property
    def sense(self) -> Sense:
        """The direction, which is all that parallax tells."""
        if self.image_moves_with_eye is None:
            return Sense.RIGHT
        return Sense.TOO_FAR_OUT if self.image_moves_with_eye else Sense.TOO_FAR_IN


def turned(camera: Camera, angle: float, sense: str) -> float:
    """Sign an unsigned rotation (rad): plus where the sense seen from the front extends."""
    focusing = camera.focusing
    if not isinstance(focusing, Helicoid | FrontCell):
        raise NoAnswer(
            "This camera has no focusing thread to turn; choose another kind of reading.",
            quantity="rotation",
            value=angle,
        )
    return angle if sense == focusing.extends else -angle
