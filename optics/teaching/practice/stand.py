"""What stands on the practice bench: a camera, its rangefinder, and what can be read of it."""

from dataclasses import dataclass, replace
from functools import cached_property

from optics.camera.camera import Camera
from optics.finding.diagnosis.duties import Duty, duties
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.observations import observe
from optics.finding.diagnosis.priors import Priors, usual_priors
from optics.measure.uncertainty import within
from optics.moves.at_hand import AtHand
from optics.readings.kinds.registry import offered
from optics.readings.practised import Offered
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
        causes = usual.by_cause.items()
        return replace(usual, by_cause={c: p for c, p in causes if c.spots != {Spot.COINCIDENCE}})

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
        # As of a sound camera, with some uncertainty or other: only where they look counts.
        known = [
            one.reading.showing(within(one.reading.figure.value, 0.01, one.reading.kind))
            for one in self.offered.values()
        ]
        found = duties(observe(self.camera, known), self.camera, Faults().vector)
        return tuple(duty for duty in found if duty.spot is not Spot.GAUGE)


def errors(stand: Stand, faults: Faults) -> tuple[float, ...]:
    """The focus error (mm at the film) at each of the stand's duties.

    Limits: straight in the faults; a focal length 1 mm off bends it by less than 0.002 mm.
    """
    return tuple(float(duty.row @ faults.vector) for duty in stand.duties)
