"""The main job: lens and reading in, focus error and remedies out."""

import math
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.camera.cautions import SUN, Caution
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict, judge_read
from optics.moves import AtHand, Workshop
from optics.readings.by_eye import eyes_blur
from optics.readings.readings import Judged, Reading, Sense, Step
from optics.readings.remedies import Offer, Remedy, offers
from optics.theory import depth, lens

DEFAULT_MARKS = (3000.0, 1500.0)
# So near to infinity focus (mm) it is the arithmetic that differs, not the lens.
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Sight:
    """What would be seen with the ring at a mark: where it is sharp, and the blur there.

    `sharp_at` is None where nothing in front of the camera can be sharp; `nearest` and
    `farthest` bound it at 95 % (`farthest` None: it may be beyond infinity). `blur` is the
    disc, in mm on the film, of a point at the marked distance at full aperture.
    """

    mark: float
    sharp_at: float | None
    nearest: float | None
    farthest: float | None
    blur: float
    looks_sharp: bool


@dataclass(frozen=True)
class Correction:
    """Everything that follows from one measured reading.

    `error` is what the last of the `steps` gives, with the eye's `blur` for a reading tried once.
    """

    camera: Camera
    reading: Reading
    steps: tuple[Step, ...]
    error: Estimate
    blur: Estimate
    sense: Sense
    verdict: Verdict
    sights: tuple[Sight, ...]
    offers: tuple[Offer, ...]
    cautions: tuple[Caution, ...]
    at_mark: Sight | None = None
    """What is seen with the ring at the very mark that was read; None where none was, by gauge."""

    @property
    def is_read_outside(self) -> bool:
        """Whether the figure itself lies beyond the tolerance, however well it is known."""
        return abs(self.error.value) > self.camera.allowed_error

    @property
    def is_right(self) -> bool:
        """Whether the lens is proved to be inside its tolerance."""
        return self.verdict is Verdict.INSIDE

    @property
    def is_bare(self) -> bool:
        """Whether nothing says how well the figure is known."""
        return self.verdict is Verdict.NOT_STATED

    @property
    def calls_for_work(self) -> bool:
        """Whether the correction stands: proved outside, or read so with nothing said of its ±."""
        return self.verdict is Verdict.OUTSIDE or (self.is_bare and self.is_read_outside)

    @property
    def remedies(self) -> tuple[Remedy, ...]:
        """The offers that apply."""
        return tuple(o for o in self.offers if isinstance(o, Remedy))


def correct(
    camera: Camera,
    reading: Reading,
    workshop: Workshop | None = None,
    marks: tuple[float, ...] | None = None,
) -> Correction:
    """Turn one reading into the focus error, what it looks like, and every remedy.

    The ring is described at infinity and at `marks`; None stands for the usual ones, as far
    as the lens reaches them.
    Errors: OutOfRange or NoAnswer, one sentence each, for figures that cannot be.
    Limits: the reading is taken at its word; faults are told apart elsewhere.
    """
    steps = reading.steps(camera)
    blur = eyes_blur(reading, camera)
    error = steps[-1].result.plus(blur)
    if marks is None:
        marks = tuple(mark for mark in DEFAULT_MARKS if _reaches(camera, mark))
    sights = tuple(sight(camera, mark, error) for mark in (math.inf, *marks))
    found = offers(camera, error, AtHand(workshop or Workshop()))
    return Correction(
        camera=camera,
        reading=reading,
        steps=steps,
        error=error,
        blur=blur,
        sense=Sense.of(error.value),
        verdict=judge_read(error, camera.allowed_error),
        sights=sights,
        offers=found,
        cautions=_cautions(reading, found),
        at_mark=_seen_at_mark(camera, reading, error),
    )


def _seen_at_mark(camera: Camera, reading: Reading, error: Estimate) -> Sight | None:
    mark = reading.looked_from
    return None if mark is None else sight(camera, mark, error)


def _reaches(camera: Camera, mark: float) -> bool:
    try:
        camera.magnification_at(mark)
    except OutOfRange:
        return False
    return True


def _cautions(reading: Reading, found: tuple[Offer, ...]) -> tuple[Caution, ...]:
    cautions = [] if reading.judged is Judged.BY_GAUGE else [SUN]
    for offer in found:
        cautions += [c for c in getattr(offer, "cautions", ()) if c not in cautions]
    return tuple(cautions)


def sight(camera: Camera, mark: float, error: Estimate) -> Sight:
    """What is sharp, and how blurred the marked distance is, with the ring at a mark."""
    disc, cone = camera.depth_of_focus_formula(
        depth.circle_of_confusion, camera.magnification_at(mark)
    )
    blur = disc.value(depth_each_way=abs(error.value), f_number=camera.lens.full_aperture, **cone)
    return Sight(
        mark=mark,
        sharp_at=sharp_distance(camera, mark, error.value),
        nearest=sharp_distance(camera, mark, error.value + error.expanded),
        farthest=sharp_distance(camera, mark, error.value - error.expanded),
        blur=blur,
        looks_sharp=blur <= camera.circle_of_confusion,
    )


def sharp_distance(camera: Camera, mark: float, error: float) -> float | None:
    """The film-to-subject distance that is sharp; None where the lens stands inside infinity."""
    stands = camera.film_side_extension(mark) + error
    if abs(stands) < _ROUNDING:
        return math.inf
    if stands < 0:
        return None
    formula, constants = camera.mark_error_formula(lens.sharp_distance)
    return formula.value(focus_error=error, mark_distance=mark, **constants)
