"""The barrel seen from the front: competing marks, places of entry, and the sense that extends.

What is likeliest is filled and lettered bold, what is in use now says so; the drawing reads
without colour.
"""

import math
from collections.abc import Iterator, Sequence

from optics.body.witness import BarrelDrawing, DrawnEntry, DrawnMark
from optics.camera.camera import Turn
from ui.figures import svg

_SIZE = (330.0, 300.0)
_CENTRE = (165.0, 152.0)
_RING, _ENTRIES, _NUMBERS, _TURN = 98.0, 84.0, 57.0, 28.0
_MARK_END, _NAMES = 112.0, 132.0
# Names closer than this run into one another (rad).
_APART = 0.26
_MOST_NUMBERED = 12


def barrel_view(drawn: BarrelDrawing, is_told: bool, is_noted: bool) -> str:
    """Marks outside, places of entry inside; `is_noted` whether the place of parting is known.

    Where it cannot be told, nothing is drawn as the right one.
    """
    x, y = _CENTRE
    parts = [
        svg.tag("circle", cx=x, cy=y, r=_RING, class_="ring"),
        *_marks(drawn.marks, is_told),
        *_entries(drawn.entries, is_told),
        *_extends(drawn.extends),
        svg.text((4, 14), "seen from the front", "start", "quiet"),
    ]
    if not is_noted and len(drawn.entries) > 1:
        parts.append(
            svg.text((_SIZE[0] / 2, 294), "entry in use now drawn at the top", kind="quiet")
        )
    return svg.picture(_SIZE, _said(drawn, is_told), parts)


def _said(drawn: BarrelDrawing, is_told: bool) -> str:
    marks = ", ".join(
        f"{m.mark.name} at {math.degrees(m.mark.angle % math.tau):.1f}°"
        f"{' in use now' * m.is_present}{' likeliest' * (m.is_first and is_told)}"
        for m in drawn.marks
    )
    return f"The barrel seen from the front: marks {marks}; extends {drawn.extends}"


def _on(radius: float, angle: float) -> svg.Point:
    """A point at an angle clockwise from the top."""
    return _CENTRE[0] + radius * math.sin(angle), _CENTRE[1] - radius * math.cos(angle)


def _marks(marks: Sequence[DrawnMark], is_told: bool) -> Iterator[str]:
    named = spread([mark.mark.angle for mark in marks])
    for mark, name_angle in zip(marks, named, strict=True):
        angle, is_right = mark.mark.angle, mark.is_first and is_told
        end = _on(_MARK_END, angle)
        yield svg.line(_on(_RING - 7, angle), end, "error" if is_right else "mark")
        if is_right:
            inwards = (-math.sin(angle), math.cos(angle))
            yield svg.arrow_head(_on(_RING, angle), inwards, "error filled", 12)
        yield svg.line(end, _on(_NAMES - 12, name_angle), "ray")
        x, y = _on(_NAMES, name_angle)
        words = mark.mark.name + " (now)" * mark.is_present
        side = math.sin(name_angle)
        anchor = "start" if side > 0.35 else "end" if side < -0.35 else "middle"
        yield svg.text((x, y + 4), words, anchor, "strong" if is_right else "label")


def spread(angles: Sequence[float]) -> list[float]:
    """Angles near the given ones, in their order round, so far apart that names can be read."""
    order = sorted(range(len(angles)), key=lambda i: angles[i] % math.tau)
    found = [angles[i] % math.tau for i in order]
    for _ in range(60):
        for i in range(len(found)):
            j = (i + 1) % len(found)
            gap = found[j] - found[i] + (math.tau if j == 0 else 0.0)
            if gap < _APART:
                push = (_APART - gap) / 2
                found[i] -= push
                found[j] += push
    placed = dict(zip(order, found, strict=True))
    return [placed[i] for i in range(len(angles))]


def _entries(entries: Sequence[DrawnEntry], is_told: bool) -> Iterator[str]:
    for entry in entries:
        is_right = entry.is_first and is_told
        x, y = _on(_ENTRIES, entry.angle)
        kind = "error filled" if is_right else "entry"
        yield svg.tag("circle", cx=round(x, 2), cy=round(y, 2), r=6, class_=kind)
        if len(entries) <= _MOST_NUMBERED or is_right or entry.is_present:
            x, y = _on(_NUMBERS, entry.angle)
            yield svg.text((x, y + 4), _entry_name(entry), kind="strong" if is_right else "quiet")


def _entry_name(entry: DrawnEntry) -> str:
    if entry.is_present:
        return "now"
    return " / ".join(
        f"{abs(moved)} {'out' if moved > 0 else 'in'}" for moved in sorted(entry.starts_moved)
    )


def _extends(turn: Turn) -> Iterator[str]:
    way = 1 if turn is Turn.CLOCKWISE else -1
    swing = math.radians(75)
    (x0, y0), (x1, y1) = _on(_TURN, -way * swing), _on(_TURN, way * swing)
    sweep = int(way > 0)
    yield svg.path(f"M{x0:.1f} {y0:.1f} A{_TURN} {_TURN} 0 0 {sweep} {x1:.1f} {y1:.1f}", "mark")
    ahead = (way * math.cos(swing), math.sin(swing))
    yield svg.arrow_head((x1, y1 + 3), ahead, "mark", 8)
    yield svg.text((_CENTRE[0], _CENTRE[1] + 6), "extends", kind="quiet")
