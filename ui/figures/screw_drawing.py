"""An adjuster as one looks at its head: how far and which way round to turn it."""

import math

from optics.moves.screws import by_turns
from ui.figures import svg

_WIDTH, _HEIGHT = 150.0, 96.0
_CENTRE = (75.0, 46.0)
_RADIUS = 18.0
# A turn is drawn at its true angle between what can be seen and what stays an arc.
_LEAST_SWING, _MOST_SWING = math.radians(20), math.radians(330)


def screw_view(name: str, turns: float) -> str:
    """The head of an adjuster with the turn asked for (whole turns, plus clockwise)."""
    screw = by_turns(name)
    swing = min(max(abs(turns) * math.tau, _LEAST_SWING), _MOST_SWING)
    x, y = _CENTRE
    return svg.picture(
        (_WIDTH, _HEIGHT),
        f"{screw.before(turns).capitalize()}, as you look at its head",
        [
            svg.text((x, 11), name, kind="quiet"),
            svg.tag("circle", cx=x, cy=y, r=_RADIUS, class_="glass"),
            svg.line((x, y - _RADIUS + 4), (x, y + _RADIUS - 4), "film"),
            svg.turn_arrow(_CENTRE, _RADIUS + 8, math.copysign(swing, turns)),
            svg.text((x, _HEIGHT - 5), screw.said(turns), kind="strong"),
        ],
    )
