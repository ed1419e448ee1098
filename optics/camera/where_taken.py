"""Where a reading was taken: on which surface, at what place of the frame, at the stop or not."""

from dataclasses import dataclass
from enum import StrEnum


class Surface(StrEnum):
    """What the image was judged on."""

    GLASS = "on the ground glass"
    FILM = "on film"


@dataclass(frozen=True)
class Taken:
    """The circumstances of a reading that decide which faults can disturb it.

    `at_stop`: the lens stood against its infinity stop, whatever the ring said. `place`: mm
    from the middle of the frame, to the right and up, as seen from the front of the camera.
    """

    at_stop: bool = False
    surface: Surface = Surface.GLASS
    place: tuple[float, float] = (0.0, 0.0)

    @property
    def is_off_centre(self) -> bool:
        """Whether it was taken away from the middle of the frame."""
        return self.place != (0.0, 0.0)


USUAL = Taken()
ON_FILM = Taken(surface=Surface.FILM)
AT_STOP = Taken(at_stop=True)
