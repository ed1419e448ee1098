"""Reads a drawing back from the image that the page shows."""

from base64 import b64decode
from html.parser import HTMLParser
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"


class _Image(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.found: dict[str, str] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.found = {name: value or "" for name, value in attrs}


def image_of(html: str) -> dict[str, str]:
    """Return the attributes of the one image in the markup."""
    image = _Image()
    image.feed(html)
    assert image.tags == ["img"]
    return image.found


def strokes(html: str) -> ElementTree.Element:
    """Return the drawing's root; the markup must be well formed."""
    return ElementTree.fromstring(b64decode(image_of(html)["src"].split(",")[1]))


def of_kind(root: ElementTree.Element, tag: str, kind: str) -> list[ElementTree.Element]:
    """Return the elements of a tag that have all the words of a kind."""
    wanted = set(kind.split())
    return [e for e in root.iter(SVG + tag) if wanted <= set(e.get("class", "").split())]


def texts(root: ElementTree.Element) -> list[str]:
    """Return every piece of writing."""
    return [element.text or "" for element in root.iter(SVG + "text")]


def corners(polygon: ElementTree.Element) -> list[tuple[float, float]]:
    """Return the corners of a polygon; an arrow head's first is its tip."""
    pairs = (pair.split(",") for pair in polygon.get("points", "").split())
    return [(float(x), float(y)) for x, y in pairs]


def arc_of(path: ElementTree.Element) -> tuple[tuple[float, float], int, int, tuple[float, float]]:
    """Return an arc's start, its large and sweep flags, and its end."""
    move, arc = path.get("d", "").removeprefix("M").split(" A")
    x0, y0 = map(float, move.split())
    _, _, _, large, sweep, x1, y1 = arc.split()
    return (x0, y0), int(large), int(sweep), (float(x1), float(y1))
