"""Where marks belong on a ring: distances, depth marks, and which way round the scale runs.

Angles in rad, arcs in mm; distances from the film plane in mm.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Turn
from optics.camera.stops import FULL, Stops, set_stop
from optics.errors import NoAnswer, OutOfRange
from optics.scales.depth_marks import depth_mark_formula
from optics.scales.engraving import (
    ScaleUnit,
    figure_of,
    rank_of,
    stop_figure,
    usual_distances,
    usual_nearest,
)
from optics.scales.scale_fit import RingScale, arc_of
from optics.theory import depth, helicoid

LARGEST = math.radians(345)
"""How far round a scale may run, so that its nearest mark stays clear of ∞."""
GAP = 0.6
"""Room kept between neighbouring figures, in mm."""
TICK_GAP = 0.8
"""Room kept between neighbouring depth marks that are chosen here, in mm."""
SMALLEST_STOP = 22.0
_FARTHEST_DEPTH_MARK = math.radians(150)

FigureWidth = Callable[[str], float]


class ScaleOn(StrEnum):
    """Which part bears the distances; the index stands on the other."""

    RING = "turning ring"
    BODY = "fixed part"


class Towards(StrEnum):
    """A direction along the optical axis."""

    FRONT = "front"
    FILM = "film"


@dataclass(frozen=True)
class MarkPlace:
    """A distance, its figure, its angle from the ∞ mark, and whether the figure has room."""

    distance: float
    figure: str
    angle: float
    has_figure: bool


@dataclass(frozen=True)
class ScaleRow:
    """The marks of one unit, ∞ first, on an edge of a diameter; `notes` say what had no room."""

    unit: ScaleUnit
    diameter: float
    marks: tuple[MarkPlace, ...]
    notes: tuple[str, ...] = ()

    def arc(self, mark: MarkPlace) -> float:
        """How far a mark stands from ∞ along the edge, in mm."""
        return arc_of(mark.angle, self.diameter)

    @property
    def span(self) -> float:
        """The angle from ∞ to the nearest mark."""
        return max(mark.angle for mark in self.marks)


@dataclass(frozen=True)
class DepthPlace:
    """An engraved stop, the f-number it stands for, and the angle of its two marks."""

    marked: float
    f_number: float
    figure: str
    angle: float
    has_figure: bool


@dataclass(frozen=True)
class DepthRow:
    """The depth marks either side of an index, the widest stop first."""

    diameter: float
    circle_of_confusion: float
    stops: Stops
    marks: tuple[DepthPlace, ...]
    notes: tuple[str, ...] = ()

    def arc(self, mark: DepthPlace) -> float:
        """How far a mark stands from the index along the edge, in mm."""
        return arc_of(mark.angle, self.diameter)


def plain_width(figure: str) -> float:
    """About how wide a figure 1.8 mm high is engraved, in mm."""
    return 1.6 * len(figure)


def scale_row(
    camera: Camera,
    unit: ScaleUnit,
    diameter: float,
    *,
    distances: Sequence[float] | None = None,
    nearest: float | None = None,
    figure_width: FigureWidth = plain_width,
    gap: float = GAP,
) -> ScaleRow:
    """Where the distances of a scale stand, and which of their figures have room.

    Equations: `scale_mark` and `cell_scale_mark` with zero at ∞, `ring_arc`. `diameter` (mm) is
    that of the edge on which the figures stand, `figure_width` gives a figure's width in mm and
    `gap` the room between two. Distances given are all marked, and ∞ with them; figures without
    room are left out, ∞, the nearest and the roundest kept first, and `notes` says which.
    Without a list the usual series is thinned until every mark has its figure, beginning at
    `nearest` or at what is usual for the focal length.
    Errors: NoAnswer for a bed or struts; OutOfRange for a distance nearer than the lens can
    focus, or a mark that would come round to ∞ again.
    Limits: paraxial; a thread of constant lead.
    """
    helicoid.ring_diameter.check(float(diameter))
    wanted = _usual(camera, unit, nearest) if distances is None else distances
    # ∞ is always marked: every angle counts from it, and the index is set by it.
    ordered = sorted({math.inf, *map(float, wanted)}, reverse=True)
    angles = _angles(camera, ordered)
    # What was chosen here is thinned without a word; what somebody asked for is refused instead.
    if distances is None:
        kept = [i for i, angle in enumerate(angles) if angle <= LARGEST]
        ordered, angles = [ordered[i] for i in kept], [angles[i] for i in kept]
    else:
        _refuse_round_again(camera, unit, ordered, angles)
    figures = [figure_of(distance, unit) for distance in ordered]
    # Room is a matter of the edge the figures stand on: the same angles crowd on a smaller one.
    arcs = [arc_of(angle, diameter) for angle in angles]
    room = clear_of_each_other(
        arcs, [figure_width(f) for f in figures], _wanted_first(ordered, unit), gap
    )
    marks = [MarkPlace(*one) for one in zip(ordered, figures, angles, room, strict=True)]
    if distances is None:
        return ScaleRow(unit, diameter, tuple(mark for mark in marks if mark.has_figure))
    return ScaleRow(unit, diameter, tuple(marks), _no_room(marks, unit))


def depth_row(
    camera: Camera,
    diameter: float,
    *,
    f_numbers: Sequence[float] | None = None,
    stops: Stops = Stops.EXACT,
    circle_of_confusion: float | None = None,
    figure_width: FigureWidth = plain_width,
    gap: float = GAP,
) -> DepthRow:
    """How far from the index the depth marks of engraved stops stand, on both sides alike.

    Equations: `depth_mark`, for a front cell `cell_depth_mark`. `f_numbers` are as engraved
    (whole stops from full aperture to 22 unless given); `stops` says whether the exact f-number
    or the engraved one is reckoned with, wide open always the engraved one; the circle of
    confusion is the camera's unless given.
    Figures without room are left out, the outermost kept first; their marks stay, unless the
    series was chosen here and they stand closer than `TICK_GAP`.
    Errors: NoAnswer for a bed or struts; OutOfRange for a stop or circle without a meaning.
    Limits: distant subjects, for close up the marks stand a little narrow; a front cell's are
    right at every distance.
    """
    _thread_of(camera)
    camera.refuse_supposed("the depth marks of a front cell")
    helicoid.ring_diameter.check(float(diameter))
    blur = float(camera.circle_of_confusion if circle_of_confusion is None else circle_of_confusion)
    depth.circle_of_confusion.check(blur)
    engraved = sorted(set(_whole_stops(camera) if f_numbers is None else map(float, f_numbers)))
    used = [set_stop(marked, camera.lens.full_aperture, stops) for marked in engraved]
    formula, known = depth_mark_formula(camera)
    # A formula takes no empty array, and a scale may well have no depth marks.
    angles = [float(formula.value(f_number=n, circle_of_confusion=blur, **known)) for n in used]
    figures = [stop_figure(marked) for marked in engraved]
    arcs, widths = [arc_of(a, diameter) for a in angles], [figure_width(f) for f in figures]
    room = _beside_index(arcs, widths, [], gap)
    marks = [DepthPlace(*one) for one in zip(engraved, used, figures, angles, room, strict=True)]
    if f_numbers is None:
        # Marks with figures first: a mark without one is of little use where it crowds its
        # neighbour.
        first = [i for i, has_room in enumerate(room) if has_room]
        stands = _beside_index(arcs, [0.0] * len(arcs), first, TICK_GAP)
        marks = [mark for mark, is_kept in zip(marks, stands, strict=True) if is_kept]
    # Farther round, the two marks of a stop would come near each other behind the index.
    shown = tuple(mark for mark in marks if mark.angle <= _FARTHEST_DEPTH_MARK)
    return DepthRow(diameter, blur, stops, shown, _too_far_round(marks))


def _beside_index(
    arcs: Sequence[float], widths: Sequence[float], first: Sequence[int], gap: float
) -> list[bool]:
    """What stands clear of the index and of the rest, those named first and the outermost kept."""
    # The index stands at 0 like a mark without width, and is given its room before all others.
    order = dict.fromkeys([0, *(i + 1 for i in first), *range(len(arcs), 0, -1)])
    return clear_of_each_other([0.0, *arcs], [0.0, *widths], list(order), gap)[1:]


def runs(camera: Camera, scale_on: ScaleOn = ScaleOn.RING) -> Turn:
    """Which way the scale runs from ∞ to the nearer marks, seen from the front.

    A ring that turns clockwise to extend brings the marks that lie counter-clockwise of ∞ to
    the index; an index that turns with the ring goes clockwise itself.
    Errors: NoAnswer for a bed or struts.
    """
    extends = _thread_of(camera).extends
    return extends.opposite if scale_on is ScaleOn.RING else extends


def runs_right(turn: Turn, tops: Towards = Towards.FRONT) -> bool:
    """Whether a scale round a barrel runs to the right, looked at from outside.

    `tops` says where the tops of its figures point. With the front of the lens up, what is
    counter-clockwise from the front lies to the right.
    """
    return (turn is Turn.COUNTER_CLOCKWISE) is (tops is Towards.FRONT)


def _thread_of(camera: Camera) -> Helicoid | FrontCell:
    if isinstance(camera.focusing, Bed):
        raise NoAnswer(
            "A scale on a ring needs a focusing thread: got a bed or struts; mark such a scale "
            "along the bed with a target at each distance.",
            quantity="focusing",
        )
    return camera.focusing


def _angles(camera: Camera, distances: Sequence[float]) -> list[float]:
    _thread_of(camera)
    camera.refuse_supposed("the marks of a front cell's scale")
    ring = RingScale.of(camera)
    found: list[float] = ring.formula.value(
        film_distance=np.array(distances), **ring.given
    ).tolist()
    return found


def _usual(camera: Camera, unit: ScaleUnit, nearest: float | None) -> tuple[float, ...]:
    begin = usual_nearest(camera.lens.focal_length, unit) if nearest is None else float(nearest)
    return usual_distances(begin, unit)


def _whole_stops(camera: Camera) -> list[float]:
    widest = camera.lens.full_aperture
    return [mark for mark in FULL.marks if widest <= mark <= max(SMALLEST_STOP, widest)]


def _wanted_first(distances: Sequence[float], unit: ScaleUnit) -> list[int]:
    """Places in the order in which figures get room: ∞, the nearest, then the roundest.

    Of equally round ones the nearer first, for far ones crowd towards ∞ where room is short.
    """
    last = len(distances) - 1
    rest = sorted(range(1, last), key=lambda i: (rank_of(distances[i], unit), -i))
    return list(dict.fromkeys([0, last, *rest]))


def clear_of_each_other(
    arcs: Sequence[float], widths: Sequence[float], order: Sequence[int], gap: float
) -> list[bool]:
    """Which figures stand clear of every figure that was given room before them, in an order.

    `arcs` are their middles and `widths` how wide they are; all in mm, as is the `gap` between.
    """
    # Greedy in the order of worth: one figure that matters is never given up for two that do less.
    kept: list[int] = []
    for i in order:
        clear = (abs(arcs[i] - arcs[k]) >= (widths[i] + widths[k]) / 2 + gap - 1e-9 for k in kept)
        if all(clear):
            kept.append(i)
    return [i in kept for i in range(len(arcs))]


def _refuse_round_again(
    camera: Camera, unit: ScaleUnit, distances: Sequence[float], angles: Sequence[float]
) -> None:
    if angles[-1] > LARGEST:
        raise OutOfRange(
            f"The {figure_of(distances[-1], unit)} {unit} mark must stand at most "
            f"{math.degrees(LARGEST):.0f}° from ∞: got {math.degrees(angles[-1]):.1f}° on a lead "
            f"of {_thread_of(camera).lead:g} mm; leave it out.",
            quantity="film_distance",
            value=distances[-1],
            limit=LARGEST,
        )


def _no_room(marks: Sequence[MarkPlace], unit: ScaleUnit) -> tuple[str, ...]:
    bare = [mark.figure for mark in marks if not mark.has_figure]
    if not bare:
        return ()
    return (
        f"No room for the figures {', '.join(bare)} ({unit.words}): their marks stand without; "
        "use fewer distances or smaller figures.",
    )


def _too_far_round(marks: Sequence[DepthPlace]) -> tuple[str, ...]:
    far = [f"f/{mark.figure}" for mark in marks if mark.angle > _FARTHEST_DEPTH_MARK]
    if not far:
        return ()
    return (
        f"Left out: {', '.join(far)}, whose depth marks would stand more than "
        f"{math.degrees(_FARTHEST_DEPTH_MARK):.0f}° from the index.",
    )
