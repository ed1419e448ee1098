"""A few SVG strokes in the page's own colours; text in them is real text."""

import math
from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from html import escape

from ui.theme import DAY, NIGHT, Palette

Point = tuple[float, float]

_STROKES = """
line, path, circle, polygon, rect {fill: none; stroke: var(--text); stroke-width: 1.3}
.axis {stroke: var(--line); stroke-dasharray: 8 3 2 3}
.film {stroke-width: 4}
.glass {fill: var(--field)}
.ghost, .ray {stroke: var(--quiet)}
.ghost {stroke-dasharray: 4 3}
.error {stroke: var(--accent); stroke-width: 2.4}
.filled {fill: var(--accent)}
.band {fill: var(--accent); fill-opacity: 0.18; stroke: none}
.zero {stroke-width: 2; stroke-dasharray: 7 4}
.blur {stroke: var(--refusal); stroke-width: 5}
text {font: 13px sans-serif; fill: var(--text)}
.strong {font-weight: 600}
.quiet {font-size: 12px; fill: var(--quiet)}
"""


def tag(name: str, body: str = "", **attributes: object) -> str:
    """One element; underscores in attribute names become hyphens."""
    listed = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(str(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{listed}>{body}</{name}>"


def line(start: Point, end: Point, kind: str) -> str:
    """A straight stroke of a CSS kind."""
    return tag("line", x1=_n(start[0]), y1=_n(start[1]), x2=_n(end[0]), y2=_n(end[1]), class_=kind)


def path(d: str, kind: str) -> str:
    """A free path of a CSS kind."""
    return tag("path", d=d, class_=kind)


def text(at: Point, words: str, anchor: str = "middle", kind: str = "label") -> str:
    """Words set at a point."""
    return tag("text", escape(words), x=_n(at[0]), y=_n(at[1]), text_anchor=anchor, class_=kind)


def arrow_head(tip: Point, direction: Point, kind: str, size: float = 7) -> str:
    """A filled triangle whose tip points along a unit direction."""
    (x, y), (dx, dy) = tip, direction
    base_x, base_y = x - size * dx, y - size * dy
    half = size * 0.45
    points = [
        (x, y),
        (base_x - half * dy, base_y + half * dx),
        (base_x + half * dy, base_y - half * dx),
    ]
    return tag("polygon", points=" ".join(f"{_n(a)},{_n(b)}" for a, b in points), class_=kind)


def arrow(start: Point, end: Point, kind: str) -> str:
    """A straight arrow."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    direction = (dx / length, dy / length)
    shaft = (end[0] - 5 * direction[0], end[1] - 5 * direction[1])
    return line(start, shaft, kind) + arrow_head(end, direction, f"{kind} filled")


def turn_arrow(centre: Point, radius: float, turn: float) -> str:
    """An arc from the top with its arrow head, by rad; plus is clockwise on the page."""

    def at(angle: float) -> Point:
        return centre[0] + radius * math.sin(angle), centre[1] - radius * math.cos(angle)

    (x0, y0), (x1, y1) = at(0), at(turn)
    large, sweep = int(abs(turn) > math.pi), int(turn > 0)
    sign = math.copysign(1, turn)
    direction = (sign * math.cos(turn), sign * math.sin(turn))
    stroke = f"M{x0:.1f} {y0:.1f} A{radius} {radius} 0 {large} {sweep} {x1:.1f} {y1:.1f}"
    return path(stroke, "error") + arrow_head((x1, y1), direction, "error filled")


def picture(size: tuple[float, float], title: str, parts: Sequence[str]) -> str:
    """A whole drawing as an image tag; the title is what a screen reader says.

    The page shows no inline SVG, but an image follows the light or dark scheme of the element
    it stands in, so the drawing carries both palettes.
    """
    width, height = size
    drawing = tag(
        "svg",
        tag("style", _ink()) + "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_n(width)} {_n(height)}",
        width=_n(width),
        height=_n(height),
    )
    data = b64encode(drawing.encode()).decode()
    return f'<img class="drawing" alt="{escape(title)}" src="data:image/svg+xml;base64,{data}">'


@cache
def _ink() -> str:
    """The strokes' style in both palettes."""
    night = f"@media (prefers-color-scheme: dark) {{svg {{{_colours(NIGHT)}}}}}"
    return f"svg {{{_colours(DAY)}}} {night} {_STROKES}"


def _colours(palette: Palette) -> str:
    return "".join(f"--{name}:{colour};" for name, colour in vars(palette).items())


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
