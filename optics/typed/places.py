"""Typed text that says where: places on a frame with what belongs to each, and sizes."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeAlias

from optics import units
from optics.errors import OutOfRange, Unreadable
from optics.measure.places import Point, place_name
from optics.typed.fields import Typed, named_pieces
from optics.units import Leaves, Understood

_LONGEST_TEXT = 2000
_WORDS = {"top": (0, 1), "bottom": (0, -1), "left": (-1, 0), "right": (1, 0)}
# Earlier job files, and some people, say the upper and lower corner.
_OLDER = {"upper": "top", "lower": "bottom"}
_MIDDLE = {"middle", "centre", "center"}
# A place is two figures, so that a comma may part them with a space: no decimal comma has one.
_BETWEEN = re.compile(r"\s*;\s*|\s*,\s+")
# Beyond a millimetre's millionth a place is not told apart from another.
_DIGITS = 6

Size: TypeAlias = tuple[Understood, Understood]


@dataclass(frozen=True)
class TypedPlace:
    """A place as typed: x and y in mm, or for a corner in halves of a size yet to be known."""

    text: str
    x: float
    y: float
    is_corner: bool

    def within(self, size: tuple[float, float]) -> Point:
        """The place in mm, seen from the front, with corners those of a size in mm."""
        if not self.is_corner:
            return self.x, self.y
        return self.x * size[0] / 2, self.y * size[1] / 2

    @property
    def echo(self) -> str:
        """As it was understood."""
        if self.is_corner:
            return place_name(self.x, self.y)
        x, y = (f"{round(v, _DIGITS):g}".replace("-", "−") for v in (self.x, self.y))
        return f"{x}, {y} mm"


Placed: TypeAlias = tuple[TypedPlace, Any]


def read_place(text: str, words: str = "place") -> TypedPlace:
    """Read ``x, y`` in mm from the middle, or a corner, side or the middle by name."""
    named = [_OLDER.get(word, word) for word in text.lower().split()]
    if len(named) == 1 and named[0] in _MIDDLE:
        return TypedPlace(text, 0.0, 0.0, True)
    if named and set(named) <= _WORDS.keys():
        x, y = (sum(_WORDS[word][axis] for word in named) for axis in (0, 1))
        if max(abs(x), abs(y)) == 1 and abs(x) + abs(y) == len(named):
            return TypedPlace(text, float(x), float(y), True)
    try:
        figures = units.with_unit_at_end(text, _BETWEEN.split(text.strip()), words, "−30, 25")
        across, up = (units.read_length(figure, words=words).value for figure in figures)
    except ValueError:
        raise Unreadable(
            f"The {words} “{text.strip()}” cannot be understood: write a corner such as top left, "
            "or how far right and up it is from the middle, in mm, with a comma and a space "
            "between, such as −30, 25.",
            quantity=words,
            value=text,
        ) from None
    return TypedPlace(text, across, up, False)


PLACE = Typed(
    "place on the picture",
    "mm",
    partial(read_place, words="place on the picture"),
    lambda place: str(place.echo),
    "top left or −30, 25",
)


def placed(
    what: Callable[[str], Any],
    echo: Callable[[Any], str],
    words: str,
    example: str,
) -> Typed:
    """Several places and what belongs to each, such as ``top left = 0.02; −30, 25 = 0.41``."""

    def read(text: str) -> tuple[Placed, ...]:
        return tuple(_one_placed(piece, what, words, example) for piece in named_pieces(text))

    def echo_all(found: tuple[Placed, ...]) -> str:
        said = (f"{place.echo}: {echo(it)}" for place, it in found)
        return f"{len(found)} place{'s' * (len(found) > 1)}: {'; '.join(said)}"

    return Typed(words, "mm", read, echo_all, example, _LONGEST_TEXT)


def _one_placed(piece: str, what: Callable[[str], Any], words: str, example: str) -> Placed:
    place, equals, rest = piece.partition("=")
    if not equals or not place.strip() or not rest.strip():
        raise Unreadable(
            f"The {words} “{piece.strip()}” cannot be understood: write each place with an equals "
            f"sign, such as {example}, and a semicolon between places.",
            quantity=words,
            value=piece,
        )
    return read_place(place, f"place of the {words}"), what(rest)


def size(words: str, example: str) -> Typed:
    """A width and a height, such as ``84 × 56``."""

    def read(text: str) -> Size:
        sides = re.split(r"\s*[x×*]\s*", text.strip(), flags=re.IGNORECASE)
        if len(sides) != 2 or not all(sides):
            raise Unreadable(
                f"The {words} “{text.strip()}” cannot be understood: write width and height, such "
                "as 84 × 56.",
                quantity=words,
                value=text,
            )
        sides = list(units.with_unit_at_end(text, sides, words, "84 × 56 or 84 × 56 mm"))
        figures = [units.read_length(side, words=words) for side in sides]
        for figure in figures:
            if figure.value <= 0:
                raise OutOfRange(
                    f"The {words} must be more than 0 mm each way: got {figure.echo}; check the "
                    "figures and their unit.",
                    quantity=words,
                    value=figure.value,
                    limit=0.0,
                )
        return figures[0], figures[1]

    return Typed(
        words, "mm", read, lambda found: f"{found[0].echo} wide, {found[1].echo} high", example
    )


def read_leaves_now(text: str) -> Leaves | None:
    """Leaves under one screw, such as ``0.2 + 0.05 × 2``; ``none``, or ``?`` for not known."""
    bare = text.strip().lower()
    if bare == "?":
        return None
    if bare == "none":
        return ()
    return units.read_leaves(text, words="shims under a screw", between=";+")


def echo_leaves(leaves: Leaves | None) -> str:
    """Leaves in words."""
    if leaves is None:
        return "not known"
    return units.format_leaves(tuple(leaves)).replace(";", " +") or "no shim"


def size_of(field: Typed, text: str) -> tuple[float, float]:
    """Width and height in mm."""
    across, up = field.read(text)
    return across.value, up.value


def points(found: tuple[Placed, ...], corners: tuple[float, float]) -> Iterator[Point]:
    """All places in mm."""
    return (place.within(corners) for place, _ in found)
