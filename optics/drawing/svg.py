"""A sheet's page as SVG, in mm: the same marks as on paper, the letters as outlines."""

from collections.abc import Sequence
from html import escape

from optics.drawing.drawing import Box, Ink, Mark, Outline, Pen, Point, StraightLine, Words
from optics.drawing.lettering import MM_PER_POINT, text_width
from optics.drawing.outlines import letter_path


def as_svg(marks: Sequence[Mark], size: Point, title: str) -> str:
    """One page as a document for the screen, with white paper under it."""
    # Letters are drawn once and used by name; thousands of figures would else swell the page.
    letters: dict[str, str] = {}
    drawn = [_drawn(mark, letters) for mark in marks]
    known = "".join(f'<path id="{name}" d="{path}"/>' for name, path in letters.items())
    width, height = map(_mm, size)
    said = escape("".join(c if c.isprintable() else "�" for c in title))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
        f'width="{width}mm" height="{height}mm" role="img"><title>{said}</title>'
        f'<defs>{known}</defs><rect width="{width}" height="{height}" fill="#fff"/>'
        f"{''.join(drawn)}</svg>"
    )


def _drawn(mark: Mark, letters: dict[str, str]) -> str:
    if isinstance(mark, StraightLine):
        return f'<path d="M{_at(mark.start)}L{_at(mark.end)}" {_pen(mark.pen)}/>'
    if isinstance(mark, Words):
        return _words(mark, letters)
    if isinstance(mark, Box):
        x, y = map(_mm, mark.corner)
        sides = f'width="{_mm(mark.width)}" height="{_mm(mark.height)}"'
        return f'<rect x="{x}" y="{y}" {sides} {_pen(mark.pen, mark.fill)}/>'
    return _outline(mark)


def _outline(outline: Outline) -> str:
    steps = (
        f"{'L' if len(step) == 1 else 'C'}{' '.join(map(_at, step))}" for step in outline.steps
    )
    end = "Z" if outline.closed else ""
    return (
        f'<path d="M{_at(outline.start)}{"".join(steps)}{end}" {_pen(outline.pen, outline.fill)}/>'
    )


def _words(words: Words, letters: dict[str, str]) -> str:
    """Letters side by side, each drawn once in the page and used where it stands."""
    size = words.size * MM_PER_POINT
    turns = "scale(-1 1)" if words.mirrored else ""
    turns += f"rotate({-words.turned:g})" if words.turned else ""
    x, used = -words.back, []
    for character in words.text:
        # Named by what it is, so that several pages may stand in one document.
        name = f"letter-{ord(character):x}{'-bold' if words.bold else ''}"
        letters.setdefault(name, letter_path(character, words.bold))
        used.append(f'<use href="#{name}" x="{_mm(x / size)}"/>')
        x += text_width(character, words.size, words.bold)
    return (
        f'<g fill="{_colour(words.ink)}" transform="translate({_at(words.at)}){turns}'
        f'scale({size:.5g})">{"".join(used)}</g>'
    )


def _pen(pen: Pen, fill: Ink | None = None) -> str:
    said = f'fill="{_colour(fill)}"'
    if pen.ink is None:
        return said
    said += f' stroke="{_colour(pen.ink)}" stroke-width="{_mm(pen.width)}"'
    return said + (f' stroke-dasharray="{" ".join(map(_mm, pen.dash))}"' if pen.dash else "")


def _colour(ink: Ink | None) -> str:
    return "none" if ink is None else "#" + "".join(f"{round(255 * part):02x}" for part in ink)


def _at(point: Point) -> str:
    return f"{_mm(point[0])} {_mm(point[1])}"


def _mm(value: float) -> str:
    """To a tenth of a micrometre, which no screen shows."""
    return f"{value:.4f}".rstrip("0").rstrip(".") or "0"
