"""What a kind of reading is: one record that brings together all that its file says."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from optics.camera.camera import Camera
from optics.readings.candidates import Candidate
from optics.readings.directions import Direction
from optics.readings.practised import Offered
from optics.readings.reading_part import ReadingPart
from optics.readings.readings import Reading

Usual: TypeAlias = Callable[[Camera, float], Iterable[Candidate]]
Practised: TypeAlias = Callable[[Camera, bool], Iterable[Offered]]


def _none_usual(camera: Camera, near: float) -> Iterable[Candidate]:
    del camera, near
    return ()


def _none_offered(camera: Camera, has_finder: bool) -> Iterable[Offered]:
    del camera, has_finder
    return ()


# Compared and hashed as the very thing it is: two kinds are never alike.
@dataclass(frozen=True, eq=False)
class Kind:
    """One kind of reading.

    `reading` is what it is once it is understood, `part` what it is as typed; None for one that
    is typed with the rangefinder or the gate. `order` is its place among all. `usual` are the
    readings of it that a bench can usually take, with a near mark at so many mm; `practised`
    those that the practice bench offers, for a camera with a rangefinder or without.
    """

    reading: type[Reading] | type[Direction]
    order: int
    part: type[ReadingPart] | None = None
    usual: Usual = _none_usual
    practised: Practised = _none_offered

    @property
    def name(self) -> str:
        """Its name in job files and results."""
        return self.reading.kind

    def __repr__(self) -> str:
        return f"Kind({self.name})"
