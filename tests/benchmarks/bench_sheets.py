"""How long the sheets take, once their fonts are loaded."""

import json
import time
from collections.abc import Callable
from datetime import date

from optics.bench.correction import Correction
from optics.records.files import read_job
from optics.records.solve import solve
from optics.sheets.note import correction_note
from optics.sheets.page import Sheet, paper_named
from optics.sheets.ruler import check_rulers

MOST = 0.100
MADE = date(2026, 3, 6)
JOB = {
    "format": "shimwright job",
    "version": 1,
    "camera": {
        "name": "Ostrin 35",
        "lens": {"focal_length": "47 mm", "full_aperture": "2.8"},
        "focusing": {
            "kind": "helicoid",
            "lead": "18 mm",
            "starts": "6",
            "extends": "counter-clockwise",
        },
        "circle_of_confusion": "0.03 mm",
    },
    "workshop": {"drawer": "0.02 x 4, 0.05 x 3, 0.1 x 4", "fitted": "0.1 mm, 0.05 mm"},
    "readings": [{"kind": "mark", "sharp_at": "18.4 m, 18.9 m, 18.6 m", "limit": "0.1 m"}],
}


def two_pages() -> bytes:
    """Two pages as full as a true-size sheet: rulers, hundreds of ticks and lines of text."""
    sheet = Sheet(paper_named("A4"), title="Two pages", made=MADE)
    for page in range(2):
        check_rulers(sheet, (25, 120))
        for step in range(300):
            sheet.line((40 + step / 3, 130), (40 + step / 3, 134))
        for step in range(40):
            sheet.text(25, 140 + 3 * step, f"Line {step} of page {page}: 0.119 mm too far out", 7)
        if not page:
            sheet.next_page()
    return sheet.pdf()


def _note() -> Callable[[], bytes]:
    (answer,) = solve(read_job(json.dumps(JOB).encode())).answers
    assert isinstance(answer, Correction)
    return lambda: correction_note(answer, title="Job", reading_title="Ring mark", made=MADE)


def _quickest(make: Callable[[], bytes]) -> float:
    make()
    times = []
    for _ in range(7):
        start = time.perf_counter()
        make()
        times.append(time.perf_counter() - start)
    return min(times)


def test_sheets_are_quick() -> None:
    """A bench note and a sheet of two full pages are each made within a tenth of a second."""
    for name, make in (("bench note", _note()), ("two pages", two_pages)):
        taken = _quickest(make)
        print(f"{name}: {1000 * taken:.0f} ms")
        assert taken <= MOST
