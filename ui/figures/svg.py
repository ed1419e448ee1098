"""A few SVG strokes in the page's own colours; text in them is real text."""

from collections.abc import Sequence
from html import escape

Point = tuple[float, float]


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


def picture(size: tuple[float, float], title: str, parts: Sequence[str]) -> str:
    """A whole drawing, scaled to its column; the title is what a screen reader says."""
    width, height = size
    return tag(
        "svg",
        tag("title", escape(title)) + "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_n(width)} {_n(height)}",
        role="img",
        aria_label=title,
        class_="drawing",
    )


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
