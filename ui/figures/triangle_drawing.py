"""The rangefinder's triangle: true angles, and far and near with what is wrong exaggerated."""

import math
from functools import partial

from optics.rangefinder.set_up import CoupledCamera, SetUp, excess
from optics.rangefinder.set_up_wording import said_excess
from optics.units import format_angle, format_distance
from ui.figures import svg

_WIDTH, _HEIGHT = 210.0, 142.0
_LEFT, _RIGHT = 20.0, 188.0
_UPPER, _LOWER = 40.0, 96.0
_CAPTION, _TITLE = 138.0, 12.0
# A wrong angle is drawn at least and at most so large, and this many arcminutes as the most.
_LEAST, _MOST, _FULL = math.radians(3), math.radians(10), math.radians(8 / 60)
_NOTHING = math.radians(0.02 / 60)


def true_view(bench: CoupledCamera, film_distance: float) -> str:
    """Base and subject to one scale: how slender the triangle really is."""
    rangefinder = bench.rangefinder
    from_base = film_distance - rangefinder.base_to_film
    per_mm = (_RIGHT - _LEFT) / from_base
    middle = (_UPPER + _LOWER) / 2
    half = min(rangefinder.base * per_mm / 2, (_LOWER - _UPPER) / 2)
    upper, lower, subject = (
        (_LEFT, middle - half),
        (_LEFT, middle + half),
        (_RIGHT, middle - half),
    )
    angle = format_angle(rangefinder.convergence(film_distance))
    at = format_distance(film_distance)
    return svg.picture(
        (_WIDTH, _HEIGHT),
        f"True angles: a base of {rangefinder.base:.4g} mm sees {at} under {angle}",
        [
            svg.text((_LEFT - 14, _TITLE), "true angles", "start", "quiet"),
            svg.line(upper, lower, "film"),
            svg.line(upper, subject, "ray"),
            svg.line(lower, subject, "ray"),
            _spot(subject),
            svg.text((_LEFT, _LOWER + 18), f"base {rangefinder.base:.4g} mm", "start", "quiet"),
            svg.text((_RIGHT + 14, _LOWER + 18), f"{at}", "end", "quiet"),
            svg.text((_WIDTH / 2, _CAPTION), f"{angle} between the sights", kind="strong"),
        ],
    )


def wrong_view(found: SetUp, film_distance: float) -> str:
    """The sights with the lens right for a target: dashed where they should point."""
    off = excess(found.bench, found.now.coupling, film_distance)
    at, words = format_distance(film_distance), said_excess(off)
    is_far = math.isinf(film_distance)
    reach = _RIGHT - _LEFT
    rise = 0.0 if is_far else math.atan2(_LOWER - _UPPER, reach)
    lower = (_LEFT, _LOWER)
    ray = partial(_ray, lower, reach)
    parts = [
        # Two lines: as one they run out of the picture in a wide letter.
        svg.text((_LEFT - 14, _TITLE), f"lens set for {at},", "start", "quiet"),
        svg.text((_LEFT - 14, _TITLE + 14), "angles exaggerated", "start", "quiet"),
        svg.line((_LEFT, _UPPER), lower, "film"),
        svg.line((_LEFT, _UPPER), (_RIGHT, _UPPER), "ray"),
        svg.line(lower, ray(rise), "ghost"),
        "" if is_far else _spot((_RIGHT, _UPPER)),
        *_pointing(ray, rise, off),
        svg.text((_WIDTH / 2, _CAPTION), words, kind="strong"),
    ]
    return svg.picture((_WIDTH, _HEIGHT), f"Lens set for {at}, sights drawn wider: {words}", parts)


def _pointing(ray: "partial[svg.Point]", rise: float, off: float) -> list[str]:
    """Where the moving sight really points, its error drawn large."""
    if abs(off) < _NOTHING:
        return [svg.arrow(ray(rise, 0.0), ray(rise, 0.92), "error")]
    drawn = _LEAST + (_MOST - _LEAST) * min(abs(off) / _FULL, 1.0)
    angle = rise + math.copysign(drawn, off)
    return [svg.arrow(ray(angle, 0.0), ray(angle, 0.92), "error")]


def _ray(start: svg.Point, reach: float, angle: float, share: float = 1.0) -> svg.Point:
    """The end of a line of sight that rises by an angle; y runs down the page."""
    length = share * reach
    return start[0] + length * math.cos(angle), start[1] - length * math.sin(angle)


def _spot(at: svg.Point) -> str:
    return svg.tag("circle", cx=f"{at[0]:.1f}", cy=f"{at[1]:.1f}", r=3.5, class_="filled")
