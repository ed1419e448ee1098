"""What the eye sees: the image on the ground glass under a loupe, and the finder's two images."""

import math
from dataclasses import dataclass

from optics.camera.blur import blur_budget
from optics.camera.camera import Camera
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.forward import as_it_stands
from optics.measure.uncertainty import exact
from optics.readings.practised import Offered
from optics.readings.readings import Reading
from optics.teaching.practice.levels import Level, State
from optics.teaching.practice.stand import Finder, Stand
from optics.teaching.practice.unseen import looking
from optics.theory import rangefinder

LOUPE = 8.0
"""How much the loupe magnifies."""
NEAR_POINT = 250.0
"""Where an eye looks closely (mm): a loupe's magnification is counted from there."""
EYE = math.radians(1 / 60)
"""The smallest angle (rad) that the eye resolves (the working figure of textbooks)."""
GRAIN = {False: 0.0, True: 0.012}
"""What a worn, coarse ground glass adds to the blur (mm); common practice, no source."""
BARS = (5, 8, 12, 18, 27, 40, 60)
"""The target's bars: line pairs to the mm, as they stand on the ground glass."""


@dataclass(frozen=True)
class Glass:
    """The image on the ground glass: its whole blur disc (mm), and the finest bars told apart.

    `finest` is in line pairs to the mm, 0 where not even the coarsest are told apart.
    """

    blur: float
    finest: int


@dataclass(frozen=True)
class Patch:
    """The finder's moving image against the fixed one, as angles at the eye (rad).

    Plus is to the right, and up. To the right: the lens stands too far out for the target.
    """

    across: float
    up: float


def reading_at(camera: Camera, offered: Offered, amount: float) -> Reading:
    """The offered reading with ring, reticle, target or pointer moved to an amount.

    Errors: NoAnswer where the scale has no figure for it, OutOfRange where the camera as
    engraved cannot be set so.
    """
    reading = offered.reading
    set_so = reading.showing(exact(reading.set_at(camera, offered.moved, amount)))
    # What the engraved camera cannot do is refused here, by the figure typed and no other.
    set_so.steps(camera)
    return set_so


def rest_of(camera: Camera, offered: Offered) -> float:
    """Where ring, reticle, target or pointer stand when a look begins."""
    return offered.reading.rests_at(camera, offered.moved)


def focus_error(camera: Camera, faults: Faults, reading: Reading) -> float:
    """How far (mm at the film) the image lies from the glass, the reading's figure being set.

    Plus: the lens stands too far out for what is looked at. It is 0 where `predict` says that
    the reading would be taken.
    Equation: off + set + moved − x(D; f true), the reticle's part by its conjugates; for a
    coincidence how far the lens stands beyond where the images would meet.
    """
    return reading.out_of_focus(*as_it_stands(camera, faults, reading))


def glass_at(state: State, level: Level, offered: Offered, amount: float) -> Glass:
    """What the loupe shows at full aperture with ring, reticle or target at an amount.

    The blur is defocus, diffraction and what an eye resolves through the loupe, added as
    squares (`blur_budget`); bars finer than one line pair to a blur disc run together.
    """
    camera = state.practice.camera
    reading = reading_at(camera, offered, amount)
    receiver = math.hypot(EYE * NEAR_POINT / LOUPE, GRAIN[level.is_worn])
    with looking(offered):
        error = focus_error(camera, state.practice.hidden, reading)
        found = blur_budget(
            camera,
            error,
            [camera.lens.full_aperture],
            film_distance=reading.sharp_target,
            receiver=receiver,
        )
    blur = float(found.total[0])
    return Glass(blur, max((bars for bars in BARS if bars * blur <= 1), default=0))


def patch_at(stand: Stand, state: State, offered: Offered, amount: float) -> Patch:
    """Where the finder's moving image stands with ring or pointer at an amount from ∞.

    Equation: ε = e·b·M/f², the film error that an angle at the eye stands for, turned round.
    Limits: small angles, as in the relation.
    """
    assert stand.finder is not None
    camera, hidden = state.practice.camera, state.practice.hidden
    reading = reading_at(camera, offered, amount)
    with looking(offered):
        error = focus_error(camera, hidden, reading)
        return Patch(_at_the_eye(stand.finder, camera, error), state.height)


def _at_the_eye(finder: Finder, camera: Camera, error: float) -> float:
    angle = rangefinder.film_uncertainty.solve_for(rangefinder.eye_acuity).value(
        focus_error=abs(error),
        focal_length=camera.lens.focal_length,
        effective_base=finder.effective_base,
    )
    return math.copysign(angle, error)
