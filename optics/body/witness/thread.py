"""The barrel whose history is sought: its thread, its candidate marks and what was measured."""

import math
from dataclasses import dataclass
from enum import StrEnum

from optics.camera.camera import Camera, FrontCell, Helicoid, Turn
from optics.errors import NoAnswer, OutOfRange
from optics.theory import front_cell, helicoid
from optics.theory import lens as lens_theory

MOST_STARTS = 36


class MarksOn(StrEnum):
    """Which part carries the competing marks."""

    BARREL = "the fixed barrel"
    RING = "the turning ring"


@dataclass(frozen=True)
class Mark:
    """A candidate index mark, its angle in rad clockwise from the top, seen from the front."""

    name: str
    angle: float


@dataclass(frozen=True)
class Thread:
    """A focusing thread: lead in mm, starts, the sense that extends, and its effect at the film.

    `to_film` is how far the image moves for 1 mm of travel: 1 where the whole lens moves.
    """

    lead: float
    starts: int
    extends: Turn
    to_film: float = 1.0
    ring_diameter: float | None = None

    def __post_init__(self) -> None:
        """Refuse what no thread has."""
        helicoid.lead.check(float(self.lead))
        if not 1 <= self.starts <= MOST_STARTS:
            raise OutOfRange(
                f"The number of thread starts must be 1 to {MOST_STARTS}: got {self.starts}; "
                "count the beginnings of thread round the end of the barrel.",
                quantity="starts",
                value=self.starts,
                limit=MOST_STARTS,
            )

    @classmethod
    def of(cls, camera: Camera, starts: int | None = None) -> "Thread":
        """The camera's thread; `starts` where the camera does not say (a front cell: 1).

        Errors: NoAnswer for a lens on a bed or struts.
        """
        focusing, lens = camera.focusing, camera.lens
        if isinstance(focusing, Helicoid):
            count = starts or focusing.starts
            return cls(focusing.lead, count, focusing.extends, 1.0, focusing.ring_diameter)
        if isinstance(focusing, FrontCell):
            camera.refuse_supposed("the shifts at the film by a start of a front cell's thread")
            effect = front_cell.film_effect.solve_for(lens_theory.focus_error).value(
                cell_shift=1.0,
                focal_length=lens.focal_length,
                group_focal_length=focusing.group_focal_length,
            )
            return cls(focusing.lead, starts or 1, focusing.extends, effect, focusing.ring_diameter)
        raise NoAnswer(
            "A lens on a bed or struts has no thread: got a camera without one; starts and marks "
            "are for a helicoid or a front cell.",
            quantity="starts",
        )

    def starts_to_try(self) -> range:
        """How many starts on the lens might belong: both ways, half a turn both times."""
        half = self.starts // 2
        return range(-half, half + 1)

    def ring_turn(self, marks_on: MarksOn, old: Mark, new: Mark) -> float:
        """The ring's rotation (rad, plus extends) when it is set to `new` instead of `old`.

        The shorter way round. A mark on the ring itself is brought to the index, the other
        way about.
        """
        clockwise = math.remainder(new.angle - old.angle, math.tau)
        if marks_on is MarksOn.RING:
            clockwise = -clockwise
        return clockwise if self.extends is Turn.CLOCKWISE else -clockwise

    def entry_turn(self, starts_moved: int) -> float:
        """The rotation (rad, plus extends) to the place of entry that moves so many starts out.

        Entered later, further on in the extending sense, the lens ends farther in.
        """
        return helicoid.start_angle.solve_for(helicoid.rotation).value(
            starts_moved=float(-starts_moved), starts=float(self.starts)
        )

    def entry_angle(self, starts_moved: int, parted_at: float) -> float:
        """Where (rad clockwise from the top, 0 to a whole turn) that place of entry lies.

        `parted_at` is where the thread lets go now.
        """
        turn = self.entry_turn(starts_moved)
        clockwise = turn if self.extends is Turn.CLOCKWISE else -turn
        return (parted_at + clockwise) % math.tau
