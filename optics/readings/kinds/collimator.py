"""With the ring at infinity, a collimator's reticle was shifted until sharp at the film."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import AT_STOP, USUAL, Taken
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, Source, exact
from optics.moves.setting import on_bed
from optics.readings.candidates import Candidate, by_eye
from optics.readings.kinds.record import Kind
from optics.readings.kinds.rotation import RotationReading
from optics.readings.practised import Offered
from optics.readings.reading_part import ReadFrom, SeenPart, Way, given, repeated, tries
from optics.readings.readings import Meets, Moved, Reading, Scale, Step
from optics.theory import collimation, lens
from optics.typed import fields
from optics.typed.ask import Ask
from optics.units import format_length

SLIDE = 40.0
"""The reticle's slide reaches no farther than this either way (mm)."""


@dataclass(frozen=True)
class CollimatorReading(Reading):
    """With the ring at infinity, the collimator's reticle was shifted until sharp at the film.

    `shift` is plus when the reticle moved inside the focus, towards the collimator's lens;
    `to_lens` is the distance from that lens to the camera's, None where nobody told it.
    """

    shift: Estimate
    collimator_focal_length: Estimate
    taken: Taken = USUAL
    to_lens: Estimate | None = None
    _untold: Source = field(
        default_factory=lambda: Source(
            "collimator lens to camera lens, not told", is_rectangular=True
        ),
        compare=False,
        repr=False,
    )
    kind: ClassVar[str] = "collimator"
    figure_name: ClassVar[str] = "shift"
    by: ClassVar[str] = "by collimator"
    scale: ClassVar[Scale] = Scale.SLIDE
    shrinks: ClassVar[bool] = True
    taken_with: ClassVar[str] = "collimator, ground glass"
    looked_at: ClassVar[str] = (
        "Looked at: the collimator's reticle, as far as infinity while it is at 0; "
        "the facing focal points of its lens and the camera's meet."
    )
    nowhere: ClassVar[str] = f"its reticle is sharp nowhere on its slide, {SLIDE:g} mm either way"

    def farthest(self, camera: Camera) -> float:
        """As far apart (mm) as the lenses are supposed to stand where nobody tells: f + f_c.

        There the facing focal points meet, as in the textbooks. From touching to there is what
        a bench allows (common practice, no source).
        """
        return self.collimator_focal_length.value + camera.lens.focal_length

    def apart(self, camera: Camera) -> Estimate:
        """The distance between the lenses: as told, else anywhere from touching to f + f_c."""
        if self.to_lens is not None:
            return self.to_lens
        half = self.farthest(camera) / 2
        return Estimate(half, {self._untold: half / math.sqrt(3)})

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The reticle's image, seen from the camera's lens, is what the lens was sharp on."""
        if self.to_lens is None:
            self.span(camera)  # A shift that no image goes with at one end is refused.
        return (self._step(camera, self.apart(camera)),)

    def span(self, camera: Camera) -> tuple[float, float]:
        """The focus error with the lenses touching, and with their focal points together.

        Errors: OutOfRange for a shift that has no image with the lenses touching.
        """
        ends = (exact(0.0), exact(self.farthest(camera)))
        near, far = (self._step(camera, end).result.value for end in ends)
        return near, far

    def _step(self, camera: Camera, apart: Estimate) -> Step:
        return Step.of(
            collimation.collimator_conjugates.solve_for(lens.focus_error),
            reticle_shift=self.shift,
            focal_length=exact(camera.lens.focal_length),
            collimator_focal_length=self.collimator_focal_length,
            collimator_to_lens=apart,
        )

    def left_open(self, camera: Camera) -> str:
        """What it matters that nobody told how far the collimator stood from the lens."""
        if self.to_lens is not None:
            return ""
        ends = sorted(abs(end) for end in self.span(camera))
        low, high = (format_length(end, places=3) for end in ends)
        makes = f"the error would be {low} to {high}" if low != high else "it makes no difference"
        in_it = ", which is in the ±" if low != high else ""
        return (
            "Collimator lens to camera lens not told: from touching to "
            f"{format_length(self.farthest(camera))} apart (both focal lengths "
            f"together) {makes}{in_it}."
        )

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The shift (mm) that makes the reticle sharp."""
        del meets
        try:
            return collimation.collimator_conjugates.solve_for(collimation.reticle_shift).value(
                focus_error=off, **self._bench(true)
            )
        except OutOfRange:
            # What the relation says of it would name the errors that the reading is to find.
            raise NoAnswer(
                "No place of the reticle is sharp: got a lens too far off for this collimator; "
                "read by turning the ring, or gauge.",
                quantity="shift",
            ) from None

    def out_of_focus(self, off: float, true: TrueLens, meets: Meets) -> float:
        """Less the reticle's part, by its conjugates."""
        del meets
        part = collimation.collimator_conjugates.solve_for(lens.focus_error)
        return off - part.value(reticle_shift=self.shift.value, **self._bench(true))

    def _bench(self, true: TrueLens) -> dict[str, float]:
        return {
            "focal_length": true.stretch * true.camera.lens.focal_length,
            "collimator_focal_length": self.collimator_focal_length.value,
            "collimator_to_lens": self.apart(true.camera).value,
        }

    def said(self, figure: float, camera: Camera) -> str:
        """The shift and which way."""
        del camera
        way = "towards its lens" if figure > 0 else "away from its lens"
        return f"reticle {format_length(abs(figure))} {way}"

    def said_as_read(self, camera: Camera) -> str:
        """The shift as the slide shows it."""
        del camera
        way = "inwards" if self.shift.value >= 0 else "outwards"
        return f"reticle {abs(self.shift.value):.2f} mm {way}"

    def within_reach(self, figure: float) -> bool:
        """Whether the slide reaches so far."""
        return abs(figure) <= SLIDE

    def beyond_reach(self, amount: float) -> NoAnswer:
        """The refusal of a shift that the slide does not reach."""
        got = f"{amount:g}".replace("-", "−")
        return NoAnswer(
            f"The reticle's slide reaches {SLIDE:g} mm either way: got {got} mm; set it within "
            "that, and where no image is sharp there, take another reading.",
            quantity="shift",
            value=amount,
            limit=SLIDE,
        )

    def instead(self, camera: Camera) -> Reading | None:
        """Beyond the reach of the slide the ring is turned until it is sharp."""
        far = exact(math.inf)
        return None if on_bed(camera) else RotationReading(exact(0.0), far, far, self.taken)


class CollimatorPart(SeenPart):
    """With the ring at infinity, the collimator's reticle was shifted until sharp.

    `to_lens` is how far the collimator's lens stood from the camera's; where it is left out,
    what it may have been counts as uncertainty.
    """

    title: ClassVar[str] = "Collimator reticle shift"
    kind: Literal["collimator"] = "collimator"
    shift: Annotated[
        str,
        fields.RETICLE_SHIFT,
        Ask("reticle moved", "repeats: 1.2; 1.25", example="1.2; 1.25; 1.2"),
    ]
    towards: Annotated[
        Literal["its lens", "away from its lens"],
        Ask("towards", note="its lens: the collimator's", width=5),
    ] = "its lens"
    limit: Annotated[
        str, fields.RETICLE_LIMIT, Ask("read to ±", "0 if empty", example="0.02", width=3)
    ] = "0 mm"
    collimator_focal_length: Annotated[
        str, fields.COLLIMATOR, Ask(hint="such as 300", example="300", width=6)
    ]
    to_lens: (
        Annotated[
            str, fields.COLLIMATOR_TO_LENS, Ask(hint="in the ± if empty", example="60", width=6)
        ]
        | None
    ) = None
    ways: ClassVar[Mapping[ReadFrom, Way]] = {
        ReadFrom.STOP: Way("collimator's reticle shifted", 3),
        ReadFrom.INFINITY: Way("collimator's reticle shifted", 3),
    }

    def read(self, camera: Camera) -> CollimatorReading:
        """The shift, plus towards the collimator's lens."""
        del camera
        shift = repeated(fields.RETICLE_SHIFT, self.shift, fields.RETICLE_LIMIT, self.limit)
        to_lens = self.to_lens
        return CollimatorReading(
            shift=shift if self.towards == "its lens" else exact(0.0).plus(shift, -1),
            collimator_focal_length=given(fields.COLLIMATOR, self.collimator_focal_length),
            to_lens=None if to_lens is None else given(fields.COLLIMATOR_TO_LENS, to_lens),
        )

    @property
    def said_figures(self) -> str:
        """The shifts, which way, and how far apart the lenses stood."""
        moved = tries(fields.RETICLE_SHIFT, self.shift)
        way = f"towards {self.towards}" if self.towards == "its lens" else self.towards
        apart = ""
        if self.to_lens is not None:
            apart = f", {fields.COLLIMATOR_TO_LENS.read(self.to_lens).echo} from lens to lens"
        return f"collimator's reticle moved {moved} {way}{apart}"


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    del near
    focal, eye = camera.lens.focal_length, by_eye(camera)
    zero, collimator = exact(0.0), exact(10 * focal)
    at_stop = CollimatorReading(zero, collimator, AT_STOP)
    yield Candidate("a reading at the infinity stop", at_stop, eye, order=20)
    yield Candidate("a reading at the ∞ mark", CollimatorReading(zero, collimator), eye, order=30)
    if not on_bed(camera):
        place = Taken(place=(focal / 3, focal / 4))
        corner = CollimatorReading(zero, collimator, place)
        yield Candidate("a reading in a corner of the frame", corner, eye, order=70)


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    """Focal points together, where the reticle's shift counts by the focal lengths alone."""
    del has_finder
    focal = camera.lens.focal_length
    zero, collimator, apart = exact(0.0), exact(6 * focal), exact(7 * focal)
    at_stop = CollimatorReading(zero, collimator, AT_STOP, apart)
    yield Offered("infinity stop", at_stop, Moved.RETICLE, 20)
    if on_bed(camera):
        at_mark = CollimatorReading(zero, collimator, to_lens=apart)
        yield Offered("∞ mark", at_mark, Moved.RETICLE, 30)


KIND = Kind(CollimatorReading, 40, CollimatorPart, _usual, _practised)
