"""The camera on the bench: its lens, how it focuses, and what sharp is taken to mean.

Lengths in mm; infinity is `math.inf`. All figures are what the repairer states; nothing is
looked up.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from numbers import Real
from typing import TypeAlias

from optics.errors import OutOfRange, Unreadable
from optics.relation import Formula, Quantity
from optics.theory import depth, front_cell, helicoid, lens


class Turn(StrEnum):
    """A sense of rotation, always as seen from the front of the camera."""

    CLOCKWISE = "clockwise"
    COUNTER_CLOCKWISE = "counter-clockwise"

    @property
    def opposite(self) -> "Turn":
        """The other way round."""
        return Turn.COUNTER_CLOCKWISE if self is Turn.CLOCKWISE else Turn.CLOCKWISE


@dataclass(frozen=True)
class Lens:
    """Focal length, full aperture as an f-number, hiatus and pupil magnification."""

    focal_length: float
    full_aperture: float
    hiatus: float = 0.0
    pupil_magnification: float = 1.0


@dataclass(frozen=True)
class Helicoid:
    """The whole lens moves on a thread: lead, number of starts, and the extending sense."""

    lead: float
    starts: int
    extends: Turn
    ring_diameter: float | None = None


@dataclass(frozen=True)
class FrontCell:
    """Only the front cell moves on its thread; `cell_to_film` is measured at infinity."""

    group_focal_length: float
    lead: float
    extends: Turn
    cell_to_film: float
    ring_diameter: float | None = None


@dataclass(frozen=True)
class Bed:
    """The whole lens slides on a bed or stands on struts against stops; no thread."""


Focusing: TypeAlias = Helicoid | FrontCell | Bed


def _check_focusing(focusing: Focusing) -> None:
    if isinstance(focusing, Bed):
        return
    _check(helicoid.lead, focusing.lead)
    if focusing.ring_diameter is not None:
        _check(helicoid.ring_diameter, focusing.ring_diameter)
    if isinstance(focusing, Helicoid):
        _check(helicoid.starts, focusing.starts)
    else:
        _check(front_cell.group_focal_length, focusing.group_focal_length)
        _check(front_cell.cell_to_film, focusing.cell_to_film)


def _check(quantity: Quantity, value: float) -> None:
    """Refuse what is no number, out of its range or infinite: no part of a camera is endless."""
    _refuse_text(quantity.meaning, quantity.name, value)
    quantity.check(float(value))
    if math.isinf(value):
        raise quantity.refuse(value, "finite")


def _refuse_text(words: str, name: str, value: object) -> None:
    if not isinstance(value, Real) or isinstance(value, bool):
        raise Unreadable(
            f"The {words} must be a number: got {value!r}; give it as a number without a unit.",
            quantity=name,
            value=value,
        )


@dataclass(frozen=True)
class Camera:
    """A camera as the repairer describes it; tolerance in mm at the film, None for default."""

    name: str
    lens: Lens
    focusing: Focusing
    circle_of_confusion: float
    tolerance: float | None = None

    def __post_init__(self) -> None:
        """Refuse at once what no formula could use: OutOfRange, or Unreadable for no number."""
        _check(lens.focal_length, self.lens.focal_length)
        _check(depth.f_number, self.lens.full_aperture)
        _check(lens.hiatus, self.lens.hiatus)
        _check(lens.pupil_magnification, self.lens.pupil_magnification)
        _check(depth.circle_of_confusion, self.circle_of_confusion)
        _check_focusing(self.focusing)
        if self.tolerance is not None:
            _refuse_text("focus tolerance", "tolerance", self.tolerance)
        if self.tolerance is not None and not 0 < self.tolerance < math.inf:
            raise OutOfRange(
                f"The focus tolerance must be more than 0 mm: got {self.tolerance:g} mm; "
                "leave it empty for half the depth of focus.",
                quantity="tolerance",
                value=self.tolerance,
                limit=0.0,
            )

    @property
    def depth_of_focus(self) -> float:
        """Depth of focus each way at full aperture for a distant subject, N·c."""
        return self.depth_at(math.inf)

    def depth_at(self, film_distance: float) -> float:
        """Depth of focus each way at full aperture for a subject at a distance from the film."""
        return depth.depth_of_focus.solve_for(depth.depth_each_way).value(
            f_number=self.lens.full_aperture,
            circle_of_confusion=self.circle_of_confusion,
            magnification=self.magnification_at(film_distance),
            pupil_magnification=self.lens.pupil_magnification,
        )

    def magnification_at(self, film_distance: float) -> float:
        """Image size over subject size for a subject at a distance from the film."""
        moved = self.focusing_formula.value(film_distance=film_distance, **self.constants)
        if isinstance(self.focusing, FrontCell):
            return front_cell.cell_magnification.solve_for(lens.magnification).value(
                movement=moved,
                focal_length=self.lens.focal_length,
                group_focal_length=self.focusing.group_focal_length,
            )
        return lens.magnification_from_extension.solve_for(lens.magnification).value(
            extension=moved, focal_length=self.lens.focal_length
        )

    def film_side_extension(self, film_distance: float) -> float:
        """How far from its infinity focus a mark sets the image, in mm at the film."""
        formula, constants = self.mark_error_formula(lens.focus_error)
        return formula.value(sharp_distance=film_distance, mark_distance=math.inf, **constants)

    @property
    def allowed_error(self) -> float:
        """The tolerance in force: the stated one, else half the depth of focus (N·c/2)."""
        return self.depth_of_focus / 2 if self.tolerance is None else self.tolerance

    @property
    def constants(self) -> dict[str, float]:
        """The camera's fixed inputs to its focusing formula."""
        if isinstance(self.focusing, FrontCell):
            return {
                "group_focal_length": self.focusing.group_focal_length,
                "cell_to_film": self.focusing.cell_to_film,
            }
        return {"focal_length": self.lens.focal_length, "hiatus": self.lens.hiatus}

    @property
    def focusing_formula(self) -> Formula:
        """Movement of lens or front cell for a subject's distance from the film."""
        if isinstance(self.focusing, FrontCell):
            return front_cell.front_cell_focusing.solve_for(front_cell.movement)
        return lens.unit_focusing.solve_for(lens.extension)

    def mark_error_formula(self, unknown: Quantity) -> tuple[Formula, dict[str, float]]:
        """The relation of mark, sharp distance and error for this camera, with its constants."""
        if isinstance(self.focusing, FrontCell):
            constants = self.constants | {"focal_length": self.lens.focal_length}
            return front_cell.cell_mark_error.solve_for(unknown), constants
        return lens.mark_error.solve_for(unknown), self.constants
