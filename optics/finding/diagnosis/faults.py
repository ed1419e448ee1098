"""What can be wrong with a camera, as figures, and the causes a repairer knows them by."""

from dataclasses import astuple, dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.theory import helicoid

Vector = NDArray[np.float64]


@dataclass(frozen=True)
class Faults:
    """How far each part is from where it should be; nothing is wrong when all are 0.

    In mm at the film, plus when the lens ends too far out for the film: `seat` (shims),
    `start` (a whole number of pitches), `ring` (scale ring against barrel), `stop`, `gate`
    (plus when the film lies farther from the lens than the ground glass). `focal` is the true
    less the marked focal length in mm, of the front group where that alone moves. `tilt_x`
    and `tilt_y` are slopes of the standard (rad), plus when it stands farther out to the right
    and at the top, seen from the front. `zero` (mm) and `gain` (a fraction of the extension)
    say how far out the lens stands beyond its place when the rangefinder's images meet.
    """

    seat: float = 0.0
    start: float = 0.0
    ring: float = 0.0
    stop: float = 0.0
    focal: float = 0.0
    tilt_x: float = 0.0
    tilt_y: float = 0.0
    gate: float = 0.0
    zero: float = 0.0
    gain: float = 0.0

    @property
    def vector(self) -> Vector:
        """The faults in their order, as an array."""
        return np.array(astuple(self))

    @classmethod
    def of(cls, vector: Vector) -> "Faults":
        """The faults from an array in their order."""
        return cls(*(float(v) for v in vector))


NAMES: tuple[str, ...] = tuple(Faults.__dataclass_fields__)
AT = {name: index for index, name in enumerate(NAMES)}
"""Where each fault stands in a vector."""


class Cause(StrEnum):
    """One thing that went wrong; squareness alone takes two figures."""

    SEAT = "seat"
    START = "start"
    RING = "ring"
    STOP = "stop"
    FOCAL = "focal"
    TILT = "tilt"
    GATE = "gate"
    ZERO = "zero"
    GAIN = "gain"

    @property
    def faults(self) -> tuple[str, ...]:
        """The names of its figures."""
        return ("tilt_x", "tilt_y") if self is Cause.TILT else (self.value,)

    @property
    def places(self) -> list[int]:
        """Where its figures stand in a vector."""
        return [AT[name] for name in self.faults]


def pitch_of(camera: Camera) -> float:
    """The shift of the lens (mm) by one thread start; 0 where there is no other start."""
    thread = camera.focusing
    if not isinstance(thread, Helicoid) or thread.starts < 2:
        return 0.0
    return helicoid.thread_lead.solve_for(helicoid.pitch).value(
        lead=thread.lead, starts=float(thread.starts)
    )


def marked_focal(camera: Camera) -> float:
    """The engraved focal length (mm) of what moves: of the lens, or of its front group."""
    focusing = camera.focusing
    if isinstance(focusing, FrontCell):
        return focusing.group_focal_length
    return camera.lens.focal_length


def film_factor(camera: Camera) -> float:
    """How far the focus goes at the film when the focusing part moves 1 mm: 1, or (f/f₁)²."""
    return (camera.lens.focal_length / marked_focal(camera)) ** 2
