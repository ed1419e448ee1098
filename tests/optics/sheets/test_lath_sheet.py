"""The infinity lath, read back in millimetres."""

import subprocess
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.drawing.page import MARGIN
from optics.errors import OutOfRange
from optics.rangefinder.lath import Lath
from optics.sheets.lath_sheet import lath_sheet

MM = 25.4 / 72
MADE = date(2026, 3, 6)
OSTRIN = Camera("Ostrin 35", Lens(47.0, 2.8, 0.6), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)


def drawn(base: float, **asked: Any) -> bytes:
    """The lath of a base for use 2 m away."""
    return lath_sheet(Lath(OSTRIN, base, 2000.0, 20.0, 0.7), title="", made=MADE, **asked).pdf()


def bars(back: Any, page: int) -> list[tuple[float, float, float, float]]:
    """The filled marks of a page in mm (left, top, right, bottom)."""
    shapes = [*back.pages[page].rects, *back.pages[page].curves]
    boxes = [tuple(s[k] * MM for k in ("x0", "top", "x1", "bottom")) for s in shapes]
    return [b for b in boxes if max(b[2] - b[0], b[3] - b[1]) > 50]  # type: ignore[misc]


@pytest.mark.parametrize("base", [6.0, 41.0, 150.0])
def test_marks_across_are_a_base_apart(
    read_back: Callable[[bytes], Any], page_size: str, base: float
) -> None:
    """Both marks are upright, alike and, middle to middle and edge to edge, one base apart."""
    left, right = sorted(bars(read_back(drawn(base, page_size=page_size)), 0))
    assert right[0] - left[0] == pytest.approx(base, abs=0.02)
    assert right[2] - left[2] == pytest.approx(base, abs=0.02)
    assert (left[1], left[3]) == pytest.approx((right[1], right[3]), abs=0.02)
    assert left[2] < right[0]


def test_a_longer_lath_lies_along_the_sheet(
    read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """A base wider than the paper but not longer lies along it, still one base apart."""
    back = read_back(drawn(185.0, page_size=page_size))
    upper, lower = sorted(bars(back, 0), key=lambda b: b[1])
    assert lower[1] - upper[1] == pytest.approx(185, abs=0.02)
    assert upper[0] == pytest.approx(lower[0], abs=0.02)
    assert "turn the sheet a quarter clockwise" in back.text


@pytest.mark.parametrize("base", [240.0, 300.0])
def test_the_longest_lath_joins_to_a_base(
    read_back: Callable[[bytes], Any], page_size: str, base: float
) -> None:
    """On two sheets the marks stand half a base to either side of the join, crosses alike."""
    back = read_back(drawn(base, page_size=page_size))
    assert len(back.pages) == 2
    halves, crosses = [], []
    for page in (0, 1):
        (bar,) = bars(back, page)
        # The join line is the only hairline longer than the mark that is not a ruler.
        (join,) = [x for x in back.lines(page) if x[0] == x[2] and 60 < x[3] - x[1] < 99]
        halves.append((bar[0] + bar[2]) / 2 - join[0])
        across = [x for x in back.lines(page) if abs((x[0] + x[2]) / 2 - join[0]) < 0.02]
        arms = [x for x in across if x[2] - x[0] == pytest.approx(8, abs=0.02)]
        crosses.append(sorted(arm[1] - bar[1] for arm in arms))
    assert halves == pytest.approx([-base / 2, base / 2], abs=0.02)
    assert len(crosses[0]) == 2
    assert crosses[0] == pytest.approx(crosses[1], abs=0.02)


def test_the_lath_says_how_true_it_is(read_back: Callable[[bytes], Any], page_size: str) -> None:
    """The tolerance on the spacing, what an error leaves and how to stand it are printed on it."""
    text = read_back(drawn(41.0, page_size=page_size)).text
    for said in (
        "41.000 mm ± 0.389 mm",
        "Too narrow by 0.389 mm",
        "too far in at every distance",
        "Too wide by 0.389 mm",
        "too far out at every distance",
        "square to the line of sight within",
        "measure the marks, middle to middle",
        "100 mm: measure before you trust this sheet",
    ):
        assert said in text


def test_the_second_half_says_what_it_is(read_back: Callable[[bytes], Any]) -> None:
    """A half that is cut off and laid aside still names its lath and which half it is."""
    second = read_back(drawn(300.0)).pages[1]
    assert "Infinity lath · right half\nOstrin 35" in second.extract_text()


@pytest.mark.parametrize("base", [6.0, 41.0, 150.0, 200.0, 300.0])
def test_the_lath_stays_inside_the_margins(
    read_back: Callable[[bytes], Any], page_size: str, base: float
) -> None:
    """Every lath stays inside the margins, clear of its rulers, with both rulers on each sheet."""
    back = read_back(drawn(base, page_size=page_size))
    for number, page in enumerate(back.pages):
        left, top, right, bottom = back.extent(number)
        assert min(left, top) >= MARGIN - 1.5
        assert right <= float(page.width) * MM - MARGIN + 1.5
        assert bottom <= float(page.height) * MM - MARGIN + 1.5
        lines = back.lines(number)
        (across,) = [x for x in lines if x[2] - x[0] == pytest.approx(100, abs=0.02)]
        (up,) = [x for x in lines if x[3] - x[1] == pytest.approx(100, abs=0.02)]
        for bar in bars(back, number):
            assert bar[3] < up[1] or bar[0] > across[2] + 1


def test_a_printed_lath_is_a_base_wide(tmp_path: Path) -> None:
    """Drawn at 300 dots per inch by another program, 41 mm from edge to edge is 484 ± 1 dots."""
    (tmp_path / "lath.pdf").write_bytes(drawn(41.0))
    command = ["pdftoppm", "-r", "300", "-gray", "lath.pdf", "lath"]
    subprocess.run(command, cwd=tmp_path, check=True)
    data = next(tmp_path.glob("*.pgm")).read_bytes()
    width, height = map(int, data.split(maxsplit=4)[1:3])
    image = np.frombuffer(data[-width * height :], np.uint8).reshape(height, width)
    rows = [np.flatnonzero(np.diff((row < 128).astype(int)) == 1) for row in image]
    # Most rows in which it grows dark twice go through both marks, 56 mm high.
    apart = [int(r[1] - r[0]) for r in rows[: height // 2] if len(r) == 2]
    assert sum(one in (483, 484, 485) for one in apart) > 0.95 * 56 / 25.4 * 300


def test_a_base_too_long_for_two_sheets_is_refused() -> None:
    """A base that two sheets cannot hold is refused, with what to do."""
    with pytest.raises(OutOfRange, match="at most 300 mm: got 320 mm; make it from a straight"):
        drawn(320.0)


def test_the_same_lath_has_the_same_bytes() -> None:
    """The same lath and date give the same bytes."""
    assert drawn(41.0) == drawn(41.0)
