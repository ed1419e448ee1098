"""What the focus error looks like: lens, film and where the rays meet, and which way to turn.

The side view is exaggerated and says so; the ring is seen from the front and its turn is
drawn at its true angle unless that is too small, or too near a whole turn, to be told.
"""

import math

from optics.readings import wording
from optics.readings.correction import Correction
from optics.readings.readings import Sense
from optics.readings.remedies import Remedy
from ui.figures import svg

_WIDTH, _HEIGHT = 430.0, 166.0
_AXIS = 82.0
_FILM = 372.0
_LENS = 150.0
_SHIFT = 34.0
_BELOW_FILM = 158.0
_HALF = 48.0

# A turn smaller than this is drawn as large as this: its sense must be seen at a glance.
_LEAST_SWING = math.radians(40)
_MOST_SWING = math.radians(300)


def side_view(correction: Correction) -> str:
    """Film, lens as it should stand (dashed) and as it stands, and the rays between."""
    sense = correction.sense
    off = -_SHIFT * sense.value
    lens, focus = _LENS + off, _FILM + off
    parts = [
        svg.line((12, _AXIS), (_WIDTH - 12, _AXIS), "axis"),
        *_rays(lens, focus),
        _film(),
        _glass(_LENS, "ghost") if sense is not Sense.RIGHT else "",
        _glass(lens, "glass"),
        *_error_arrow(correction, lens),
        *_blur(sense, lens, focus),
        svg.text((4, 13), "← subject", "start", "quiet"),
        svg.text((280, 13), "not to scale", kind="quiet"),
    ]
    return svg.picture((_WIDTH, _HEIGHT), wording.headline(correction), parts)


def _glass(x: float, kind: str) -> str:
    right = f"q13 {_HALF} 0 {2 * _HALF}"
    left = f"q-13 {-_HALF} 0 {-2 * _HALF}"
    return svg.path(f"M{x:.1f} {_AXIS - _HALF} {right} {left}z", kind)


def _film() -> str:
    top, bottom = _AXIS - 62, _AXIS + 58
    return svg.line((_FILM, top), (_FILM, bottom), "film") + svg.text((_FILM, top - 7), "film")


def _rays(lens: float, focus: float) -> list[str]:
    """Two rays from infinity through the lens's rim, drawn on beyond the film."""
    rays = []
    for side in (-1, 1):
        rim = _AXIS + side * (_HALF - 6)
        slope = (_AXIS - rim) / (focus - lens)
        end = min(_WIDTH - 14, _FILM + 44)
        rays.append(svg.line((12, rim), (lens, rim), "ray"))
        rays.append(svg.line((lens, rim), (end, rim + slope * (end - lens)), "ray"))
    return rays


def _error_arrow(correction: Correction, lens: float) -> list[str]:
    """The lens's error as an arrow from where it should stand, with its size in words."""
    below = _AXIS + _HALF + 11
    words = wording.said_error(correction.error)
    if correction.sense is Sense.RIGHT:
        return [svg.text((_LENS, below + 18), "the lens stands right", kind="strong")]
    middle = (_LENS + lens) / 2
    return [
        svg.line((_LENS, _AXIS + _HALF), (_LENS, below + 4), "tick"),
        svg.line((lens, _AXIS + _HALF), (lens, below + 4), "tick"),
        svg.arrow((_LENS, below), (lens, below), "error"),
        svg.text((middle, below + 18), words, kind="strong"),
        svg.text((_LENS, _AXIS - _HALF - 10), "should stand here", kind="quiet"),
    ]


def _blur(sense: Sense, lens: float, focus: float) -> list[str]:
    if sense is Sense.RIGHT:
        return [svg.text((_WIDTH - 4, _BELOW_FILM), "sharp on the film", "end", "quiet")]
    half = abs((_HALF - 6) * (_FILM - focus) / (focus - lens))
    where = "sharp in front of the film" if focus < _FILM else "would be sharp behind the film"
    return [
        svg.line((_FILM, _AXIS - half), (_FILM, _AXIS + half), "blur"),
        svg.tag("circle", cx=focus, cy=_AXIS, r=3, class_="error filled"),
        svg.text((_WIDTH - 4, _BELOW_FILM), where, "end", "quiet"),
    ]


def turn_view(remedy: Remedy) -> str:
    """The ring seen from the front with the turn asked for; empty for a remedy without one."""
    angle, arc = (remedy.figures.get(name) for name in ("rotation", "arc"))
    if not isinstance(angle, float):
        return ""
    return turn_drawing(
        angle, str(remedy.figures["sense"]), arc if isinstance(arc, float) else None
    )


def turn_drawing(angle: float, sense: str, arc: float | None) -> str:
    """The ring seen from the front, turned by an angle in rad one way; `arc` is mm at its edge."""
    swing = min(max(abs(angle), _LEAST_SWING), _MOST_SWING)
    words = f"{math.degrees(abs(angle)):.1f}° {sense}"
    centre, radius = (75.0, 70.0), 46.0
    x, y = centre
    parts = [
        svg.tag("circle", cx=x, cy=y, r=radius, class_="ring"),
        svg.tag("circle", cx=x, cy=y, r=radius * 0.78, class_="glass"),
        svg.line((x, y - radius - 16), (x, y - radius + 6), "film"),
        svg.turn_arrow(centre, radius + 10, swing if sense == "clockwise" else -swing),
        svg.text((x, y - 2), "seen from", kind="quiet"),
        svg.text((x, y + 13), "the front", kind="quiet"),
        svg.text((x, y + radius + 30), words, kind="strong"),
    ]
    if arc is not None:
        parts.append(svg.text((x, y + radius + 46), f"{arc:.1f} mm along its edge", kind="quiet"))
    return svg.picture((150, 166), f"Turn {words}, seen from the front", parts)
