"""The page on the screen is the page on paper."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from typing import Any

import pytest

from optics.drawing.page import Sheet, paper_named
from optics.sheets.face_ring import Face, face_ring
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.scale_strip import StripBarrel, scale_strip
from tests.optics.scales.rings import CORVANE, OSTRIN
from tests.optics.sheets.true_size import HOSTILE, MM, SIGNED

SVG = "{http://www.w3.org/2000/svg}"


def drawn(sheet: Sheet, page: int = 0) -> ET.Element:
    """A page's document."""
    return ET.fromstring(sheet.svg(page))


def test_the_screen_has_the_lines_of_the_paper(read_back: Callable[[bytes], Any]) -> None:
    """Every straight line of every page is in both at the same place within a micrometre."""
    sheet = scale_strip(ScalePlan(OSTRIN), StripBarrel(300.0), SIGNED)
    back = read_back(sheet.pdf())
    assert sheet.page_count == len(back.pages) == 2
    for page in range(2):
        paper = [
            tuple(v * MM for point in one["pts"] for v in point) for one in back.pages[page].lines
        ]
        screen = [
            tuple(map(float, re.findall(r"[-\d.]+", path.get("d", ""))))
            for path in drawn(sheet, page).iterfind(f"{SVG}path")
            if re.fullmatch(r"M[-\d. ]+L[-\d. ]+", path.get("d", ""))
        ]
        assert len(screen) == len(paper) > 200
        for a, b in zip(screen, paper, strict=True):
            assert a == pytest.approx(b, abs=0.001)


def test_the_screen_page_is_the_paper_s_size() -> None:
    """A page is as large as its paper, in mm, and says so once for all."""
    for name, size in (("A4", ("210", "297")), ("Letter", ("215.9", "279.4"))):
        root = drawn(Sheet(paper_named(name), title="Blank", made=SIGNED.made))
        assert root.get("viewBox") == f"0 0 {size[0]} {size[1]}"
        assert (root.get("width"), root.get("height")) == (f"{size[0]}mm", f"{size[1]}mm")


def test_every_letter_used_is_known_and_needs_no_font() -> None:
    """Each letter refers to an outline in the same document, and there is no text element."""
    root = drawn(face_ring(ScalePlan(CORVANE), Face(60.0, 40.0), SIGNED))
    known = {path.get("id") for path in root.iterfind(f"{SVG}defs/{SVG}path")}
    used = {use.get("href", "").removeprefix("#") for use in root.iter(f"{SVG}use")}
    assert used == known
    assert len(known) > 30
    assert not list(root.iter(f"{SVG}text"))


@pytest.mark.parametrize("typed", HOSTILE)
def test_any_title_leaves_the_document_sound(typed: str) -> None:
    """Whatever is typed, the document can be read, and nothing in it can be run."""
    sheet = Sheet(paper_named("A4"), title=typed, made=SIGNED.made, made_by=typed)
    sheet.text(20, 20, typed, 8, turned=30, mirrored=True)
    root = drawn(sheet)
    assert not [one for one in root.iter() if one.tag.rpartition("}")[2] == "script"]
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text


def test_shapes_are_filled_and_dashed_alike() -> None:
    """Boxes, circles, dashes and fills reach the screen with their measures."""
    sheet = Sheet(paper_named("A4"), title="Shapes", made=SIGNED.made)
    sheet.box((10, 20), 30, 5, fill=(1.0, 0.5, 0.0), ink=None)
    sheet.circle((50, 60), 10, width=0.2, dash=(1, 2))
    text = sheet.svg()
    assert '<rect x="10" y="20" width="30" height="5" fill="#ff8000"/>' in text
    circle = next(path for path in re.findall(r"<path [^>]*>", text) if "dasharray" in path)
    assert 'stroke-width="0.2" stroke-dasharray="1 2"' in circle
    assert circle.count("C") == 8
    assert circle.startswith('<path d="M50 50C')
