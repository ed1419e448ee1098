"""A made-up kind of reading, as its file would stand in the folder, and one that lacks much."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import USUAL, Taken
from optics.measure.uncertainty import Estimate, exact
from optics.readings.candidates import Candidate
from optics.readings.kinds.record import Kind
from optics.readings.missing import Missing
from optics.readings.practised import Offered
from optics.readings.reading_part import (
    PlacedPart,
    ReadFrom,
    ReadingPart,
    Way,
    given,
    repeated,
    tries,
)
from optics.readings.readings import Judged, Meets, Reading, Step
from optics.readings.spots import Spot
from optics.relation import Range
from optics.theory import collimation, lens
from optics.typed import fields
from optics.typed.ask import Ask

LEDGE = fields.readings(fields.figure("depth of the ledge", "mm gauged"))
RIGHT = fields.figure("right depth of the ledge", "mm")
LIMIT = fields.figure("limit of the ledge", "mm gauged", Range.at_least(0))


@dataclass(frozen=True)
class LedgeReading(Reading):
    """From a ledge of the body to the film, gauged, against what the drawing says."""

    depth: Estimate
    right: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "ledge"
    figure_name: ClassVar[str] = "depth"
    by: ClassVar[str] = "by ledge"
    judged: ClassVar[Judged] = Judged.BY_GAUGE
    taken_with: ClassVar[str] = "ledge gauge"
    nowhere: ClassVar[str] = "its ledge is out of reach"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """As a register."""
        del camera
        formula = collimation.register_error.solve_for(lens.focus_error)
        return (Step.of(formula, measured_register=self.depth, nominal_register=self.right),)

    def hangs_on(self, camera: Camera) -> tuple[Missing, ...]:
        """None."""
        del camera
        return ()

    @property
    def spot(self) -> Spot:
        """The gauge."""
        return Spot.GAUGE

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The right depth and what it is off."""
        del true, meets
        return self.right.value + off

    def said(self, figure: float, camera: Camera) -> str:
        """The depth."""
        del camera
        return f"ledge {figure:.3f} mm deep"


class LedgePart(PlacedPart):
    """The ledge as typed."""

    title: ClassVar[str] = "Ledge by gauge"
    kind: Literal["ledge"] = "ledge"
    depth: Annotated[str, LEDGE, Ask("ledge", "repeats: 30; 30.01", example="30.02; 30.03; 30.01")]
    right: Annotated[str, RIGHT, Ask("as drawn", "such as 30", example="30")]
    limit: Annotated[str, LIMIT, Ask("ledge ±", "0 if empty", example="0.01")] = "0 mm"
    ways: ClassVar[Mapping[ReadFrom, Way]] = {ReadFrom.GAUGED: Way("the ledge gauged", 9)}

    def read(self, camera: Camera) -> LedgeReading:
        """The depth with its limit."""
        del camera
        depth = repeated(LEDGE, self.depth, LIMIT, self.limit)
        return LedgeReading(depth, given(RIGHT, self.right))

    @property
    def read_from(self) -> ReadFrom:
        """The gauge's row."""
        return ReadFrom.GAUGED

    @property
    def said_figures(self) -> str:
        """The tries."""
        return f"ledge {tries(LEDGE, self.depth)}"


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    del camera, near
    yield Candidate("the ledge gauged", LedgeReading(exact(30.0), exact(30.0)), 0.01, order=15)


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    del camera, has_finder
    yield Offered("ledge", LedgeReading(exact(30.0), exact(30.0)), order=15)


LEDGE_KIND = Kind(LedgeReading, 35, LedgePart, _usual, _practised)


class BareReading(Reading):
    """A kind whose file was begun and not finished."""

    kind = "bare"


class BarePart(ReadingPart):
    """As typed, without a word."""

    kind: Literal["bare"] = "bare"
    depth: Annotated[str, LEDGE, Ask("depth")]


BARE_KIND = Kind(BareReading, 99, BarePart)
