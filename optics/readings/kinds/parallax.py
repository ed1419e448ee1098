"""On the ground glass, how the image moves against the pencil cross when the eye moves."""

from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.readings.directions import Direction
from optics.readings.kinds.record import Kind
from optics.readings.reading_part import ReadingPart
from optics.readings.readings import Sense
from optics.typed.ask import Ask


@dataclass(frozen=True)
class ParallaxReading(Direction):
    """On the ground glass, how the image moves against the pencil cross when the eye moves.

    The eye looks from behind. An image that moves with the eye lies beyond the cross, that
    is nearer the lens, so the lens is too far out for the target.
    """

    image_moves_with_eye: bool | None
    kind: ClassVar[str] = "parallax"

    @property
    def sense(self) -> Sense:
        """The direction, which is all that parallax tells."""
        if self.image_moves_with_eye is None:
            return Sense.RIGHT
        return Sense.TOO_FAR_OUT if self.image_moves_with_eye else Sense.TOO_FAR_IN

    @property
    def found(self) -> str:
        """What a parallax test shows, without what to do about it."""
        if self.sense is Sense.RIGHT:
            return "No parallax: for this target the image lies on the glass."
        return f"The lens is {self.sense.words} for this target. Parallax tells the direction only."


class ParallaxPart(ReadingPart):
    """Which way the image moves against the cross on the ground glass when the eye moves."""

    title: ClassVar[str] = "Parallax on the ground glass"
    is_measured: ClassVar[bool] = False
    kind: Literal["parallax"] = "parallax"
    image_moves: Annotated[
        Literal["with the eye", "against the eye", "not at all"],
        Ask("against the pencil cross, the image moves", width=12),
    ]

    def read(self, camera: Camera) -> ParallaxReading:
        """The direction."""
        del camera
        moves: dict[str, bool | None] = {"with the eye": True, "against the eye": False}
        return ParallaxReading(moves.get(self.image_moves))

    @property
    def said_figures(self) -> str:
        """Which way the image moved."""
        still = "the image stands still"
        return still if self.image_moves == "not at all" else f"the image moves {self.image_moves}"


KIND = Kind(ParallaxReading, 60, ParallaxPart)
