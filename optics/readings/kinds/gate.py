"""Where the film lies against the ground glass, gauged at the gate without the lens."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import ON_FILM, Taken
from optics.measure.uncertainty import Estimate, exact
from optics.readings.candidates import GAUGED, Candidate
from optics.readings.kinds.record import Kind
from optics.readings.missing import Missing
from optics.readings.readings import Judged, Meets, Reading, Step
from optics.readings.spots import Spot
from optics.theory import gate, lens
from optics.units import format_length


@dataclass(frozen=True)
class GateReading(Reading):
    """Where the film lies against the ground glass, gauged at the gate without the lens.

    `behind` is how far (mm) the emulsion lies behind the ground side, farther from the lens.
    """

    behind: Estimate
    taken: Taken = ON_FILM
    kind: ClassVar[str] = "gate"
    figure_name: ClassVar[str] = "behind"
    by: ClassVar[str] = "at the gate"
    judged: ClassVar[Judged] = Judged.BY_GAUGE
    taken_with: ClassVar[str] = "depth gauge"
    nowhere: ClassVar[str] = "its film is nowhere that the gauge's rod reaches"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """A lens that is right on the ground glass is too far out by as much."""
        del camera  # The gate is the body's alone.
        formula = gate.emulsion_error.solve_for(lens.focus_error)
        glass = exact(0.0).plus(self.behind, -1.0)
        return (Step.of(formula, rest=exact(0.0), play=exact(0.0), reference_depth=glass),)

    def hangs_on(self, camera: Camera) -> tuple[Missing, ...]:
        """None: the gate is the body's alone."""
        del camera
        return ()

    @property
    def spot(self) -> Spot:
        """The gate."""
        return Spot.GATE

    @property
    def looked_from(self) -> None:
        """No eye looked."""
        return

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """How far (mm) the film lies behind the glass: as far as the lens seems off."""
        del true, meets
        return off

    def said(self, figure: float, camera: Camera) -> str:
        """How far the film lies off, and on which side."""
        del camera
        side = "behind" if figure > 0 else "in front of"
        return f"film {format_length(abs(figure), places=3)} {side} the glass"


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    del camera, near
    words = "the film gate gauged"
    again = "the film gate gauged again"
    yield Candidate(words, GateReading(exact(0.0)), GAUGED, again, 60)


KIND = Kind(GateReading, 80, usual=_usual)
