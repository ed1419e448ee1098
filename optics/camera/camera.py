"""The camera on the bench: its lens, how it focuses, and what sharp is taken to mean.

Lengths in mm; infinity is `math.inf`. All figures are what the repairer states; nothing is
looked up.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from numbers import Real
from typing import TypeAlias, overload

from optics.errors import NoAnswer, OutOfRange, Unreadable
from optics.measure.uncertainty import Estimate, exact, within
from optics.relation import Array, Formula, Given, Quantity
from optics.theory import depth, front_cell, front_cell_depth, helicoid, lens

# The blur that an eye just sees, as a part of the circle of confusion; common practice, no source.
SEEN_PART = 0.25


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
    """Only the front cell moves on its thread; `cell_to_film` is measured at infinity.

    The limits say how far either way (mm) a figure that is only supposed may be out; 0 where
    it is known.
    """

    group_focal_length: float
    lead: float
    extends: Turn
    cell_to_film: float
    ring_diameter: float | None = None
    group_limit: float = 0.0
    place_limit: float = 0.0


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
    """A camera as the repairer describes it.

    `tolerance` in mm at the film, None for half the depth of focus; `seen_blur` the disc (mm on
    the film) that the repairer's eye just sees, None for a quarter of the circle of confusion.
    """

    name: str
    lens: Lens
    focusing: Focusing
    circle_of_confusion: float
    tolerance: float | None = None
    seen_blur: float | None = None

    def __post_init__(self) -> None:
        """Refuse at once what no formula could use: OutOfRange, or Unreadable for no number."""
        _check(lens.focal_length, self.lens.focal_length)
        _check(depth.f_number, self.lens.full_aperture)
        _check(lens.hiatus, self.lens.hiatus)
        _check(lens.pupil_magnification, self.lens.pupil_magnification)
        _check(depth.circle_of_confusion, self.circle_of_confusion)
        _check_focusing(self.focusing)
        self._check_stated("focus tolerance", "tolerance", "half the depth of focus")
        self._check_stated("blur just seen", "seen_blur", "a quarter of the circle of confusion")

    def _check_stated(self, words: str, name: str, usual: str) -> None:
        value = getattr(self, name)
        if value is None:
            return
        _refuse_text(words, name, value)
        if not 0 < value < math.inf:
            raise OutOfRange(
                f"The {words} must be more than 0 mm: got {value:g} mm; leave it empty for "
                f"{usual}.",
                quantity=name,
                value=value,
                limit=0.0,
            )

    @property
    def depth_of_focus(self) -> float:
        """Depth of focus each way at full aperture for a distant subject, N·c."""
        return self.depth_at(math.inf)

    @property
    def alike_to_the_eye(self) -> float:
        """How far either way (mm at the film) an eye cannot tell from sharp: N·c/4 unless stated.

        The depth of focus at full aperture for the blur that is just seen in place of c.
        """
        part = SEEN_PART if self.seen_blur is None else self.seen_blur / self.circle_of_confusion
        return part * self.depth_of_focus

    def depth_at(self, film_distance: float) -> float:
        """Depth of focus each way at full aperture for a subject at a distance from the film."""
        formula, cone = self.depth_of_focus_formula(
            depth.depth_each_way, self.magnification_at(film_distance)
        )
        return formula.value(
            f_number=self.lens.full_aperture, circle_of_confusion=self.circle_of_confusion, **cone
        )

    @overload
    def depth_of_focus_formula(
        self, unknown: Quantity, magnification: float
    ) -> tuple[Formula, dict[str, float]]: ...
    @overload
    def depth_of_focus_formula(
        self, unknown: Quantity, magnification: Array
    ) -> tuple[Formula, dict[str, Given]]: ...
    def depth_of_focus_formula(
        self, unknown: Quantity, magnification: Given
    ) -> tuple[Formula, dict[str, float]] | tuple[Formula, dict[str, Given]]:
        """The relation of depth of focus, f-number and disc for this camera, with its cone.

        Whoever asks gives the two of `depth_each_way`, `f_number` and `circle_of_confusion`
        (mm at the film) that are not `unknown`. Relations: depth_of_focus where the whole lens
        moves, so that the cone grows longer as the image grows; cell_depth_of_focus for a front
        cell, which leaves the cone as it is at every distance.
        """
        if isinstance(self.focusing, FrontCell):
            return front_cell_depth.cell_depth_of_focus.solve_for(unknown), {}
        cone = {
            "magnification": magnification,
            "pupil_magnification": self.lens.pupil_magnification,
        }
        return depth.depth_of_focus.solve_for(unknown), cone

    @property
    def depth_of_field_formulas(self) -> tuple[Formula, Formula]:
        """Near and far limit of the depth of field, each as its relation counts it.

        A front cell's (cell_depth_near, cell_depth_far) take its movement and count from the
        film; a whole lens's (depth_near, depth_far) take the distance from the front principal
        plane and count from there.
        """
        if isinstance(self.focusing, FrontCell):
            return (
                front_cell_depth.cell_depth_near.solve_for(front_cell_depth.near_from_film),
                front_cell_depth.cell_depth_far.solve_for(front_cell_depth.far_from_film),
            )
        return (
            depth.depth_near.solve_for(depth.near_limit),
            depth.depth_far.solve_for(depth.far_limit),
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

    @cached_property
    def _supposed(self) -> dict[str, Estimate]:
        """The constants that are only supposed; made once, so that all results share sources."""
        cell = self.focusing
        if not isinstance(cell, FrontCell):
            return {}
        group, place = front_cell.group_focal_length, front_cell.cell_to_film
        limits = (
            (group, cell.group_focal_length, cell.group_limit),
            (place, cell.cell_to_film, cell.place_limit),
        )
        return {
            quantity.name: within(figure, limit, f"{quantity.meaning} (not known)")
            for quantity, figure, limit in limits
            if limit
        }

    def estimates(self, constants: dict[str, float]) -> dict[str, Estimate]:
        """The camera's constants by their names, each as well as it is known."""
        supposed = self._supposed
        return {name: supposed.get(name, exact(value)) for name, value in constants.items()}

    def refuse_supposed(self, what: str) -> None:
        """Refuse what would be no better than a guess; `what` names it, as the plural of a noun.

        Errors: NoAnswer where the front group's focal length is only supposed.
        """
        cell = self.focusing
        if isinstance(cell, FrontCell) and cell.group_limit:
            low, high = (cell.group_focal_length + s * cell.group_limit for s in (-1, 1))
            raise NoAnswer(
                f"{what.capitalize()} go with the square of the front group's focal length: got "
                f"none, and {low:.4g} to {high:.4g} mm is only what is usual; enter it.",
                quantity=front_cell.group_focal_length.name,
            )

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
