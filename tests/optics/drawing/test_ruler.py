"""The check ruler is 100 mm long, in the document and in print."""

import subprocess
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from optics.drawing.page import Sheet, paper_named
from optics.drawing.ruler import LABEL, check_rulers

X, Y = 40.0, 150.0
DPI = 300
# 100 mm at 300 dots to the inch of 25.4 mm.
PIXELS = 1181


@pytest.fixture(params=["A4", "Letter"])
def ruled(request: pytest.FixtureRequest) -> bytes:
    """A sheet with nothing but the rulers."""
    sheet = Sheet(paper_named(request.param), title="Rulers", made=date(2026, 3, 6))
    check_rulers(sheet, (X, Y))
    return sheet.pdf()


def test_both_rulers_are_a_hundred_millimetres(
    read_back: Callable[[bytes], Any], ruled: bytes
) -> None:
    """The ruler across and the ruler up are each 100 mm within 0.02 mm, from one corner."""
    lines = read_back(ruled).lines()
    assert any(line == pytest.approx((X, Y, X + 100, Y), abs=0.02) for line in lines)
    assert any(line == pytest.approx((X, Y - 100, X, Y), abs=0.02) for line in lines)


def test_every_millimetre_has_its_tick(read_back: Callable[[bytes], Any], ruled: bytes) -> None:
    """Each ruler has 101 ticks 1 mm apart, the fifth and tenth longer than their neighbours."""
    lines = read_back(ruled).lines()
    across = sorted((x0, y1 - y0) for x0, y0, x1, y1 in lines if x0 == x1 and y0 > Y - 0.05)
    up = sorted((Y - y0, x1 - x0) for x0, y0, x1, y1 in lines if y0 == y1 and x1 < X + 0.05)
    for start, ticks in ((X, across), (0.0, up)):
        places, lengths = zip(*ticks, strict=True)
        assert places == pytest.approx([start + mm for mm in range(101)], abs=0.02)
        assert min(lengths[::10]) > max(lengths[5::10]) > min(lengths[5::10]) - 0.01 > lengths[1]
        plain = {mm: length for mm, length in enumerate(lengths) if mm % 5}
        assert max(plain.values()) < min(lengths[5::10])


def test_the_ruler_says_what_it_is_for(read_back: Callable[[bytes], Any], ruled: bytes) -> None:
    """Both rulers ask to be measured first, and every centimetre bears its figure."""
    text = read_back(ruled).text
    assert text.count(LABEL) == 2
    assert all(text.split().count(str(mm)) >= 2 for mm in range(0, 101, 10))


def test_a_printed_ruler_is_a_hundred_millimetres(ruled: bytes, tmp_path: Path) -> None:
    """Drawn at 300 dots per inch by another program, each ruler spans 1181 ± 1 dots."""
    (tmp_path / "ruled.pdf").write_bytes(ruled)
    command = ["pdftoppm", "-r", str(DPI), "-gray", "ruled.pdf", "ruled"]
    subprocess.run(command, cwd=tmp_path, check=True)
    (found,) = tmp_path.glob("*.pgm")
    image = _grey(found.read_bytes())
    # Where only the ticks of whole centimetres reach: 2.6 mm from the line.
    row = image[round((Y + 2.6) / 25.4 * DPI)]
    column = image[:, round((X - 2.6) / 25.4 * DPI)]
    for dots, start in ((row, X), (column, Y - 100)):
        ticks = _ticks(dots[round((start - 2) / 25.4 * DPI) : round((start + 102) / 25.4 * DPI)])
        assert len(ticks) == 11
        assert ticks[-1] - ticks[0] == pytest.approx(PIXELS, abs=1)


def _grey(data: bytes) -> np.ndarray[Any, np.dtype[np.uint8]]:
    """A portable greymap's dots, row by row."""
    kind, width, height, most = data.split(maxsplit=4)[:4]
    assert (kind, most) == (b"P5", b"255")
    return np.frombuffer(data[-int(width) * int(height) :], np.uint8).reshape(int(height), -1)


def _ticks(dots: np.ndarray[Any, np.dtype[np.uint8]]) -> list[float]:
    """The middles of the dark runs, each weighed by its darkness."""
    dark = 255.0 - dots
    places = np.flatnonzero(dark > 20)
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    return [float(np.average(run, weights=dark[run])) for run in runs]
