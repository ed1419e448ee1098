"""The cam's profile at true size, rolled out and as a disc, and the metal to take off along it.

Drawn for a cam that turns with the ring past a follower at rest in the body. The profile is
wrapped round the cam with its print outwards and its lift towards the camera's back.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from optics.camera.camera import Turn
from optics.drawing.column import Column, headed
from optics.drawing.drawing import Point
from optics.drawing.page import MID, PALE, Sheet
from optics.drawing.ruler import ROOM, check_rulers
from optics.errors import OutOfRange
from optics.rangefinder import cam_wording
from optics.rangefinder.cam import Cam, steps_to
from optics.rangefinder.stoning import StoningMap

Array: TypeAlias = NDArray[np.float64]

_HALF_DEGREE = math.radians(0.5)
_FINE, _TINY = 7.0, 5.8
_TIMES = (10, 5, 2, 1)
_METAL_TIMES = 100
_TALLEST_METAL = 22.0
_LOWEST_BAR = 0.05
# Where drawings begin: clear of the ruler that stands at the left margin.
_CLEAR = ROOM + 6.0
_SPOKE = 7.0
_LABELLED = (1, 2, 5, 10, 15, 20, 30, 45, 60, 90)
_LABEL_ROOM = 9.0


@dataclass(frozen=True)
class CamDrawing:
    """A cam ⌀ `diameter` mm on a sheet, with its map if there is one; a mark every `step` rad."""

    cam: Cam
    diameter: float
    found: StoningMap | None
    sheet: Sheet
    title: str
    step: float

    @property
    def room(self) -> float:
        """How wide a drawing can be, in mm."""
        return self.sheet.right - self.sheet.left - _CLEAR - 2

    @cached_property
    def rotation(self) -> Array:
        """The places listed: where a map says nothing, the whole turn."""
        if self.found is None:
            return steps_to(self.cam.turn, self.step)
        return self.found.between(self.step)[0]

    def lift(self, rotation: Array) -> Array:
        """The cam's lift from infinity as it should be, in mm."""
        return self.cam.lift(rotation) / (self.found.gain if self.found else 1.0)

    def metal(self, rotation: Array) -> Array:
        """What is to come off in mm; nan where nothing was read."""
        if self.found is None:
            return np.full_like(rotation, np.nan)
        known = self.found.rotation
        return np.interp(rotation, known, self.found.removal, left=np.nan, right=np.nan)

    @property
    def runs_right(self) -> bool:
        """Whether the places follow each other to the right on the wrapped template."""
        return self.cam.thread.extends is Turn.COUNTER_CLOCKWISE


def check_size(drawn: CamDrawing) -> None:
    """Raise OutOfRange for a cam that cannot be drawn at true size on the paper."""
    highest = float(drawn.lift(np.array([drawn.cam.turn]))[0])
    most = min(drawn.room - 2, _polar_height(drawn.sheet)) - 2 * highest - 12
    if not 0 < drawn.diameter <= most:
        raise OutOfRange(
            f"The cam's diameter must be more than 0 mm and at most {most:.0f} mm to be drawn at "
            f"true size here: got {drawn.diameter:g} mm; check the figure.",
            quantity="diameter",
            value=drawn.diameter,
            limit=most,
        )


def head_of(drawn: CamDrawing, what: str) -> Column:
    """Begin a page with its headings; the column goes on below them."""
    return headed(drawn.sheet, f"Cam sheet · {what}", drawn.title)


def pieces(drawn: CamDrawing) -> Iterator[tuple[float, float]]:
    """The turn cut at whole steps into pieces that fit across the paper."""
    most = max(math.floor(drawn.room / (drawn.diameter / 2) / drawn.step), 1)
    steps = math.ceil(drawn.cam.turn / drawn.step - 1e-9)
    each = math.ceil(steps / math.ceil(steps / most))
    for first in range(0, steps, each):
        yield first * drawn.step, min((first + each) * drawn.step, drawn.cam.turn)


@dataclass(frozen=True)
class _Strip:
    """A developed piece: where its infinity end or join lies, and how lift is drawn."""

    drawn: CamDrawing
    first: float
    last: float
    floor: float
    times: float

    @property
    def length(self) -> float:
        """Its length along the cam's edge, in mm."""
        return (self.last - self.first) * self.drawn.diameter / 2

    def x(self, rotation: float) -> float:
        """Where a rotation lies across the paper."""
        along = (rotation - self.first) * self.drawn.diameter / 2
        left = self.drawn.sheet.left + _CLEAR
        return left + (along if self.drawn.runs_right else self.length - along)

    def points(self, rotation: Array, height: Array) -> list[Point]:
        """Heights in mm set up from the floor, drawn `times` as high."""
        return [
            (self.x(r), self.floor - self.times * h)
            for r, h in zip(rotation.tolist(), height.tolist(), strict=True)
        ]


def profile_page(drawn: CamDrawing, first: float, last: float, piece: str) -> None:
    """The profile rolled out, from one rotation (rad) to another."""
    sheet = drawn.sheet
    head = head_of(drawn, f"profile, developed, {piece}")
    far, near = ("left", "right") if drawn.runs_right else ("right", "left")
    head.say(
        f"Length along the edge of a cam ⌀ {drawn.diameter:.6g} mm at true size; ∞ is at the "
        f"{far}, near at the {near}. Cut on the middle of the line. Wrapped with its print "
        "outwards and the lift towards the camera's back it lies right way round, for a cam that "
        "turns with the ring past a follower at rest.",
        _FINE,
    )
    lift = drawn.lift(np.array([last]))[0]
    true_size = _Strip(drawn, first, last, head.y + 8 + lift, 1.0)
    _outline(true_size, "1 : 1, template", skirt=8.0)
    floor = true_size.floor + 17
    if drawn.found:
        floor = _metal(drawn, first, last, floor)
    corner = sheet.left + ROOM, sheet.bottom - ROOM
    check_rulers(sheet, corner)
    times = next((t for t in _TIMES if t * lift <= corner[1] - 14 - floor - 8), 1)
    _outline(
        _Strip(drawn, first, last, floor + 8 + times * lift, times),
        f"Lift {times} : 1, length 1 : 1" + (", dashed: the cam as read" if drawn.found else ""),
    )


def _outline(strip: _Strip, label: str, skirt: float = 0.0) -> None:
    """The profile with its degrees, on a skirt to cut out with it."""
    drawn, sheet = strip.drawn, strip.drawn.sheet
    fine = steps_to(strip.last, _HALF_DEGREE, strip.first)
    lift = drawn.lift(fine)
    foot = strip.floor + skirt
    profile = strip.points(fine, lift)
    sheet.shape([(profile[0][0], foot), *profile, (profile[-1][0], foot)])
    if skirt:
        sheet.line((profile[0][0], strip.floor), (profile[-1][0], strip.floor), ink=MID)
    marks = steps_to(strip.last, drawn.step, strip.first)
    for mark, point in zip(marks, strip.points(marks, drawn.lift(marks)), strict=True):
        sheet.line((point[0], strip.floor), point, ink=MID)
        sheet.line((point[0], foot), (point[0], foot + 1.2))
        if _is_labelled(strip, float(mark)):
            sheet.text(point[0], foot + 3.6, _degrees(float(mark)), _TINY, align="middle")
    highest = strip.floor - strip.times * float(lift.max())
    sheet.text(sheet.left + _CLEAR, highest - 2.2, label, _FINE, bold=True)
    if strip.times > 1 and drawn.found:
        _as_read(strip, drawn.found, fine)


def _is_labelled(strip: _Strip, mark: float) -> bool:
    """Labels a centimetre apart or so, the ends always."""
    if mark in (strip.first, strip.last):
        return True
    every = _label_every(strip.drawn.step, strip.drawn.diameter / 2)
    return _is_multiple(mark, every) and strip.last - mark > 0.6 * every < mark - strip.first


def _label_every(step: float, radius: float) -> float:
    """How many rad from label to label round a circle of this radius."""
    whole = (math.radians(degrees) for degrees in _LABELLED)
    fitting = [w for w in whole if _is_multiple(w, step) and w * radius >= _LABEL_ROOM]
    return fitting[0] if fitting else step * math.ceil(_LABEL_ROOM / (step * radius))


def _is_multiple(rotation: float, of: float) -> bool:
    return abs(rotation / of - round(rotation / of)) < 1e-6


def _as_read(strip: _Strip, found: StoningMap, rotation: Array) -> None:
    metal = strip.drawn.metal(rotation)
    known = ~np.isnan(metal)
    if np.count_nonzero(known) > 1:
        present = strip.drawn.lift(rotation[known]) + found.rules.way * metal[known]
        points = strip.points(rotation[known], present)
        strip.drawn.sheet.shape(points, closed=False, dash=(1.2, 0.8), width=0.15)


def _metal(drawn: CamDrawing, first: float, last: float, top: float) -> float:
    """Bars of metal to take off, a hundred times as high; where they end."""
    found, sheet = drawn.found, drawn.sheet
    assert found is not None
    marks = steps_to(last, drawn.step, first)
    metal = drawn.metal(marks)
    most = float(np.nanmax(found.removal))
    times = min(_METAL_TIMES, _TALLEST_METAL / most) if most > 0 else _METAL_TIMES
    strip = _Strip(drawn, first, last, top + 11 + times * most, times)
    width = drawn.step * drawn.diameter / 2 * 0.7
    label = f"To take off in all, in mm, drawn {times:.3g} : 1"
    sheet.text(sheet.left + _CLEAR, top, label, _FINE, bold=True)
    for mark, one in zip(marks, metal, strict=True):
        if np.isnan(one):
            continue
        x, height = strip.x(float(mark)), times * float(one)
        if height > _LOWEST_BAR:
            sheet.box((x - width / 2, strip.floor - height), width, height, fill=PALE)
        cut = float(found.rounded(np.array(one)))
        text = cam_wording.said_cut(found, cut).removesuffix(" mm")
        sheet.text(x + 0.8, strip.floor - height - 0.8, text, _TINY, turned=90)
    sheet.line((strip.x(first), strip.floor), (strip.x(last), strip.floor))
    return strip.floor + 8


def _polar_height(sheet: Sheet) -> float:
    return sheet.bottom - ROOM - 8 - (sheet.top + 24)


def polar_page(drawn: CamDrawing) -> None:
    """The profile as a disc, seen from the back."""
    sheet = drawn.sheet
    seen = "counter-clockwise" if drawn.runs_right else "clockwise"
    head = head_of(drawn, "profile, polar, 1 : 1")
    head.say(
        f"Lift set off outwards from a circle ⌀ {drawn.diameter:.6g} mm, at true size, seen from "
        f"the back of the lens: from ∞ at the top the places follow {seen}, for a cam that turns "
        "with the ring past a follower at rest.",
        _FINE,
    )
    corner = sheet.left + ROOM, sheet.bottom - ROOM
    check_rulers(sheet, corner)
    centre = (
        (sheet.left + _CLEAR + sheet.right) / 2,
        sheet.bottom - ROOM - 8 - _polar_height(sheet) / 2,
    )
    _polar(drawn, centre)


def _polar(drawn: CamDrawing, centre: Point) -> None:
    sheet, radius = drawn.sheet, drawn.diameter / 2
    fine = steps_to(drawn.cam.turn, _HALF_DEGREE)
    whole = steps_to(2 * math.pi, _HALF_DEGREE)[:-1]
    sheet.shape(
        [_around(drawn, centre, r, radius) for r in whole.tolist()], ink=MID, dash=(1.0, 1.0)
    )
    lifts = drawn.lift(fine).tolist()
    profile = [
        _around(drawn, centre, r, radius + y) for r, y in zip(fine.tolist(), lifts, strict=True)
    ]
    sheet.shape(profile, closed=False, width=0.15)
    marks = steps_to(drawn.cam.turn, drawn.step)
    inner = max(radius - _SPOKE, radius * 0.6)
    every = _label_every(drawn.step, inner - 4)
    for mark, lift in zip(marks, drawn.lift(marks).tolist(), strict=True):
        ends = [_around(drawn, centre, float(mark), r) for r in (inner, radius + lift)]
        sheet.line(ends[0], ends[1], ink=MID)
        if _is_multiple(float(mark), every):
            x, y = _around(drawn, centre, float(mark), inner - 4)
            sheet.text(x, y + 0.8, _degrees(float(mark)), _TINY, align="middle")
    for dx, dy in ((3, 0), (0, 3)):
        start, end = (centre[0] - dx, centre[1] - dy), (centre[0] + dx, centre[1] + dy)
        sheet.line(start, end)


def _around(drawn: CamDrawing, centre: Point, rotation: float, radius: float) -> Point:
    """A point on the paper: ∞ at the top, counter-clockwise where the template runs right."""
    side = -1.0 if drawn.runs_right else 1.0
    return (
        centre[0] + side * radius * math.sin(rotation),
        centre[1] - radius * math.cos(rotation),
    )


def _degrees(rotation: float) -> str:
    return "∞" if rotation == 0 else f"{math.degrees(rotation):.4g}°"
