"""The scale of a ring's face, read back in millimetres about its centre."""

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from optics.camera.camera import Bed
from optics.drawing.page import MARGIN, PAPERS
from optics.drawing.ruler import LABEL
from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_layout import ScaleOn
from optics.sheets.face_ring import Face, face_ring
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.true_size import Artwork
from tests.optics.scales.rings import CORVANE, OSTRIN, Engraver
from tests.optics.sheets.true_size import (
    CLOCKWISE,
    DEPTH,
    HOSTILE,
    INDEX,
    INFINITY,
    MARK,
    MM,
    SIGNED,
    angle_of,
    lines_of,
)

METRES, FEET = ScaleUnit.METRES, ScaleUnit.FEET
ASKED = (10e3, 5e3, 3e3, 2e3, 1.5e3)
PLAN = ScalePlan(CORVANE, (METRES,), {METRES: ASKED})
FACE = Face(48.0, 30.0)
CELL = Engraver(51.0, 92.0, 9.0)
Read = Callable[[bytes], Any]
Point = tuple[float, float]


def centre_of(back: Any) -> Point:
    """Where the centring cross is: the hairlines that cross, eight millimetres long."""
    cross = [
        ends
        for ends in lines_of(back, 0.1)
        if 7.9 < math.dist(*ends) < 8.1 and 50 < ends[0][0] < 160
    ]
    across, up = sorted(cross, key=lambda ends: ends[0][0] == ends[1][0])
    centre = (up[0][0], across[0][1])
    assert math.dist(centre, across[0]) == pytest.approx(math.dist(centre, across[1]), abs=0.01)
    return centre


def radial(back: Any, width: float) -> list[tuple[float, float, float]]:
    """Ticks of a thickness: angle from the top clockwise, inner and outer radius."""
    centre, found = centre_of(back), []
    for ends in lines_of(back, width):
        near, far = sorted(ends, key=lambda point: math.dist(centre, point))
        inner, outer = math.dist(centre, near), math.dist(centre, far)
        if outer > 70:
            continue
        # A tick points at the centre.
        lean = math.remainder(angle_of(centre, near) - angle_of(centre, far), math.tau)
        assert abs(lean) * inner < 0.02
        found.append((angle_of(centre, far), inner, outer))
    return sorted(found)


def assert_angles(found: list[float], expected: list[float], radius: float) -> None:
    """Angles agree, round the whole turn, within 0.02 mm at a radius."""
    found, expected = (sorted(a % math.tau for a in angles) for angles in (found, expected))
    assert len(found) == len(expected)
    for a, b in zip(found, expected, strict=True):
        assert abs(math.remainder(a - b, math.tau)) * radius < 0.02


@pytest.mark.parametrize("at", [0.0, 1.0, 5.5])
@pytest.mark.parametrize("outside", [True, False])
def test_marks_stand_at_their_angles(at: float, outside: bool, read_back: Read) -> None:
    """Seen from the front each mark stands at its halved-interval angle from ∞, at the edge."""
    face = replace(FACE, infinity_at=at, is_index_outside=outside)
    back = read_back(face_ring(PLAN, face, SIGNED).pdf())
    ticks = radial(back, MARK)
    # A cell that extends counter-clockwise brings marks to the index that lie clockwise of ∞.
    expected = [at + CELL.angle(distance) for distance in ASKED]
    assert_angles([tick[0] for tick in ticks], expected, 24.0)
    assert_angles([tick[0] for tick in radial(back, INFINITY)], [at], 24.0)
    edge = {round(tick[2 if outside else 1], 2) for tick in ticks}
    assert edge == {24.0 if outside else 15.0}
    assert "nearer marks lie clockwise of ∞" in back.text


def test_the_other_thread_and_the_fixed_scale_run_the_other_way(read_back: Read) -> None:
    """A ring that extends clockwise, like a fixed scale, runs counter-clockwise from ∞."""
    for plan in (
        replace(PLAN, scale_on=ScaleOn.BODY),
        ScalePlan(CLOCKWISE, (METRES,), {METRES: (1.5e3,)}),
    ):
        back = read_back(face_ring(plan, FACE, SIGNED).pdf())
        angles = [math.remainder(tick[0], math.tau) for tick in radial(back, MARK)]
        assert all(angle < 0 for angle in angles)
        assert "nearer marks lie counter-clockwise of ∞" in back.text


# 360 x N x 0.05 x (51/75)² / 9, by hand for exact stops of 8 and 16.
@pytest.mark.parametrize(("outside", "radii"), [(True, (24.0, 25.5)), (False, (13.5, 15.0))])
def test_depth_marks_stand_either_side(
    outside: bool, radii: tuple[float, float], read_back: Read
) -> None:
    """Depth marks stand on the index ring, either side of the index, which meets ∞."""
    plan = replace(PLAN, f_numbers=(8, 16))
    back = read_back(face_ring(plan, replace(FACE, is_index_outside=outside), SIGNED).pdf())
    ticks = radial(back, DEPTH)
    angles = [math.radians(7.3984), math.radians(14.7968)]
    assert_angles([tick[0] for tick in ticks], angles + [-a for a in angles], 24.0)
    for _, inner, outer in ticks:
        assert (inner, outer) == pytest.approx(radii, abs=0.02)
    (index,) = radial(back, INDEX)
    assert_angles([index[0]], [0.0], 24.0)


def test_rings_are_cut_where_they_end(read_back: Read) -> None:
    """The circles to cut along have the diameters asked for within 0.02 mm, about the cross."""
    back = read_back(face_ring(PLAN, FACE, SIGNED).pdf())
    centre = centre_of(back)
    boxes = [[c[k] * MM for k in ("x0", "x1", "top", "bottom")] for c in back.pages[0].curves]
    sizes = sorted(x1 - x0 for x0, x1, _, _ in boxes)
    assert sizes == pytest.approx([30.0, 48.0, 56.4], abs=0.02)
    for x0, x1, top, bottom in boxes:
        assert ((x0 + x1) / 2, (top + bottom) / 2) == pytest.approx(centre, abs=0.01)
    assert "circles of ⌀ 30 mm, 48 mm, 56.4 mm" in back.text
    without = read_back(face_ring(PLAN, replace(FACE, index_width=0.0), SIGNED).pdf())
    assert len(without.pages[0].curves) == 2
    assert radial(without, INDEX) == []


def test_two_units_have_a_band_each(read_back: Read) -> None:
    """Metres and feet have their ticks at their own radii, the first unit at the index."""
    feet = tuple(304.8 * n for n in (30, 15, 10, 7, 5))
    plan = ScalePlan(CORVANE, (FEET, METRES), {METRES: ASKED, FEET: feet})
    back = read_back(face_ring(plan, FACE, SIGNED).pdf())
    for radius, asked in ((24.0, feet), (19.5, ASKED)):
        ticks = [tick for tick in radial(back, MARK) if abs(tick[2] - radius) < 0.02]
        assert_angles([tick[0] for tick in ticks], [CELL.angle(d) for d in asked], radius)


def test_figures_stand_upright_to_the_rim(read_back: Read) -> None:
    """Each figure is turned with its mark, its top outwards, also when it is mirrored."""
    for artwork, mirrored in ((Artwork.CLEAN, False), (Artwork.MIRRORED, True)):
        back = read_back(face_ring(PLAN, Face(70.0, 50.0), SIGNED, artwork).pdf())
        centre = centre_of(back)
        for char in back.pages[0].chars:
            middle = ((char["x0"] + char["x1"]) / 2 * MM, (char["top"] + char["bottom"]) / 2 * MM)
            if math.dist(middle, centre) > 40 or char["text"] not in "123∞":
                continue
            a, b, c, d = char["matrix"][:4]
            assert (a * d - b * c < 0) is mirrored
            # The letter's own upwards on paper, against the way outwards; paper's y runs down.
            up = math.atan2(c, d) % math.tau
            assert abs(math.remainder(up - angle_of(centre, middle), math.tau)) < 0.12


def test_mirrored_artwork_is_the_looking_glass_image(read_back: Read) -> None:
    """Mirrored, every mark stands at the opposite angle, and nothing is there to cut by."""
    clean, mirrored = (
        read_back(face_ring(PLAN, FACE, SIGNED, artwork).pdf())
        for artwork in (Artwork.CLEAN, Artwork.MIRRORED)
    )
    for width in (MARK, INFINITY, DEPTH, INDEX):
        there, here = ([tick[0] for tick in radial(one, width)] for one in (clean, mirrored))
        assert_angles(here, [-angle for angle in there], 24.0)
    assert len(clean.pages[0].curves) == len(mirrored.pages[0].curves) == 0
    assert "Edges, not printed: ⌀ 30 mm, 48 mm, 56.4 mm" in clean.text


@pytest.mark.parametrize("typed", ["", *HOSTILE])
def test_the_sheet_is_ready_for_print(typed: str, page_size: str, read_back: Read) -> None:
    """One page inside its margins, whatever is typed, with rulers, fonts and no scaling."""
    signed = replace(SIGNED, title=typed, made_by=typed, page_size=page_size)
    plan = replace(PLAN, camera=replace(CORVANE, name=typed))
    back = read_back(face_ring(plan, FACE, signed).pdf())
    assert len(back.pages) == 1
    left, top, right, bottom = back.extent()
    paper = PAPERS[page_size]
    assert min(left, top) >= MARGIN - 0.3
    assert right <= paper.width - MARGIN + 0.3
    assert bottom <= paper.height - MARGIN + 0.3
    assert back.text.count(LABEL) == 2
    assert "0.12 mm in its longest, 56.4 mm" in back.text
    assert all(back.font_files().values())
    assert back.reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (
            lambda: face_ring(replace(PLAN, camera=replace(OSTRIN, focusing=Bed())), FACE, SIGNED),
            NoAnswer,
            "got a bed",
        ),
        (lambda: Face(5.0, 2.0), OutOfRange, "outer diameter must be from 8 mm to 160 mm"),
        (lambda: Face(48.0, 47.5), OutOfRange, "inner diameter must be from 1 mm to 46 mm"),
        (lambda: Face(30.0, 8.0, is_index_outside=False), OutOfRange, "inner diameter"),
        (
            lambda: face_ring(PLAN, Face(48.0, 42.0), SIGNED),
            OutOfRange,
            "at least 4.3 mm wide for its figures: got 3 mm",
        ),
        (lambda: face_ring(PLAN, Face(150.0, 100.0), SIGNED), OutOfRange, "at most"),
        (
            lambda: face_ring(PLAN, Face(48.0, 30.0, index_width=2.0), SIGNED),
            OutOfRange,
            "width of the index ring must be from 3.9 mm",
        ),
    ],
)
def test_what_cannot_be_drawn_is_refused(
    call: Callable[[], object], error: type[ShimwrightError], words: str
) -> None:
    """Rings too narrow, too large or without a thread are refused with what would do."""
    with pytest.raises(error) as refusal:
        call()
    assert words in str(refusal.value)
