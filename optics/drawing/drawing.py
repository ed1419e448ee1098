"""What a sheet is made of: strokes, boxes, outlines and words, in mm from the top left.

A sheet keeps these, so that paper and screen are drawn from the very same figures.
"""

import math
from dataclasses import dataclass, replace
from typing import TypeAlias

Ink: TypeAlias = tuple[float, float, float]
Point: TypeAlias = tuple[float, float]
Step: TypeAlias = tuple[Point] | tuple[Point, Point, Point]
"""Where an outline goes next: straight to a point, or past two handles along a cubic curve."""

# A cubic over 45° strays from its circle by less than five millionths of the radius.
_PIECE = math.pi / 4


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn: thickness and dashes in mm; without ink it is not."""

    width: float
    ink: Ink | None
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class StraightLine:
    """A straight line whose ends are cut square at the points."""

    start: Point
    end: Point
    pen: Pen


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle from its top left corner."""

    corner: Point
    width: float
    height: float
    pen: Pen
    fill: Ink | None


@dataclass(frozen=True, slots=True)
class Outline:
    """A run of straight and curved pieces, open or closed."""

    start: Point
    steps: tuple[Step, ...]
    closed: bool
    pen: Pen
    fill: Ink | None


@dataclass(frozen=True, slots=True)
class Words:
    """One line of type, in the order it is read on paper.

    It begins `back` mm before `at`, its baseline through `at`, turned counter-clockwise about
    it by so many degrees; `mirrored` reads in a looking-glass.
    """

    at: Point
    text: str
    size: float
    bold: bool
    ink: Ink
    back: float
    turned: float
    mirrored: bool


Mark: TypeAlias = StraightLine | Box | Outline | Words


def scaled(mark: Mark, by: float) -> Mark:
    """The same so many times as large, about the top left of the page."""
    if by == 1.0:
        return mark

    def at(point: Point) -> Point:
        return point[0] * by, point[1] * by

    if isinstance(mark, Words):
        return replace(mark, at=at(mark.at), size=mark.size * by, back=mark.back * by)
    pen = Pen(mark.pen.width * by, mark.pen.ink, tuple(dash * by for dash in mark.pen.dash))
    match mark:
        case StraightLine():
            return StraightLine(at(mark.start), at(mark.end), pen)
        case Box():
            sides = mark.width * by, mark.height * by
            return Box(at(mark.corner), *sides, pen, mark.fill)
        case Outline():
            steps: tuple[Step, ...] = tuple(tuple(map(at, step)) for step in mark.steps)  # type: ignore[misc]
            return Outline(at(mark.start), steps, mark.closed, pen, mark.fill)


def on_circle(centre: Point, radius: float, angle: float) -> Point:
    """The point of a circle at an angle in rad, clockwise from the top."""
    return centre[0] + radius * math.sin(angle), centre[1] - radius * math.cos(angle)


def arc_steps(centre: Point, radius: float, start: float, sweep: float) -> tuple[Step, ...]:
    """An arc from an angle on, in rad clockwise from the top, as cubic pieces.

    Limits: off the true circle by less than 5e-6 of the radius.
    """
    count = max(1, math.ceil(abs(sweep) / _PIECE - 1e-9))
    piece = sweep / count
    # The handles' length that puts the middle of each piece on the circle itself.
    reach = 4 / 3 * math.tan(piece / 4) * radius
    steps: list[Step] = []
    for number in range(count):
        begin, end = start + number * piece, start + (number + 1) * piece
        steps.append(
            (
                _along(on_circle(centre, radius, begin), begin, reach),
                _along(on_circle(centre, radius, end), end, -reach),
                on_circle(centre, radius, end),
            )
        )
    return tuple(steps)


def _along(point: Point, angle: float, reach: float) -> Point:
    """So far along the clockwise tangent."""
    return point[0] + reach * math.cos(angle), point[1] + reach * math.sin(angle)
