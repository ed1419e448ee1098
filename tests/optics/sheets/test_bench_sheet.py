"""The bench sheet: blanks in the order of work, and what is known already."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from optics.camera.cautions import FLASH, SUN
from optics.sheets.bench_sheet import FAULTS, ORDER_OF_WORK, bench_sheet
from tests.optics.sheets.reports import BARE, report
from tests.optics.sheets.test_certificate import HEADING

MM = 25.4 / 72


@pytest.mark.parametrize("case", [{}, BARE], ids=["whole", "bare"])
def test_the_sheet_is_two_pages_with_every_section(
    case: dict[str, Any], read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """The sheet is two pages, front and back, and asks for everything in the order of work."""
    back = read_back(bench_sheet(report(**case, left=[]), **HEADING, page_size=page_size))
    assert len(back.pages) == 2
    heads = [
        "Condition",
        "Shims found",
        "Trays",
        "As found",
        "Order of work",
        "Done",
        "As left",
        "Take care",
        "Sketches",
    ]
    places = [back.text.index(head) for head in heads]
    assert places == sorted(places)
    asked = (*ORDER_OF_WORK, *FAULTS, SUN.text, FLASH.text, "Came from", "Limit ±", "Instrument")
    assert [words for words in asked if words not in back.text] == []


def test_there_is_room_to_write(read_back: Callable[[bytes], Any]) -> None:
    """Lines to write on are at least 7 mm apart, and each fault has its box on every row."""
    back = read_back(bench_sheet(report(**BARE, left=[]), **HEADING))
    page = back.pages[0]
    rows = sorted({round(one["top"] * MM, 1) for one in page.lines if one["width"] * MM < 100})
    gaps = [b - a for a, b in pairwise(rows) if b - a > 0.5]
    assert len(rows) > 15
    assert min(gaps) >= 7.0
    boxes = [r for p in back.pages for r in p.rects if abs(r["width"] * MM - 2.6) < 0.05]
    assert len(boxes) == 5 * len(FAULTS) + len(ORDER_OF_WORK)


def test_what_is_known_is_printed_and_what_is_not_is_asked(
    read_back: Callable[[bytes], Any],
) -> None:
    """Numbers, trays, readings, shims and work written down are printed; the rest is asked."""
    text = read_back(bench_sheet(report(), **HEADING)).text
    assert "Serial number No 41 207" in text
    assert "front plate body 4 × M1.7 × 3 brass A1" in text
    assert "Ring at ∞: sharp at 18.4 m; 18.9 m; 18.6 m Bench tape · 2026-03-02" in text
    assert "Helicoid cleaned and greased 0.3 g" in text
    assert "0.05 mm × 2; 0.1 mm · paper · behind the mount" in text
    assert "Asked for soft at a distance; please look" in text
    bare = read_back(bench_sheet(report(**BARE, left=[], camera=None), **HEADING)).text
    assert "Serial number Lens number" in bare


def test_everything_the_job_holds_is_printed(read_back: Callable[[bytes], Any]) -> None:
    """Eight readings, shims found and fitted, and work done leave only rows to spare blank."""
    readings = [reading(f"{28.80 + n / 100:.2f}") for n in range(8)]
    taken = [{"reading": one, "instrument": "Depth gauge"} for one in readings]
    whole = report(found=taken[:3], left=taken[3:5], readings=readings)
    text = read_back(bench_sheet(whole, **HEADING)).text
    for one in readings:
        assert text.count(f"Register: {one['measured']} mm, made for 28.80 mm") == 1
    assert text.index("As found") < text.index("In hand") < text.index("28.85 mm")
    assert "0.05 mm × 2; 0.1 mm · paper · behind the mount" in text
    assert "Fitted now 0.1 mm" in text
    assert "One 0.1 paper shim taken out, 0.05 brass put in" in text
    for known in ("Old mark", "Earlier repairs"):
        assert text.count(known) == 1


def reading(measured: str) -> dict[str, str]:
    """Give a register reading, nominal 28.80 mm."""
    return {"kind": "register", "measured": measured, "nominal": "28.80 mm", "limit": "0.005 mm"}


def test_readings_that_cannot_both_be_true_are_printed_first(
    read_back: Callable[[bytes], Any],
) -> None:
    """Two readings in hand that contradict each other are named above the readings themselves."""
    mark = {"kind": "mark", "sharp_at": "9 m", "limit": "0.1 m"}
    turned = {"kind": "rotation", "turned": "2°", "sense": "counter-clockwise", "limit": "0.25°"}
    text = read_back(bench_sheet(report(readings=[mark, turned]), **HEADING)).text
    said = text.index("The ∞ mark was read twice, and the two cannot both be true")
    assert text.index("In hand") < said < text.index("Ring at ∞: sharp at 9 m")
