"""The sheet of paper, read back by other programs."""

import os
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from optics.drawing import page as page_module
from optics.drawing.page import MARGIN, PAPERS, Sheet, paper_named, program
from optics.errors import OutOfRange
from optics.readings.wording import CONVENTIONS

# The fourteen fonts that a reader of PDF must have of its own (ISO 32000-1, 9.6.2.2).
STANDARD_FOURTEEN = ("Helvetica", "Times", "Courier", "Symbol", "ZapfDingbats")
MADE = date(2026, 3, 6)


def two_pages(paper: str = "A4", **described: Any) -> bytes:
    """A sheet with a line, a box, an arrow and text, on two pages."""
    sheet = Sheet(paper_named(paper), **{"title": "A sheet", "made": MADE, **described})
    sheet.line((20, 30), (120, 30))
    sheet.line((20, 30), (20, 130))
    sheet.box((40, 50), 60, 25)
    sheet.arrow((40, 150), (60, 150))
    sheet.text(40, 100, "upright", 10)
    sheet.next_page()
    sheet.text(40, 100, "bold", 10, bold=True)
    return sheet.pdf()


# ISO 216 for A4; ANSI/ASME Y14.1 size A, 8 1/2 by 11 in, for Letter.
@pytest.mark.parametrize(("paper", "width", "height"), [("A4", 210, 297), ("Letter", 215.9, 279.4)])
def test_paper_has_its_size(
    read_back: Callable[[bytes], Any], paper: str, width: float, height: float
) -> None:
    """Each paper has the size that its standard gives."""
    for one in read_back(two_pages(paper)).pages:
        assert (float(one.width) * 25.4 / 72, float(one.height) * 25.4 / 72) == pytest.approx(
            (width, height), abs=0.01
        )


def test_what_is_drawn_is_where_it_was_asked_for(read_back: Callable[[bytes], Any]) -> None:
    """Lines, boxes and text lie where they were put, in mm from the top left."""
    back = read_back(two_pages())
    assert back.lines()[0] == pytest.approx((20, 30, 120, 30), abs=0.02)
    assert back.lines()[1] == pytest.approx((20, 30, 20, 130), abs=0.02)
    (box,) = back.pages[0].rects
    placed = [box[k] * 25.4 / 72 for k in ("x0", "top", "x1", "bottom")]
    assert placed == pytest.approx([40, 50, 100, 75], abs=0.02)
    upright = next(w for w in back.words() if w[0] == "upright")
    assert upright[1] == pytest.approx(40, abs=0.3)
    assert upright[2] < 100 < upright[4]


def test_an_arrow_points_to_its_end(read_back: Callable[[bytes], Any]) -> None:
    """The head of an arrow touches the end asked for, and its widest part lies behind."""
    (head,) = read_back(two_pages()).pages[0].curves
    points = [(x * 25.4 / 72, y * 25.4 / 72) for x, y in head["pts"]]
    assert max(points)[0] == pytest.approx(60, abs=0.02)
    assert max(points)[1] == pytest.approx(150, abs=0.02)
    assert min(points)[0] < 58.5


def test_fonts_come_with_the_sheet(read_back: Callable[[bytes], Any]) -> None:
    """Every font is embedded, as a subset, and none is left to the reader."""
    found = read_back(two_pages()).font_files()
    assert {name.partition("+")[2] for name in found} == {"DejaVuSans", "DejaVuSans-Bold"}
    assert all(found.values())
    assert not any(name.strip("/").startswith(STANDARD_FOURTEEN) for name in found)


def test_no_font_is_taken_from_the_system() -> None:
    """The fonts and their licence lie inside the package."""
    fonts = Path(page_module.__file__).with_name("fonts")
    assert {"DejaVuSans.ttf", "DejaVuSans-Bold.ttf"} <= {p.name for p in fonts.iterdir()}
    assert "Bitstream Vera Fonts Copyright" in (fonts / "LICENSE-DejaVu.txt").read_text()


def test_the_printer_is_told_not_to_scale(read_back: Callable[[bytes], Any]) -> None:
    """The document asks the viewer to print without fitting the page to the paper."""
    root = read_back(two_pages()).reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_the_document_says_what_it_is(read_back: Callable[[bytes], Any]) -> None:
    """Title, author and the given date are in the document's description."""
    said = read_back(two_pages(title="Ostrin 35 № 417 富", made_by="A. Ferrow")).reader.metadata
    assert said.title == "Ostrin 35 № 417 富"
    assert said.author == "A. Ferrow"
    assert said.creation_date.date() == MADE


def test_every_page_says_who_when_and_how(read_back: Callable[[bytes], Any]) -> None:
    """Each page's foot gives person, date, program, page and the conventions."""
    back = read_back(two_pages(made_by="A. Ferrow", conventions=CONVENTIONS))
    for number, one in enumerate(back.reader.pages, start=1):
        text = " ".join(one.extract_text().split())
        for words in (
            "Made 2026-03-06 by A. Ferrow",
            f"{program()} · page {number}",
            "from the film plane",
            "“too far out”: the lens stands farther",
            "as seen from the front",
        ):
            assert words in text


def test_the_footer_stays_inside_the_margins(read_back: Callable[[bytes], Any]) -> None:
    """A footer with an endless name in it stays on the page and keeps its page number."""
    back = read_back(two_pages(made_by="Ferrow \U0001f4f7 " * 90))
    left, _, right, bottom = back.extent()
    assert left >= MARGIN - 0.2
    assert right <= 210 - MARGIN + 0.2
    assert bottom <= 297 - MARGIN + 0.2
    assert "page 1" in back.text
    assert "stands for a character this type does not have" in back.text


def test_the_same_sheet_has_the_same_bytes() -> None:
    """The same drawing gives the same bytes, in another process and with another hash seed."""
    program = (
        "import sys, hashlib; from datetime import date; from optics.drawing.page import *\n"
        "from optics.drawing.ruler import check_rulers\n"
        "sheet = Sheet(PAPERS['A4'], title='Same', made=date(2026, 3, 6)); "
        "check_rulers(sheet, (40, 150)); sheet.text(40, 170, 'σ φ ±', 9, bold=True)\n"
        "print(hashlib.sha256(sheet.pdf()).hexdigest())"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1
    assert two_pages() == two_pages()
    assert two_pages() != two_pages(made=date(2026, 3, 7))


def test_sheets_can_be_made_side_by_side() -> None:
    """Sheets made at once in several threads are the same as those made one by one."""
    titles = [f"Sheet {n}" for n in range(12)]
    alone = [two_pages(title=title) for title in titles]
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(lambda title: two_pages(title=title), titles)) == alone


def test_an_unknown_paper_is_refused() -> None:
    """A paper that is neither A4 nor Letter is refused, naming both."""
    with pytest.raises(OutOfRange, match="A4 or Letter: got “A5”"):
        paper_named("A5")
    assert paper_named("Letter") is PAPERS["Letter"]
