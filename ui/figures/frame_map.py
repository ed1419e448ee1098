"""The picture on the film, seen from the front: where it is sharp, and how far out each corner is.

Corners carry figures, words and signs, and the sharp part has an outline, so that nothing
depends on colour.
"""

from collections.abc import Callable, Iterator

from optics.body.standard import Corner, DefocusMap
from optics.measure.verdict import Verdict
from optics.readings.readings import Sense
from ui.figures import svg

_WIDTH = 400.0
_BOX = (250.0, 170.0)
_TOP = 62.0
_SIGNS = {Verdict.INSIDE: "✓ sharp", Verdict.OUTSIDE: "✕ soft", Verdict.UNSURE: "? cannot tell"}
# Less than half the last figure shown is no slope (mm).
_UNSEEN = 0.0005
_LEGEND = "seen from the front · shaded: sharp · dashed: in focus"


def frame_map(view: DefocusMap) -> str:
    """The frame with its sharp band, the line in focus, and the four corners."""
    place = _placing(view)
    (left, top), (right, bottom) = place(*view.frame.corners[0]), place(*view.frame.corners[2])
    outline = [place(*corner) for corner in view.frame.corners]
    parts = [
        _polygon([place(*point) for point in sharp_part(view)], "band"),
        *_focus_line(view, place),
        _polygon(outline, "frame"),
        *(part for corner in view.corners for part in _corner(corner, place)),
        svg.text((_WIDTH / 2, 14), _LEGEND, kind="quiet"),
        _label(view, ((left + right) / 2, (top + bottom) / 2)),
    ]
    words = "; ".join(f"{c.name} {signed(c.error.value)} {_SIGNS[c.verdict]}" for c in view.corners)
    return svg.picture((_WIDTH, bottom + 46), f"The frame seen from the front: {words}", parts)


def signed(mm: float) -> str:
    """A figure with its sign, plus for too far out."""
    if abs(mm) < _UNSEEN:
        return "0.000 mm"
    return f"{mm:+.3f} mm".replace("-", "−")


def sharp_part(view: DefocusMap) -> list[svg.Point]:
    """The corners, in mm, of the part of the frame inside the depth of focus."""
    error = _error(view)
    near = _clipped(list(view.frame.corners), lambda x, y: view.depth - error(x, y))
    return _clipped(near, lambda x, y: view.depth + error(x, y))


def _error(view: DefocusMap) -> Callable[[float, float], float]:
    """The focus error at any place: the corners lie on one plane."""
    top_left, top_right, bottom_right, _ = (corner.error.value for corner in view.corners)
    across = (top_right - top_left) / view.frame.width
    up = (top_right - bottom_right) / view.frame.height
    return lambda x, y: view.middle.value + across * x + up * y


def _clipped(polygon: list[svg.Point], inside: Callable[[float, float], float]) -> list[svg.Point]:
    """What is left of a polygon where a function, straight across it, is not below 0."""
    kept: list[svg.Point] = []
    for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        here, there = inside(x0, y0), inside(x1, y1)
        if here >= 0:
            kept.append((x0, y0))
        if here * there < 0:
            part = here / (here - there)
            kept.append((x0 + part * (x1 - x0), y0 + part * (y1 - y0)))
    return kept


def _placing(view: DefocusMap) -> Callable[[float, float], svg.Point]:
    """From mm on the frame to the drawing."""
    scale = min(_BOX[0] / view.frame.width, _BOX[1] / view.frame.height)
    middle = (_WIDTH / 2, _TOP + scale * view.frame.height / 2)
    return lambda x, y: (middle[0] + scale * x, middle[1] - scale * y)


def _focus_line(view: DefocusMap, place: Callable[[float, float], svg.Point]) -> Iterator[str]:
    """The line along which the picture is in focus; none where that is everywhere or nowhere."""
    error = _error(view)
    if view.drop < _UNSEEN:
        return
    half = _clipped(list(view.frame.corners), error)
    ends = [point for point in half if abs(error(*point)) < 1e-9]
    if len(ends) == 2:
        yield svg.line(place(*ends[0]), place(*ends[1]), "zero")


def _corner(corner: Corner, place: Callable[[float, float], svg.Point]) -> Iterator[str]:
    """A corner's figure, its sense in words, and whether it is sharp."""
    x, y = place(corner.x, corner.y)
    first = y - 24 if corner.y > 0 else y + 18
    sense = Sense.of(corner.error.value)
    words = "right" if sense is Sense.RIGHT else sense.words
    yield svg.text(
        (x, first), f"{signed(corner.error.value)} {_SIGNS[corner.verdict][0]}", kind="strong"
    )
    yield svg.text((x, first + 16), words, kind="quiet")
    yield svg.tag("circle", cx=round(x, 2), cy=round(y, 2), r=3, class_="error filled")


def _label(view: DefocusMap, middle: svg.Point) -> str:
    sharp = sharp_part(view)
    if len(sharp) < 3:
        return svg.text(middle, "nothing is sharp", kind="strong")
    if view.is_sharp:
        return svg.text(middle, "sharp all over")
    return ""


def _polygon(points: list[svg.Point], kind: str) -> str:
    return svg.tag("polygon", points=" ".join(f"{x:.1f},{y:.1f}" for x, y in points), class_=kind)
