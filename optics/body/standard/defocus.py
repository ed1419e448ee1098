"""What a leaning standard does to the picture: the focus error over the frame."""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from optics.camera.camera import Camera
from optics.camera.plane import Plane
from optics.camera.stops import said_stop, set_stop
from optics.errors import OutOfRange
from optics.measure.places import in_the_picture, place_name
from optics.measure.uncertainty import Estimate, combine, exact
from optics.measure.verdict import Verdict, judge
from optics.relation import Array, Formula
from optics.theory import depth, lens, standard

_error = standard.tilted_defocus.solve_for(lens.focus_error)
_COLUMNS, _ROWS = 41, 31


class Tilted(StrEnum):
    """Which of the two leans against the camera: the lens, or the film."""

    LENS = "lens"
    FILM = "film"


@dataclass(frozen=True)
class Frame:
    """The picture on the film, in mm."""

    width: float
    height: float

    def __post_init__(self) -> None:
        """Refuse a frame without an area."""
        for name, size in (("width", self.width), ("height", self.height)):
            if not 0 < size < math.inf:
                raise OutOfRange(
                    f"The {name} of the frame must be more than 0 mm and finite: got {size:g} mm; "
                    "enter the picture's size on the film.",
                    quantity=f"frame_{name}",
                    value=size,
                    limit=0.0,
                )

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Top left, top right, bottom right and bottom left, seen from the front."""
        x, y = self.width / 2, self.height / 2
        return (-x, y), (x, y), (x, -y), (-x, -y)


@dataclass(frozen=True)
class View:
    """With which f-number and at what distance (mm from the film) the picture is taken.

    `aperture` None stands for full aperture.
    """

    film_distance: float = math.inf
    aperture: float | None = None
    tilted: Tilted = Tilted.LENS


@dataclass(frozen=True)
class Corner:
    """A corner of the frame seen from the front, how far it is out, and its disc in mm."""

    x: float
    y: float
    error: Estimate
    blur: float
    verdict: Verdict

    @property
    def name(self) -> str:
        """Top left … seen from the front."""
        return place_name(self.x, self.y)

    @property
    def picture_name(self) -> str:
        """Where it is found in the finished picture."""
        return in_the_picture(self.x, self.y)


@dataclass(frozen=True)
class DefocusMap:
    """The focus error over the frame, plus where the lens stands too far out; mm at the film.

    `across` (columns) and `up` (rows) are the places of `error` and `blur`, for a map plot
    seen from the front; `depth` is the depth of focus each way, `factor` how often the lean
    counts; `f_number` is as engraved, and counts as `set_stop` says.
    """

    camera: Camera
    frame: Frame
    view: View
    f_number: float
    factor: float
    depth: float
    middle: Estimate
    corners: tuple[Corner, ...]
    across: Array
    up: Array
    error: Array
    blur: Array

    @property
    def stop(self) -> str:
        """The stop in words, and which f-number it counts with."""
        return said_stop(self.f_number, self.camera.lens.full_aperture)

    @property
    def worst(self) -> Corner:
        """The corner farthest out of focus, either way."""
        return max(self.corners, key=lambda corner: abs(corner.error.value))

    @property
    def is_sharp(self) -> bool:
        """Whether every corner is proved to be inside the depth of focus."""
        return all(corner.verdict is Verdict.INSIDE for corner in self.corners)

    @property
    def drop(self) -> float:
        """From the corner farthest in to the one farthest out, in mm at the film."""
        values = [corner.error.value for corner in self.corners]
        return max(values) - min(values)


def defocus_map(
    plane: Plane,
    frame: Frame,
    camera: Camera,
    view: View | None = None,
    *,
    nominal: Estimate | None = None,
    middle: Estimate | None = None,
) -> DefocusMap:
    """How far each place of the frame is out of focus.

    `nominal` is the height at which the middle would be right, counted as the readings are;
    `middle` instead the focus error found there; with neither, the middle counts as focused.
    Errors: OutOfRange where the camera cannot focus so near, or for an f-number of 0.
    Limits: small tilts, a flat standard, a flat film and a subject square to the camera.
    """
    view = view or View()
    size = camera.magnification_at(view.film_distance)
    full = camera.lens.full_aperture
    marked = full if view.aperture is None else view.aperture
    f_number = set_stop(marked, full)
    depth_formula, cone = camera.depth_of_focus_formula(depth.depth_each_way, size)
    each_way = depth_formula.value(
        circle_of_confusion=camera.circle_of_confusion, f_number=f_number, **cone
    )
    disc, _ = camera.depth_of_focus_formula(depth.circle_of_confusion, size)
    light = {"f_number": f_number, **cone}
    lens_counts = size if view.tilted is Tilted.LENS else 0.0
    slopes = {
        "mean_error": _middle(plane, nominal) if middle is None else middle,
        "tilt_factor": exact(1.0 + lens_counts),
        "slope_across": plane.slope_across,
        "slope_up": plane.slope_up,
    }
    across = np.linspace(-frame.width / 2, frame.width / 2, _COLUMNS)
    up = np.linspace(-frame.height / 2, frame.height / 2, _ROWS)
    error = _over(slopes, across, up)
    return DefocusMap(
        camera=camera,
        frame=frame,
        view=view,
        f_number=marked,
        factor=slopes["tilt_factor"].value,
        depth=each_way,
        middle=slopes["mean_error"],
        corners=tuple(_corner(at, slopes, (disc, light), each_way) for at in frame.corners),
        across=across,
        up=up,
        error=error,
        blur=disc.value(depth_each_way=np.abs(error), **_arrays(light)),
    )


def _corner(
    at: tuple[float, float],
    slopes: dict[str, Estimate],
    blur: tuple[Formula, dict[str, float]],
    each_way: float,
) -> Corner:
    x, y = at
    disc, light = blur
    error = combine(_error, place_across=exact(x), place_up=exact(y), **slopes)
    size = disc.value(depth_each_way=abs(error.value), **light)
    return Corner(x, y, error, size, judge(error, each_way))


def _over(slopes: dict[str, Estimate], across: Array, up: Array) -> Array:
    """The focus error at every place, rows from the bottom up."""
    values = _arrays({name: estimate.value for name, estimate in slopes.items()})
    return _error.value(place_across=across[None, :], place_up=up[:, None], **values)


def _arrays(values: dict[str, float]) -> dict[str, Array]:
    return {name: np.asarray(value, np.float64) for name, value in values.items()}


def _middle(plane: Plane, nominal: Estimate | None) -> Estimate:
    # Heights may be counted from a dial's zero, so that no register is asked to be above 0.
    return exact(0.0) if nominal is None else plane.middle.plus(nominal, -1.0)
