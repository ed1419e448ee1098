"""The outlines of the embedded letters, read from the TrueType tables `glyf` and `loca`.

With them a drawing on the screen needs no font and looks exactly as it prints. Source:
OpenType specification, chapter glyf. Limits: composites are placed by offsets and scaled, not
by matching points, which the two faces never do.
"""

import struct
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Any, TypeAlias

from optics.drawing.lettering import font_of

Spot: TypeAlias = tuple[float, float, bool]
"""A point of a contour, and whether the curve passes through it."""
Contour: TypeAlias = list[Spot]

# Bits of a point's flag, then of a composite's, in the words of the specification's tables.
_ON, _X_SHORT, _Y_SHORT, _REPEAT, _X_SAME, _Y_SAME = 1, 2, 4, 8, 16, 32
_WORDS, _OFFSETS, _SCALE, _MORE, _TWO_SCALES, _MATRIX = 1, 2, 8, 32, 64, 128


@cache
def letter_path(character: str, is_bold: bool) -> str:
    """A letter as SVG path data: 1 is the type size, y down, its origin on the baseline."""
    face = font_of(is_bold).face
    contours = _contours(face, face.charToGlyph.get(ord(character), 0))
    unit = 1.0 / _units_per_em(face)
    return "".join(_drawn(contour, unit) for contour in contours)


@cache
def _units_per_em(face: Any) -> int:
    return int(struct.unpack(">H", face.get_table("head")[18:20])[0])


@cache
def _outlines_of(face: Any) -> bytes:
    return bytes(face.get_table("glyf"))


def _contours(face: Any, glyph: int) -> list[Contour]:
    # Where a letter begins and the next one does; a blank has no data between.
    start, end = face.glyphPos[glyph : glyph + 2]
    data = _outlines_of(face)[start:end]
    if not data:
        return []
    (count,) = struct.unpack(">h", data[:2])
    return _simple(data[10:], count) if count >= 0 else list(_composite(face, data[10:]))


def _simple(data: bytes, count: int) -> list[Contour]:
    ends = struct.unpack(f">{count}H", data[: 2 * count])
    # Instructions for coarse screens, which an outline of any size does without.
    (hints,) = struct.unpack(">H", data[2 * count : 2 * count + 2])
    at = 2 * count + 2 + hints
    flags, at = _flags(data, at, ends[-1] + 1)
    across, at = _places(data, at, flags, _X_SHORT, _X_SAME)
    up, _ = _places(data, at, flags, _Y_SHORT, _Y_SAME)
    spots = [(x, y, bool(f & _ON)) for x, y, f in zip(across, up, flags, strict=True)]
    begins = [0, *(end + 1 for end in ends)]
    return [spots[a:b] for a, b in pairwise(begins)]


def _flags(data: bytes, at: int, count: int) -> tuple[list[int], int]:
    flags: list[int] = []
    while len(flags) < count:
        flag = data[at]
        at += 1
        times = 1
        if flag & _REPEAT:
            times += data[at]
            at += 1
        flags += [flag] * times
    return flags, at


def _places(
    data: bytes, at: int, flags: list[int], short: int, same: int
) -> tuple[list[float], int]:
    """Coordinates, each stored as its step from the one before."""
    places, place = [], 0.0
    for flag in flags:
        if flag & short:
            place += data[at] if flag & same else -data[at]
            at += 1
        elif not flag & same:
            place += struct.unpack(">h", data[at : at + 2])[0]
            at += 2
        places.append(place)
    return places, at


def _composite(face: Any, data: bytes) -> Iterator[Contour]:
    at, flags = 0, _MORE
    while flags & _MORE:
        flags, glyph = struct.unpack(">HH", data[at : at + 4])
        at += 4
        dx, dy = struct.unpack(
            *(">hh", data[at : at + 4]) if flags & _WORDS else (">bb", data[at : at + 2])
        )
        at += 4 if flags & _WORDS else 2
        (a, b, c, d), at = _transform(data, at, flags)
        for contour in _contours(face, glyph):
            yield [(a * x + c * y + dx, b * x + d * y + dy, on) for x, y, on in contour]


def _transform(data: bytes, at: int, flags: int) -> tuple[tuple[float, ...], int]:
    """The matrix of a part, from numbers of 14 binary places."""
    count = 1 if flags & _SCALE else 2 if flags & _TWO_SCALES else 4 if flags & _MATRIX else 0
    numbers = [n / 2**14 for n in struct.unpack(f">{count}h", data[at : at + 2 * count])]
    full = {0: (1.0, 0.0, 0.0, 1.0), 4: tuple(numbers)}
    if count in (1, 2):
        full[count] = (numbers[0], 0.0, 0.0, numbers[-1])
    return full[count], at + 2 * count


def _drawn(contour: Contour, unit: float) -> str:
    """A contour of quadratic curves; between two handles lies a point halfway."""
    spots = _with_halfway_points(contour)
    # Fonts count upwards, SVG down.
    written = [f"{_short(x * unit)} {_short(-y * unit)}" for x, y, _ in spots]
    parts = [f"M{written[0]}"]
    at = 1
    while at < len(spots):
        if spots[at][2]:
            parts.append(f"L{written[at]}")
            at += 1
            continue
        parts.append(f"Q{written[at]} {written[(at + 1) % len(spots)]}")
        at += 2
    return "".join(parts) + "Z"


def _with_halfway_points(contour: Contour) -> Contour:
    spots: Contour = []
    for here, there in zip(contour, [*contour[1:], contour[0]], strict=True):
        spots.append(here)
        if not here[2] and not there[2]:
            spots.append(((here[0] + there[0]) / 2, (here[1] + there[1]) / 2, True))
    # A path must begin on the curve, and a contour may begin at a handle.
    first = next(number for number, spot in enumerate(spots) if spot[2])
    return spots[first:] + spots[:first]


def _short(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".") or "0"
