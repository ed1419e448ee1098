"""What stands on the practice bench: a camera, its rangefinder, and what can be read of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

import numpy as np

from optics.camera.camera import Bed, Camera
from optics.camera.taken import AT_STOP, ON_FILM, Taken
from optics.camera.true_lens import TrueLens
from optics.errors import NoAnswer
from optics.finding.diagnosis.duties import Duty, duties
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.observations import observe
from optics.finding.diagnosis.priors import Priors, usual_priors
from optics.measure.uncertainty import exact, within
from optics.moves import CORNERS, AtHand
from optics.moves.turning import film_per_degree
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    MarkReading,
    RegisterReading,
    RotationReading,
    RulerReading,
)
from optics.readings.spots import Reading, Spot
from optics.teaching.practice.instruments import MEASURED, showing
from optics.units import format_distance

# Marks that rings usually bear (m), of which two near ones and a far target are chosen.
_ENGRAVED = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0)
_FAR, _MIDDLE, _NEAR = 200.0, 60.0, 25.0


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
class Finder:
    """A coupled rangefinder: base in mm, and how much its telescope magnifies."""

    base: float
    magnification: float

    @property
    def effective_base(self) -> float:
        """The base as the eye sees it (mm)."""
        return self.base * self.magnification


@dataclass(frozen=True)
class Offered:
    """A reading the bench offers; `moved` is None where an instrument alone shows a figure."""

    name: str
    reading: Reading
    moved: Moved | None = None


@dataclass(frozen=True)
class Stand:
    """The camera as engraved, what lies on the bench, and its rangefinder, if it has one."""

    camera: Camera
    at_hand: AtHand
    finder: Finder | None = None

    @cached_property
    def priors(self) -> Priors:
        """The usual suppositions; a camera without a rangefinder has none of its faults."""
        usual = usual_priors(self.camera)
        if self.finder is not None:
            return usual
        causes = usual.by_cause.items()
        return replace(usual, by_cause={c: p for c, p in causes if c.spots != {Spot.COINCIDENCE}})

    @cached_property
    def offered(self) -> dict[str, Offered]:
        """Every reading by its name, in the order of the bench."""
        return {offer.name: offer for offer in _offered(self)}

    @cached_property
    def duties(self) -> tuple[Duty, ...]:
        """Where the camera is judged: stop, marks, corners on film, rangefinder.

        The register is not among them: it shows at all of them, and a lens set right on a
        wrong register takes good pictures until it is changed for another.
        """
        known = [_as_known(offer.reading) for offer in self.offered.values()]
        found = duties(observe(self.camera, known), self.camera, Faults().vector)
        return tuple(duty for duty in found if duty.spot is not Spot.GAUGE)


def errors(stand: Stand, faults: Faults) -> tuple[float, ...]:
    """The focus error (mm at the film) at each of the stand's duties.

    Limits: straight in the faults; a focal length 1 mm off bends it by less than 0.002 mm.
    """
    return tuple(float(duty.row @ faults.vector) for duty in stand.duties)


def engraved(camera: Camera, times: float) -> float:
    """The mark (mm) usually engraved nearest to so many focal lengths."""
    wanted = times * camera.lens.focal_length
    marks = np.array(_ENGRAVED) * 1000
    return float(marks[np.argmin(np.abs(np.log(marks / wanted)))])


def scale_at(camera: Camera, moved: Moved, amount: float) -> float:
    """The distance (mm) that the scale reads with ring or pointer so far from its ∞ mark.

    Errors: NoAnswer inside the ∞ mark, where the scale has no figures.
    """
    if amount < 0:
        raise no_figure_inside(moved, amount)
    per = film_per_degree(camera) if moved is Moved.RING else 1.0
    return TrueLens(camera, 0.0).sharp_at(per * amount)


def no_figure_inside(moved: Moved, amount: float) -> NoAnswer:
    """The refusal of a place at or inside the ∞ mark, where a scale says no distance."""
    unit = "°" if moved is Moved.RING else " mm"
    got = f"{-amount:g}{unit} inside it" if amount < 0 else "the ∞ mark"
    return NoAnswer(
        f"The scale has figures only short of its ∞ mark: got {got}; set the {moved} farther out, "
        "and where the images do not meet there, take another reading.",
        quantity="set_to",
        value=amount,
        limit=0.0,
    )


def scale_place(camera: Camera, moved: Moved, distance: float) -> float:
    """How far from the ∞ mark the scale reads a distance (mm), in degrees or mm."""
    per = film_per_degree(camera) if moved is Moved.RING else 1.0
    return TrueLens(camera, 0.0).needs(distance) / per


def _offered(stand: Stand) -> Iterator[Offered]:
    camera = stand.camera
    is_bed = isinstance(camera.focusing, Bed)
    focal = camera.lens.focal_length
    register, collimator, far = exact(focal), exact(6 * focal), exact(math.inf)
    yield Offered("register", RegisterReading(register, register))
    for name, (side, up) in CORNERS.items():
        spot = Taken(place=(0.35 * focal * side, 0.25 * focal * up))
        yield Offered(f"register, {name}", RegisterReading(register, register, spot))
    # Focal points together, where the reticle's shift counts by the focal lengths alone.
    at_mark = CollimatorReading(exact(0.0), collimator, to_lens=exact(7 * focal))
    at_stop = replace(at_mark, taken=AT_STOP)
    yield Offered("infinity stop", at_stop, Moved.RETICLE)
    if is_bed:
        yield Offered("∞ mark", at_mark, Moved.RETICLE)
    else:
        yield Offered("∞ mark", RotationReading(exact(0.0), far, far), Moved.RING)
    for distance in (engraved(camera, _MIDDLE), engraved(camera, _NEAR)):
        name, mark = f"{format_distance(distance)} mark", exact(distance)
        if is_bed:
            yield Offered(name, MarkReading(mark, mark), Moved.TARGET)
        else:
            yield Offered(name, RotationReading(exact(0.0), mark, mark), Moved.RING)
    near = exact(engraved(camera, _NEAR))
    ruler = RulerReading(near, exact(0.0), exact(math.radians(45)), near, ON_FILM)
    yield Offered(f"film test at {format_distance(near.value)}", ruler)
    if stand.finder is not None:
        for distance in (engraved(camera, _FAR), engraved(camera, _NEAR)):
            pair = CoincidenceReading(exact(distance), exact(distance))
            moved = Moved.POINTER if is_bed else Moved.RING
            yield Offered(f"rangefinder at {format_distance(distance)}", pair, moved)


def _as_known(reading: Reading) -> Reading:
    """The reading as of a sound camera, with some uncertainty or other."""
    figure = getattr(reading, MEASURED[reading.kind])
    return showing(reading, within(figure.value, 0.01, reading.kind))
