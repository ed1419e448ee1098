"""Marks over marks, read back in millimetres."""

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from optics.camera.camera import Bed, Camera, Helicoid, Turn
from optics.drawing.page import MARGIN
from optics.drawing.ruler import LABEL
from optics.errors import NoAnswer
from optics.scales.engraving import ScaleUnit
from optics.scales.ring_marks import measure_scale
from optics.scales.scale_check import check_scale
from optics.scales.scale_layout import Towards
from optics.scales.scale_wording import scale_headline
from optics.sheets.scale_overlay import (
    OverlayMark,
    check_overlay,
    overlay_marks,
    scale_overlay,
)
from tests.optics.scales.rings import OSTRIN
from tests.optics.sheets.true_size import ENGRAVER, HOSTILE, MARK, MM, SIGNED, place_of, uprights

Read = Callable[[bytes], Any]
DEGREE = math.pi / 180
# Where halved intervals put the marks, and errors given to them, in degrees.
OFF = {math.inf: 0.0, 10e3: 0.3, 5e3: -0.2, 3e3: 0.1, 2e3: 3.1, 1.5e3: 0.0, 1e3: -0.4}
MARKS = tuple(
    OverlayMark(d, ENGRAVER.angle(d), ENGRAVER.angle(d) + off * DEGREE, is_wrong=off > 1)
    for d, off in OFF.items()
)


def rows_of(back: Any, label: str = "True size") -> tuple[list[float], list[float]]:
    """The ticks above and below the line of a drawing with a name, from left to right."""
    under = place_of(back, label)[1]
    lines = [t for t in uprights_with_tops(back) if under < t[1] < under + 16]
    line = max(top for _, top, _ in lines)
    upper = sorted(x for x, top, _ in lines if top < line - 1)
    return upper, sorted(x for x, top, _ in lines if top >= line - 1)


def uprights_with_tops(back: Any) -> list[tuple[float, float, float]]:
    """Upright mark lines with their tops and feet."""
    return [
        (x, top, foot)
        for line in back.pages[0].lines
        if abs(line["linewidth"] * MM - MARK) < 0.005
        for x, top, foot in [(line["x0"] * MM, line["top"] * MM, line["bottom"] * MM)]
    ]


@pytest.mark.parametrize(("tops", "way"), [(Towards.FRONT, -1), (Towards.FILM, 1)])
def test_both_rows_stand_at_their_arcs(tops: Towards, way: int, read_back: Read) -> None:
    """On a ring of 52 mm marks stand 26 mm times their angle apart, above and below the line."""
    back = read_back(scale_overlay(OSTRIN, MARKS, SIGNED, tops=tops).pdf())
    upper, lower = rows_of(back)
    infinity = upper[-1] if way < 0 else upper[0]
    computed = sorted(infinity + way * 26 * mark.computed for mark in MARKS)
    measured = sorted(infinity + way * 26 * mark.measured for mark in MARKS)
    assert upper == pytest.approx(computed, abs=0.02)
    assert lower == pytest.approx(measured, abs=0.02)


def test_the_enlarged_rows_are_the_same_but_larger(read_back: Read) -> None:
    """The second drawing is the first one so many times larger, and says not to measure it."""
    back = read_back(scale_overlay(OSTRIN, MARKS, SIGNED).pdf())
    assert "Enlarged 5 times, not to be measured" in back.text
    for true, large in zip(rows_of(back), rows_of(back, "Enlarged"), strict=True):
        spans = [(row[i] - row[0], row[-1] - row[0]) for row in (true, large) for i in (2,)]
        assert spans[1] == pytest.approx([5 * s for s in spans[0]], abs=0.05)


def test_a_wrong_mark_is_flagged_by_shape_and_word(read_back: Read) -> None:
    """Only the wrong mark has a diamond and the word, in both drawings and in the table."""
    back = read_back(scale_overlay(OSTRIN, MARKS, SIGNED).pdf())
    diamonds = [c for c in back.pages[0].curves if abs(c["width"] * MM - 1.6) < 0.02]
    assert len(diamonds) == 3
    assert back.text.split().count("wrong") == 3
    _, lower = rows_of(back)
    highest = min(diamonds, key=lambda one: one["top"])
    middle = (highest["x0"] + highest["x1"]) / 2 * MM
    infinity = max(rows_of(back)[0])
    assert middle == pytest.approx(infinity - 26 * MARKS[4].measured, abs=0.02)
    assert any(abs(middle - at) < 0.02 for at in lower)
    sound = read_back(scale_overlay(OSTRIN, MARKS[:4], SIGNED).pdf())
    assert "wrong" not in sound.text.split()
    assert not [c for c in sound.pages[0].curves if abs(c["width"] * MM - 1.6) < 0.02]


def test_the_table_gives_degrees_and_arcs(read_back: Read) -> None:
    """Every difference is given in degrees, in mm along the edge, and by the end it is towards."""
    text = read_back(scale_overlay(OSTRIN, MARKS, SIGNED).pdf()).text
    # 3.1 degrees on 52 mm: 3.1/360 of 163.363 mm; -0.4 degrees: 0.18 mm.
    angle = ENGRAVER.angle(2e3) / DEGREE
    assert f"2 m {angle:.2f}° {angle + 3.1:.2f}° 3.10° 1.41 mm near end wrong" in text
    assert "0.40° 0.18 mm far end agrees" in text
    feet = read_back(scale_overlay(OSTRIN, MARKS, SIGNED, unit=ScaleUnit.FEET).pdf()).text
    assert "6.5617 ft" in feet


def test_a_scale_check_is_laid_over_itself(read_back: Read) -> None:
    """From a scale check come its marks, its verdicts and its headline."""
    readings = [[mark.measured] for mark in MARKS]
    check = check_scale(OSTRIN, measure_scale(list(OFF), readings, 0.5 * DEGREE))
    back = read_back(check_overlay(check, SIGNED).pdf())
    assert scale_headline(check) in back.text
    upper, lower = rows_of(back)
    infinity = max(upper)
    assert sorted(infinity - 26 * mark.measured for mark in MARKS) == pytest.approx(lower, abs=0.02)
    assert back.text.split().count("wrong") >= 3
    wrong = [mark.distance for mark in overlay_marks(check.as_it_stands) if mark.is_wrong]
    assert wrong == [2e3]
    bare = check_scale(OSTRIN, measure_scale([math.inf, 1e3], [[0.0], [0.9]], DEGREE))
    assert bare.fit is not None
    assert {mark.words for mark in overlay_marks(bare.fit)} == {"cannot be tested"}


def test_a_long_scale_comes_in_parts(page_size: str, read_back: Read) -> None:
    """Marks farther apart than the page is wide are drawn in parts that join."""
    wide = Camera("Wide", OSTRIN.lens, Helicoid(3.0, 6, Turn.CLOCKWISE, 90.0), 0.03)
    marks = [replace(m, computed=5 * m.computed, measured=5 * m.measured) for m in MARKS]
    signed = replace(SIGNED, page_size=page_size)
    back = read_back(scale_overlay(wide, marks, signed).pdf())
    assert "part 1 of 2" in back.text
    assert "Enlarged" not in back.text
    crosses = uprights(back, 0.1, lambda top, foot: 3.1 < foot - top < 3.3)
    assert len(crosses) == 8
    first, second = sorted({round(x, 2) for x in crosses})[-2:]
    assert second - first == pytest.approx(8.0, abs=0.02)


@pytest.mark.parametrize("typed", HOSTILE)
def test_any_words_may_stand_on_it(typed: str, page_size: str, read_back: Read) -> None:
    """Whatever names and sentences go with it, it keeps to its page and can be checked."""
    signed = replace(SIGNED, title=typed, made_by=typed, page_size=page_size)
    camera = replace(OSTRIN, name=typed)
    back = read_back(scale_overlay(camera, MARKS, signed, says=(typed[:200],)).pdf())
    left, _, right, bottom = back.extent()
    assert left >= MARGIN - 0.3
    assert right <= float(back.pages[0].width) * MM - MARGIN + 0.3
    assert bottom <= float(back.pages[0].height) * MM - MARGIN + 0.3
    assert back.text.count(LABEL) == 2
    assert all(back.font_files().values())


def test_too_many_marks_for_the_table_are_counted(read_back: Read) -> None:
    """A table that would run into the ruler ends with how many marks it leaves out."""
    marks = [
        OverlayMark(1e3 + 100 * n, ENGRAVER.angle(1e3 + 100 * n), ENGRAVER.angle(1e3 + 100 * n))
        for n in range(60)
    ]
    back = read_back(scale_overlay(OSTRIN, marks, SIGNED).pdf())
    assert "more marks are on the strip only" in back.text
    assert back.extent()[3] <= 297 - MARGIN + 0.3


@pytest.mark.parametrize(
    ("camera", "marks", "words"),
    [
        (replace(OSTRIN, focusing=Bed()), MARKS, "got a bed"),
        (replace(OSTRIN, focusing=Helicoid(18.0, 6, Turn.CLOCKWISE)), MARKS, "ring's diameter"),
        (OSTRIN, (), "at least one mark must be known"),
    ],
)
def test_what_cannot_be_overlaid_is_refused(
    camera: Camera, marks: tuple[OverlayMark, ...], words: str
) -> None:
    """Without a thread, a diameter or a mark there is nothing to draw at true size."""
    with pytest.raises(NoAnswer, match=words):
        scale_overlay(camera, marks, SIGNED)
