"""What the eye can tell in the rangefinder, and what that allows at the film."""

import math
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.rangefinder.model import Rangefinder
from optics.theory import depth, lens
from optics.theory import rangefinder as theory

ARCSECOND = math.pi / 648_000


@dataclass(frozen=True)
class Acuity:
    """The smallest misalignment (rad) that an eye sees, whose eye, and who says so."""

    angle: float
    name: str
    source: str

    def __post_init__(self) -> None:
        """Refuse at once what no formula could use."""
        theory.eye_acuity.check(float(self.angle))


WORKING = Acuity(60 * ARCSECOND, "working eye", "common practice, no source")
TRAINED = Acuity(
    12 * ARCSECOND, "trained observer", "US Army TM 9-258 (1977): the unit of error is 12″"
)
PRESETS = (WORKING, TRAINED)


def stated(angle: float, source: str = "as stated") -> Acuity:
    """An acuity (rad) that the user states, with where it comes from."""
    return Acuity(angle, "stated eye", source)


@dataclass(frozen=True)
class RangeLimits:
    """Film distances that the eye cannot tell from the true one, and the small-error figure."""

    film_distance: float
    nearest: float
    farthest: float
    error: float


def range_limits(rangefinder: Rangefinder, acuity: Acuity, film_distance: float) -> RangeLimits:
    """How near and how far a subject could be and still look in coincidence.

    Equations: relations range_near_limit, range_far_limit and range_uncertainty; all distances
    from the film plane, in mm. `farthest` is infinity where the eye could not see the whole
    convergence.
    """
    seen = {
        "range_distance": film_distance - rangefinder.base_to_film,
        "eye_acuity": acuity.angle,
        "effective_base": rangefinder.effective_base,
    }
    near = theory.range_near_limit.solve_for(theory.range_near).value(**seen)
    far = theory.range_far_limit.solve_for(theory.range_far).value(**seen)
    error = theory.range_uncertainty.solve_for(theory.range_error).value(**seen)
    back = rangefinder.base_to_film
    return RangeLimits(film_distance, near + back, far + back, error)


def looks_infinite_from(rangefinder: Rangefinder, acuity: Acuity) -> float:
    """The film distance (mm) beyond which the eye cannot tell a target from infinity."""
    from_base = theory.range_far_limit.solve_for(theory.range_distance).value(
        range_far=math.inf, eye_acuity=acuity.angle, effective_base=rangefinder.effective_base
    )
    return from_base + rangefinder.base_to_film


def film_uncertainty(camera: Camera, rangefinder: Rangefinder, acuity: Acuity) -> float:
    """The focus error (mm at the film) the eye leaves; the same at every distance."""
    return theory.film_uncertainty.solve_for(lens.focus_error).value(
        focal_length=camera.lens.focal_length,
        eye_acuity=acuity.angle,
        effective_base=rangefinder.effective_base,
    )


@dataclass(frozen=True)
class Service:
    """What a base can serve: the base a lens needs, and the lenses a base is enough for.

    `widest_aperture` is for the lens's focal length, `longest_focal_length` for its aperture.
    """

    effective_base: float
    needed_base: float
    widest_aperture: float
    longest_focal_length: float

    @property
    def is_enough(self) -> bool:
        """Whether the eye's error stays inside the depth of focus N·c at full aperture."""
        return self.effective_base >= self.needed_base


def service(camera: Camera, rangefinder: Rangefinder, acuity: Acuity) -> Service:
    """Which aperture and focal length the base can serve, held to the depth of focus N·c."""
    eye = {"eye_acuity": acuity.angle, "circle_of_confusion": camera.circle_of_confusion}
    base = {"effective_base": rangefinder.effective_base}
    length = {"focal_length": camera.lens.focal_length}
    aperture = {"f_number": camera.lens.full_aperture}
    relation = theory.needed_base
    return Service(
        effective_base=rangefinder.effective_base,
        needed_base=relation.solve_for(theory.effective_base).value(**eye, **length, **aperture),
        widest_aperture=relation.solve_for(depth.f_number).value(**eye, **length, **base),
        longest_focal_length=relation.solve_for(lens.focal_length).value(**eye, **aperture, **base),
    )


@dataclass(frozen=True)
class Goal:
    """The largest film error (mm) that a set-up is to leave, and what sets it."""

    error: float
    reason: str


def goal(camera: Camera, rangefinder: Rangefinder, acuity: Acuity) -> Goal:
    """The camera's tolerance, or what the eye can tell where that is more.

    No set-up by eye can be asked to be better than the eye.
    """
    eye = film_uncertainty(camera, rangefinder, acuity)
    if eye > camera.allowed_error:
        return Goal(eye, f"what the eye can tell ({acuity.name})")
    reason = "half the depth of focus" if camera.tolerance is None else "the stated tolerance"
    return Goal(camera.allowed_error, reason)
