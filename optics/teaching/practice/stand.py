"""What stands on the practice bench: a camera, its rangefinder, and what can be read of it."""

from dataclasses import dataclass
from functools import cached_property

from optics.camera.camera import Camera
from optics.finding.causes import AtHand, Cause, Prior
from optics.finding.causes.gain import GAIN
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis.duties import Duty, duties
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.observations import observe
from optics.finding.diagnosis.priors import Priors, usual_priors
from optics.measure.uncertainty import within
from optics.readings.kinds.registry import offered
from optics.readings.practised import Offered
from optics.readings.readings import Reading
from optics.readings.spots import Spot


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
        kept: dict[Cause, Prior] = dict(usual.by_cause)
        del kept[ZERO], kept[GAIN]
        return Priors(kept, usual.most_causes, usual.starts, usual.pitch)

    @cached_property
    def offered(self) -> dict[str, Offered]:
        """Every reading by its name, in the order of the bench."""
        return offered(self.camera, self.finder is not None)

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


def _as_known(reading: Reading) -> Reading:
    """The reading as of a sound camera, with some uncertainty or other."""
    return reading.showing(within(reading.figure.value, 0.01, reading.kind))
