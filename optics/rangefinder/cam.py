"""The cam of a coupled lens: how far it must push the body's follower at each place of the ring.

The body expects the lift of the lens it was cut for, or turns its sights in proportion to the
lift. Rotation is from the lens's infinity place, plus as it extends the lens; lift is counted
from the follower's place at infinity, in mm; arrays in, arrays out.
"""

import math
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.camera.camera import Camera, Helicoid
from optics.errors import OutOfRange
from optics.relation import Array, Formula
from optics.theory import cam, depth, helicoid, lens

ONE_DEGREE = math.radians(1)
_ROUNDING = 1e-9


@dataclass(frozen=True)
class LensLaw:
    """The follower must move as the lens the body was cut for would.

    `gain`, if known, is the convergence in rad for each mm of the follower at infinity.
    """

    focal_length: float
    hiatus: float = 0.0
    gain: float | None = None

    @property
    def formula(self) -> Formula:
        """Lift from the lens's extension."""
        return cam.cam_lift.solve_for(cam.lift)

    @property
    def constants(self) -> dict[str, float]:
        """The body's fixed inputs to its formula."""
        return {"body_focal_length": self.focal_length, "body_hiatus": self.hiatus}


@dataclass(frozen=True)
class StraightLaw:
    """The sights of this base converge by `gain` rad for each mm of the follower, everywhere."""

    base: float
    gain: float
    base_to_film: float = 0.0

    @property
    def formula(self) -> Formula:
        """Lift from the lens's extension."""
        return cam.straight_follower.solve_for(cam.lift)

    @property
    def constants(self) -> dict[str, float]:
        """The body's fixed inputs to its formula."""
        return {
            "base": self.base,
            "follower_gain": self.gain,
            "base_to_film": self.base_to_film,
        }


BodyLaw: TypeAlias = LensLaw | StraightLaw


@dataclass(frozen=True, eq=False)
class LiftTable:
    """What the cam must do at each rotation: arrays of one length.

    `rotation` rad, `extension`, `film_distance` (infinity first) and `lift` in mm, `slope` mm of
    lift for each mm of extension, `tolerance` the lift error in mm that uses up the tolerance
    at the film.
    """

    rotation: Array
    extension: Array
    film_distance: Array
    lift: Array
    slope: Array
    tolerance: Array


@dataclass(frozen=True)
class Cam:
    """A lens on its helicoid, the body it must serve, and how far its ring turns (rad).

    Errors: OutOfRange for a lens without a helicoid, or a turn that is not above zero or takes
    the lens beyond life size.
    Limits: paraxial; the whole lens moves; no play.
    """

    camera: Camera
    law: BodyLaw
    turn: float

    def __post_init__(self) -> None:
        """Refuse what has no cam, or turns beyond what the formulas describe."""
        most = 2 * math.pi * self.camera.lens.focal_length / self.thread.lead
        if not 0 < self.turn <= most:
            raise OutOfRange(
                f"The ring's turn from infinity must be more than 0° and at most "
                f"{math.degrees(most):.1f}°, where the lens reaches life size: got "
                f"{math.degrees(self.turn):.1f}°; check the turn and the lead.",
                quantity="turn",
                value=self.turn,
                limit=most,
            )

    @property
    def thread(self) -> Helicoid:
        """The helicoid that turns the cam."""
        focusing = self.camera.focusing
        if not isinstance(focusing, Helicoid):
            raise OutOfRange(
                "A cam needs a lens that moves whole on a helicoid: got another way of "
                "focusing; choose the helicoid and enter its lead.",
                quantity="focusing",
            )
        return focusing

    def extension(self, rotation: Array) -> Array:
        """How far the lens stands out from infinity, in mm."""
        travel = helicoid.ring_rotation.solve_for(helicoid.travel)
        return travel.value(rotation=rotation, lead=self.thread.lead)

    def film_distance(self, rotation: Array) -> Array:
        """The distance from the film that is sharp, in mm."""
        formula = lens.unit_focusing.solve_for(lens.film_distance)
        return formula.value(extension=self.extension(rotation), **self._of_lens)

    def lift(self, rotation: Array) -> Array:
        """The lift the body needs, in mm; NoAnswer where its own lens could not focus so near."""
        return self._lift_and_slope(rotation)[0]

    def slope(self, rotation: Array) -> Array:
        """Change of the lift needed for each mm that the lens moves."""
        return self._lift_and_slope(rotation)[1]

    def depth(self, rotation: Array) -> Array:
        """Depth of focus each way at full aperture, N·c·(1 + m/p), in mm."""
        magnification = lens.magnification_from_extension.solve_for(lens.magnification).value(
            extension=self.extension(rotation), focal_length=self.camera.lens.focal_length
        )
        formula, cone = self.camera.depth_of_focus_formula(depth.depth_each_way, magnification)
        return formula.value(
            f_number=self.camera.lens.full_aperture,
            circle_of_confusion=self.camera.circle_of_confusion,
            **cone,
        )

    def table(self, step: float = ONE_DEGREE) -> LiftTable:
        """The lift needed from infinity to the end of the turn, a row every `step` rad.

        Errors: OutOfRange for a step that is not above zero; NoAnswer where the body's own lens
        could not focus as near as this one does.
        """
        return self.rows(steps_to(self.turn, step))

    def rows(self, rotation: Array) -> LiftTable:
        """The lift needed at these rotations."""
        lift, slope = self._lift_and_slope(rotation)
        return LiftTable(
            rotation,
            self.extension(rotation),
            self.film_distance(rotation),
            lift,
            slope,
            slope * self.camera.allowed_error,
        )

    @property
    def _of_lens(self) -> dict[str, float]:
        return {
            "focal_length": self.camera.lens.focal_length,
            "hiatus": self.camera.lens.hiatus,
        }

    def _lift_and_slope(self, rotation: Array) -> tuple[Array, Array]:
        lift, slopes = self.law.formula.value_and_partials(
            extension=self.extension(rotation), **self.law.constants, **self._of_lens
        )
        return lift, slopes["extension"]


def steps_to(end: float, step: float, start: float = 0.0) -> Array:
    """Every multiple of `step` from `start` to `end`, both rad; the end itself is added."""
    if not step > 0:
        raise OutOfRange(
            f"The step of the table must be more than 0°: got {math.degrees(step):g}°; "
            "enter how many degrees lie between its rows.",
            quantity="step",
            value=step,
            limit=0.0,
        )
    first = math.ceil(start / step - _ROUNDING)
    last = math.floor(end / step + _ROUNDING)
    whole = step * np.arange(first, last + 1)
    between = whole[(whole > start + _ROUNDING) & (whole < end - _ROUNDING)]
    return np.array([start, *between, end])
