"""Letters as outlines, against what the font itself says of them."""

import re
import struct

import pytest

from optics.drawing.lettering import font_of
from optics.drawing.outlines import letter_path

LETTERS = "0123456789.–∞½¾′″±φ ABCÅéäßñgjQ@%&�אЖ"


@pytest.mark.parametrize("is_bold", [False, True])
@pytest.mark.parametrize("letter", LETTERS)
def test_an_outline_fills_the_letter_s_box(letter: str, is_bold: bool) -> None:
    """The points a curve passes through reach just as far as the glyph's header says."""
    # OpenType specification, glyf: each glyph begins with its xMin, yMin, xMax, yMax.
    face = font_of(is_bold).face
    glyph = face.charToGlyph[ord(letter)]
    begin, end = face.glyphPos[glyph : glyph + 2]
    path = letter_path(letter, is_bold)
    if begin == end:
        assert path == ""
        return
    box = struct.unpack(">4h", face.get_table("glyf")[begin + 2 : begin + 10])
    x, y = zip(*passed(path), strict=True)
    units = 2048
    found = (min(x) * units, -max(y) * units, max(x) * units, -min(y) * units)
    assert found == pytest.approx(box, abs=1.5)


def passed(path: str) -> list[tuple[float, float]]:
    """The points that a path of lines and quadratic curves passes through."""
    points = []
    for command, numbers in re.findall(r"([MLQ])([^MLQZ]*)", path):
        values = [float(n) for n in numbers.split()]
        assert len(values) == (4 if command == "Q" else 2)
        points.append((values[-2], values[-1]))
    return points


def test_every_contour_is_closed() -> None:
    """Each contour begins with a move and ends closed: two in an 8 and an outer one."""
    assert letter_path("8", False).count("Z") == 3
    assert letter_path("8", False).count("M") == 3


def test_unknown_letters_have_the_fonts_own_blank() -> None:
    """A character the face lacks has the outline of its glyph number nought."""
    assert letter_path("富", False) == letter_path("\U0001f4f7", False) != ""
