"""The unrolled scale, read back in millimetres and in printed dots."""

import math
import subprocess
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from optics.camera.camera import Bed
from optics.camera.stops import Stops
from optics.drawing.page import MARGIN, PAPERS
from optics.drawing.ruler import LABEL
from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_layout import ScaleOn, Towards
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.scale_strip import StripBarrel, scale_strip
from optics.sheets.true_size import Artwork, Signature
from tests.optics.scales.rings import CORVANE, OSTRIN, Engraver
from tests.optics.sheets.true_size import (
    CLOCKWISE,
    DEPTH,
    ENGRAVER,
    HOSTILE,
    INDEX,
    INFINITY,
    MARK,
    SIGNED,
    lines_of,
    place_of,
    uprights,
)

METRES, FEET = ScaleUnit.METRES, ScaleUnit.FEET
ASKED = (10e3, 5e3, 3e3, 2e3, 1.5e3, 1.2e3, 1e3)
PLAN = ScalePlan(OSTRIN, (METRES,), {METRES: ASKED})
BARREL = StripBarrel(52.0, 0.1)
Read = Callable[[bytes], Any]


def belongs(diameter: float, asked: tuple[float, ...] = ASKED, camera: str = "") -> list[float]:
    """Arcs from ∞ of the distances asked for, by halving intervals, on a neutral diameter."""
    engraver = Engraver(51.0, 92.0, 9.0) if camera else ENGRAVER
    return [engraver.angle(distance) * diameter / 2 for distance in asked]


def ends_of(back: Any, page: int = 0) -> tuple[float, float]:
    """Where the scale's paper begins and where it must close: the lines that stick out 1.5 mm."""
    label = place_of(back, "Scale, upper edge", page)[1]
    found = uprights(back, 0.1, lambda top, foot: foot - top > 7 and label < top < label + 14, page)
    return found[0], found[-1]


def marks_of(back: Any, width: float = MARK, page: int = 0) -> list[float]:
    """Where the marks of a thickness stand."""
    return uprights(back, width, lambda top, foot: 1.5 < foot - top < 2, page)


@pytest.mark.parametrize(("diameter", "paper"), [(52, 0.1), (52, 0.25), (36, 0.0), (20, 0.08)])
def test_the_strip_goes_round_once(diameter: float, paper: float, read_back: Read) -> None:
    """From the cut end to the closing line it is π times barrel and paper, within 0.02 mm."""
    back = read_back(scale_strip(PLAN, StripBarrel(diameter, paper), SIGNED).pdf())
    begin, close = ends_of(back)
    assert close - begin == pytest.approx(math.pi * (diameter + paper), abs=0.02)
    assert (
        f"Once round is {math.pi * (diameter + paper):.2f} mm = π × ({diameter:g} + {paper:g})"
        in (back.text)
    )


@pytest.mark.parametrize(("camera", "way"), [(OSTRIN, -1), (CLOCKWISE, 1)])
@pytest.mark.parametrize("tops", Towards)
def test_every_mark_is_where_the_lens_is_sharp(
    camera: Any, way: int, tops: Towards, read_back: Read
) -> None:
    """Each mark stands within 0.02 mm of where halved intervals put it, on the right side of ∞."""
    # Extending counter-clockwise, nearer marks lie left of ∞ with the front of the lens up.
    way = way if tops is Towards.FRONT else -way
    plan = replace(PLAN, camera=camera)
    back = read_back(scale_strip(plan, replace(BARREL, tops=tops), SIGNED).pdf())
    (infinity,) = marks_of(back, INFINITY)
    expected = sorted(infinity + way * arc for arc in belongs(52.1))
    assert marks_of(back) == pytest.approx(expected, abs=0.02)
    side = "right" if way > 0 else "left"
    assert f"nearer marks lie to the {side} of ∞" in back.text
    begin, close = ends_of(back)
    # The gap between the nearest mark and ∞ lies evenly on either side of the closing line.
    outer = sorted([infinity, *expected])
    assert outer[0] - begin == pytest.approx(close - outer[-1], abs=0.02)


def test_a_fixed_scale_runs_the_other_way(read_back: Read) -> None:
    """On the fixed part, with the index turning, the same scale runs the other way."""
    found = []
    for scale_on in ScaleOn:
        back = read_back(scale_strip(replace(PLAN, scale_on=scale_on), BARREL, SIGNED).pdf())
        (infinity,) = marks_of(back, INFINITY)
        found.append(np.mean(marks_of(back)) - infinity)
    assert found[0] == pytest.approx(-found[1], abs=0.02)
    assert found[0] < 0


def test_every_figure_stands_over_its_mark(read_back: Read) -> None:
    """A figure's middle is its mark's place within a tenth of a millimetre."""
    back = read_back(scale_strip(PLAN, StripBarrel(54.0, 0.1), SIGNED).pdf())
    (infinity,) = marks_of(back, INFINITY)
    places = {
        figure: infinity - ENGRAVER.angle(1000 * float(figure)) * 54.1 / 2
        for figure in ("10", "5", "3", "2", "1.5", "1.2", "1")
    }
    under = place_of(back, "Scale, upper edge")[1]
    found = {
        text: (x0 + x1) / 2
        for text, x0, top, x1, _ in back.words()
        if text in places and under < top < under + 14
    }
    assert {"1", "1.5", "2", "3", "5"} <= set(found)
    for text, middle in found.items():
        assert middle == pytest.approx(places[text], abs=0.1), text


def test_feet_and_metres_are_two_rows(read_back: Read) -> None:
    """With both units each row has its own marks, the first unit's next to the index."""
    feet = tuple(304.8 * n for n in (30, 15, 10, 7, 5, 4, 3.5))
    plan = ScalePlan(OSTRIN, (FEET, METRES), {METRES: ASKED, FEET: feet})
    back = read_back(scale_strip(plan, BARREL, SIGNED).pdf())
    lines = [one for one in lines_of(back, MARK) if one[0][0] == one[1][0]]
    feet_row = max(max(y0, y1) for (_, y0), (_, y1) in lines)
    rows: dict[bool, list[float]] = {True: [], False: []}
    for (x, y0), (_, y1) in lines:
        rows[max(y0, y1) > feet_row - 0.1].append(x)
    infinity = marks_of(back, INFINITY)
    assert infinity[0] == pytest.approx(infinity[1], abs=0.001)
    for is_feet, asked in ((True, feet), (False, ASKED)):
        expected = sorted(infinity[0] - arc for arc in belongs(52.1, asked))
        assert sorted(rows[is_feet]) == pytest.approx(expected, abs=0.02)
    assert "3½" in back.text


def test_a_front_cell_has_its_own_marks(read_back: Read) -> None:
    """The strip of a front-cell lens has the marks of its front group's movement."""
    asked = (10e3, 5e3, 3e3, 2e3, 1.5e3)
    plan = ScalePlan(CORVANE, (METRES,), {METRES: asked})
    back = read_back(scale_strip(plan, StripBarrel(36.0, 0.12), SIGNED).pdf())
    (infinity,) = marks_of(back, INFINITY)
    expected = sorted(infinity - arc for arc in belongs(36.12, asked, "cell"))
    assert marks_of(back) == pytest.approx(expected, abs=0.02)


# Exact stops 2^(k/2) by hand; a turn of N·c/18 of the circumference.
@pytest.mark.parametrize(
    ("stops", "used"),
    [(Stops.EXACT, (4.0, 5.656854, 8.0, 16.0)), (Stops.MARKED, (4.0, 5.6, 8.0, 16.0))],
)
@pytest.mark.parametrize("index", Towards)
def test_depth_marks_stand_either_side_of_the_index(
    stops: Stops, used: tuple[float, ...], index: Towards, read_back: Read
) -> None:
    """Depth marks stand N·c/lead of the circumference from the index, on the part it is on."""
    plan = replace(PLAN, f_numbers=(4, 5.6, 8, 16), stops=stops)
    barrel = StripBarrel(52.0, 0.1, index_diameter=70.0, index=index)
    back = read_back(scale_strip(plan, barrel, SIGNED).pdf())
    (middle,) = uprights(back, INDEX, lambda top, foot: foot - top > 3)
    arcs = [n * 0.03 / 18 * math.pi * 70.1 for n in used]
    expected = sorted([middle - a for a in arcs] + [middle + a for a in arcs])
    assert marks_of(back, DEPTH) == pytest.approx(expected, abs=0.02)
    how = "exact f-numbers" if stops is Stops.EXACT else "f-numbers as engraved"
    assert f"circle of confusion of 0.03 mm and the {how}" in back.text


def test_no_depth_marks_leave_the_index(read_back: Read) -> None:
    """A plan without stops has the index alone, and says nothing of depth marks."""
    back = read_back(scale_strip(replace(PLAN, f_numbers=()), BARREL, SIGNED).pdf())
    assert marks_of(back, DEPTH) == []
    assert len(uprights(back, INDEX, lambda top, foot: foot - top > 3)) == 1
    assert "circle of confusion of" not in back.text


@pytest.mark.parametrize("diameter", [75.0, 110.0, 300.0])
def test_parts_join_true(diameter: float, page_size: str, read_back: Read) -> None:
    """Laid cross on cross the parts are as long as the whole, and marks on both fall together."""
    signed = replace(SIGNED, page_size=page_size)
    feet = tuple(304.8 * n for n in (50, 30, 20, 15, 12, 10, 9, 8, 7, 6, 5, 4.5, 4, 3.5, 3))
    plan = ScalePlan(OSTRIN, (FEET,), {FEET: feet})
    back = read_back(scale_strip(plan, StripBarrel(diameter, 0.1), signed).pdf())
    parts = parts_of(back)
    assert len(parts) > 1
    # Walk along: each part's crosses at its right are those at the next one's left.
    shift, found = 0.0, list(parts[0]["marks"])
    for before, after in pairwise(parts):
        right, left = before["crosses"][-2:], after["crosses"][:2]
        assert np.diff(right) == pytest.approx(np.diff(left), abs=0.02)
        assert right[1] - right[0] >= 6
        shift += right[0] - left[0]
        for at in (mark + shift for mark in after["marks"]):
            near = [known for known in found if abs(known - at) < 1]
            assert all(known == pytest.approx(at, abs=0.02) for known in near)
            found += [] if near else [at]
    begin, close = min(parts[0]["ends"]), max(parts[-1]["ends"]) + shift
    assert close - begin == pytest.approx(math.pi * (diameter + 0.1), abs=0.04)
    infinity = max(found)
    expected = sorted(infinity - arc for arc in [0.0, *belongs(diameter + 0.1, feet)])
    assert sorted(found) == pytest.approx(expected, abs=0.04)


def parts_of(back: Any) -> list[dict[str, list[float]]]:
    """Each part of the scale: its ends, its upper crosses and its marks, along the page."""
    return [
        part_under(back, found["bottom"] * 25.4 / 72, page)
        for page in range(len(back.pages))
        for found in back.pages[page].search("Scale, upper edge", regex=False)
    ]


def part_under(back: Any, label: float, page: int) -> dict[str, list[float]]:
    """What stands in the 20 mm under a part's name."""

    def is_here(top: float, foot: float) -> bool:
        return label < top < label + 13 and foot < label + 20

    def is_cross(top: float, foot: float) -> bool:
        return is_here(top, foot) and top < label + 4 and foot - top < 4

    def is_end(top: float, foot: float) -> bool:
        return is_here(top, foot) and foot - top > 7

    marks = [at for width in (MARK, INFINITY) for at in uprights(back, width, is_here, page)]
    return {
        "ends": uprights(back, 0.1, is_end, page),
        "crosses": uprights(back, 0.1, is_cross, page),
        "marks": sorted(marks),
    }


def test_crosses_stand_over_and_under_each_part(read_back: Read) -> None:
    """Each joint has four crosses on either part, two over the strip and two under it."""
    back = read_back(scale_strip(PLAN, StripBarrel(75.0, 0.1), SIGNED).pdf())
    arms = [one for one in lines_of(back, 0.1) if abs(one[1][0] - one[0][0] - 3.2) < 0.01]
    assert len(arms) == 8
    assert len({round(one[0][1], 2) for one in arms}) == 4
    assert back.text.replace("A. Ferrow", "").replace("A gap", "").split().count("A") == 8


def test_clean_artwork_is_marks_alone(read_back: Read) -> None:
    """Clean artwork has the same marks and neither cutting lines, flap nor closing line."""
    paper = read_back(scale_strip(PLAN, BARREL, SIGNED).pdf())
    clean = read_back(scale_strip(PLAN, BARREL, SIGNED, Artwork.CLEAN).pdf())
    for width in (MARK, DEPTH):
        there, here = (np.array(marks_of(one, width)) for one in (paper, clean))
        assert here - here[0] == pytest.approx(there - there[0], abs=0.02)
    words = clean.text.split()
    assert not {"cut", "glue", "closing"} & set(words)
    assert {"cut", "glue", "closing"} <= set(paper.text.split())
    assert len(clean.pages[0].rects) == 0
    assert max(marks_of(clean)) - min(marks_of(clean)) > 15


def test_mirrored_artwork_is_the_looking_glass_image(read_back: Read) -> None:
    """Mirrored, every mark lies as far on the other side, and every figure is turned over."""
    clean, mirrored = (
        read_back(scale_strip(PLAN, BARREL, SIGNED, artwork).pdf())
        for artwork in (Artwork.CLEAN, Artwork.MIRRORED)
    )
    for width in (MARK, INFINITY, DEPTH, INDEX):
        there, here = marks_of(clean, width), marks_of(mirrored, width)
        assert np.diff(here) == pytest.approx(np.diff(there)[::-1], abs=0.02)
    assert marks_of(clean, INFINITY)[0] > max(marks_of(clean))
    assert marks_of(mirrored, INFINITY)[0] < min(marks_of(mirrored))
    turned = [c for c in mirrored.pages[0].chars if c["matrix"][0] < 0]
    assert {c["text"] for c in turned} >= set("1235∞m")
    assert all(c["matrix"][0] > 0 for c in clean.pages[0].chars if c["upright"])


@pytest.mark.parametrize("artwork", Artwork)
def test_every_page_can_be_checked(artwork: Artwork, page_size: str, read_back: Read) -> None:
    """Every page has both rulers, says how far to trust it, who made it when, and its rules."""
    signed = replace(SIGNED, page_size=page_size)
    back = read_back(scale_strip(PLAN, StripBarrel(300.0, 0.1), signed, artwork).pdf())
    paper = PAPERS[page_size]
    for number, page in enumerate(back.reader.pages):
        text = " ".join(page.extract_text().split())
        assert text.count(LABEL) == 2
        assert (
            "If both rulers measure 100.0 mm ± 0.2 mm, every length on this sheet is true" in text
        )
        assert "1.89 mm in its longest, 942.8 mm" in text
        assert "Made 2026-03-06 by A. Ferrow" in text
        assert "Distances are from the film plane" in text
        left, top, right, bottom = back.extent(number)
        assert left >= MARGIN - 0.3
        assert top >= MARGIN - 0.3
        assert right <= paper.width - MARGIN + 0.3
        assert bottom <= paper.height - MARGIN + 0.3
        horizontals = [e for e in lines_of(back, 0.15, number) if e[0][1] == e[1][1]]
        assert any(abs(abs(e[1][0] - e[0][0]) - 100) < 0.02 for e in horizontals)
        verticals = [e for e in lines_of(back, 0.15, number) if e[0][0] == e[1][0]]
        assert any(abs(abs(e[1][1] - e[0][1]) - 100) < 0.02 for e in verticals)
    assert back.reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert all(back.font_files().values())
    assert "Source: Newton's conjugate equation" in back.text


def test_the_table_gives_every_mark(read_back: Read) -> None:
    """Every mark's angle, for a dividing head, and its place on the strip are given in figures."""
    text = read_back(scale_strip(PLAN, BARREL, SIGNED).pdf()).text
    for name, distance in (("5", 5e3), ("1.2", 1.2e3), ("1", 1e3)):
        angle = ENGRAVER.angle(distance)
        assert f"{name} {math.degrees(angle):.2f}° {angle * 52.1 / 2:.2f} mm" in text


def test_a_printed_strip_has_its_length_in_dots(tmp_path: Path, read_back: Read) -> None:
    """Drawn by another program at 300 dots an inch, strip and marks are where they belong."""
    drawn = scale_strip(PLAN, BARREL, SIGNED).pdf()
    back = read_back(drawn)
    (tmp_path / "strip.pdf").write_bytes(drawn)
    command = ["pdftoppm", "-r", "300", "-gray", "strip.pdf", "strip"]
    subprocess.run(command, cwd=tmp_path, check=True)
    (found,) = tmp_path.glob("*.pgm")
    data = found.read_bytes()
    width, height = map(int, data.split(maxsplit=4)[1:3])
    image = np.frombuffer(data[-width * height :], np.uint8).reshape(height, width)
    first, close = ends_of(back)
    marks = [ends for ends in lines_of(back, MARK) if ends[0][0] == ends[1][0]]
    foot = max(marks[0][0][1], marks[0][1][1])
    # Only the two ends stick out under the strip; just above its foot stand the marks.
    ends, runs = (
        [at for at in dark_runs(image[dots(foot + down)]) if dots(first) - 3 < at < dots(close) + 3]
        for down in (1.0, -0.7)
    )
    assert ends[-1] - ends[0] == pytest.approx(math.pi * 52.1 / 25.4 * 300, abs=1)
    wanted = [arc / 25.4 * 300 for arc in (*belongs(52.1), 0.0)]
    infinity = runs[len(ASKED) + 1]
    assert runs[1 : len(ASKED) + 2] == pytest.approx(sorted(infinity - w for w in wanted), abs=1)


def dots(mm: float) -> int:
    """A length in dots, 300 to the inch."""
    return round(mm / 25.4 * 300)


def dark_runs(row: np.ndarray) -> list[float]:
    """The middles of the dark runs of a row of dots, weighed by darkness."""
    dark = 255.0 - row
    places = np.flatnonzero(dark > 20)
    if not len(places):
        return []
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    return [float(np.average(run, weights=dark[run])) for run in runs]


def test_a_printer_that_shrinks_is_made_up_for(read_back: Read) -> None:
    """With the rulers of a former print, the sheet is drawn larger by just what was missing."""
    plain = read_back(scale_strip(PLAN, BARREL, SIGNED).pdf())
    larger = read_back(scale_strip(PLAN, BARREL, replace(SIGNED, rulers=(99.0, 100.5))).pdf())
    (b0, c0), (b1, c1) = ends_of(plain), ends_of(larger)
    assert (c1 - b1) * 0.99 == pytest.approx(c0 - b0, abs=0.02)
    up = [max(abs(e[1][1] - e[0][1]) for e in lines_of(one, 0.15)) for one in (plain, larger)]
    assert up[0] == pytest.approx(100, abs=0.02)
    assert larger.pages[0].width == plain.pages[0].width
    assert "rulers came out 99 mm across and 100.5 mm up" in larger.text


@pytest.mark.parametrize("typed", HOSTILE)
@pytest.mark.parametrize("artwork", Artwork)
def test_any_text_can_head_a_scale(typed: str, artwork: Artwork, read_back: Read) -> None:
    """Whatever the camera, the title and the maker are called, the sheet stays on its page."""
    plan = replace(PLAN, camera=replace(OSTRIN, name=typed))
    signed = replace(SIGNED, title=typed + " t", made_by=typed)
    back = read_back(scale_strip(plan, BARREL, signed, artwork).pdf())
    left, _, right, _ = back.extent()
    assert left >= MARGIN - 0.3
    assert right <= 210 - MARGIN + 0.3


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (
            lambda: scale_strip(
                replace(PLAN, camera=replace(OSTRIN, focusing=Bed())), BARREL, SIGNED
            ),
            NoAnswer,
            "needs a focusing thread: got a bed",
        ),
        (
            lambda: StripBarrel(2.0),
            OutOfRange,
            "barrel diameter must be from 5 mm to 400 mm: got 2 mm",
        ),
        (lambda: StripBarrel(52.0, 2.0), OutOfRange, "paper thickness"),
        (lambda: StripBarrel(52.0, index_diameter=1.0), OutOfRange, "part with the index"),
        (
            lambda: scale_strip(PLAN, StripBarrel(52.0, height=3.0), SIGNED),
            OutOfRange,
            "strip's width must be at least 5.0 mm for its figures: got 3 mm",
        ),
        (lambda: scale_strip(PLAN, StripBarrel(52.0, height=90.0), SIGNED), OutOfRange, "to 60 mm"),
        (lambda: ScalePlan(OSTRIN, ()), OutOfRange, "one or two different units: got none"),
        (lambda: ScalePlan(OSTRIN, (METRES, METRES)), OutOfRange, "got m, m"),
        (lambda: ScalePlan(OSTRIN, figure_height=0.1), OutOfRange, "figure height"),
        (lambda: Signature(SIGNED.made, rulers=(90.0, 100.0)), OutOfRange, "printed check ruler"),
        (lambda: scale_strip(PLAN, BARREL, replace(SIGNED, page_size="A5")), OutOfRange, "A4 or"),
    ],
)
def test_what_cannot_be_drawn_is_refused(
    call: Callable[[], object], error: type[ShimwrightError], words: str
) -> None:
    """What no barrel, paper or ring is, is refused with its limits and what was got."""
    with pytest.raises(error) as refusal:
        call()
    assert words in str(refusal.value)


def test_a_wider_strip_is_as_wide_as_asked(read_back: Read) -> None:
    """A strip of a stated width has it between its long cutting lines."""
    back = read_back(scale_strip(PLAN, replace(BARREL, height=9.0), SIGNED).pdf())
    begin, close = ends_of(back)
    edges = sorted(
        e[0][1]
        for e in lines_of(back, 0.1)
        if e[0][1] == e[1][1] and abs(e[1][0] - e[0][0] - (close - begin)) < 0.02
    )
    assert edges[1] - edges[0] == pytest.approx(9.0, abs=0.02)
