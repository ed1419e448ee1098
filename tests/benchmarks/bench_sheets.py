"""How long the sheets take, once their fonts are loaded."""

import json
import math
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.drawing.page import Sheet, paper_named
from optics.drawing.ruler import check_rulers
from optics.readings.correction import Correction
from optics.records.files import read_job
from optics.records.solve import solve
from optics.scales.depth_table import depth_table
from optics.scales.engraving import ScaleUnit
from optics.sheets.depth_card import depth_card
from optics.sheets.face_ring import Face, face_ring
from optics.sheets.note import correction_note
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.scale_strip import StripBarrel, scale_strip
from optics.sheets.true_size import Signature

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
    "workshop": {"drawer": "0.02 x 4; 0.05 x 3; 0.1 x 4", "fitted": "0.1 mm; 0.05 mm"},
    "readings": [{"kind": "mark", "sharp_at": "18.4 m; 18.9 m; 18.6 m", "limit": "0.1 m"}],
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


OSTRIN = Camera(
    "Ostrin 35", Lens(47.0, 2.8, 0.6), Helicoid(18.0, 6, Turn.COUNTER_CLOCKWISE, 52.0), 0.03
)
SIGNED = Signature(MADE)
BOTH = ScalePlan(OSTRIN, (ScaleUnit.METRES, ScaleUnit.FEET))


def long_strip() -> Sheet:
    """A strip round a barrel so large that its six parts fill two pages."""
    sheet = scale_strip(BOTH, StripBarrel(300.0), replace(SIGNED, page_size="Letter"))
    assert sheet.page_count == 2
    return sheet


def ring() -> Sheet:
    """A ring's face with metres and feet."""
    return face_ring(BOTH, Face(70.0, 50.0), SIGNED)


def card() -> Sheet:
    """A card of six stops by eight distances, its table worked out too."""
    stops = (2.8, 4, 5.6, 8, 11, 16)
    distances = (1000, 1200, 1500, 2000, 3000, 5000, 10_000, math.inf)
    return depth_card(depth_table(OSTRIN, stops, distances), [f"f/{n}" for n in stops], SIGNED)


TRUE_SIZE: dict[str, Callable[[], Sheet]] = {
    "scale strip on two pages": long_strip,
    "scale ring": ring,
    "depth card": card,
}


def _quickest(make: Callable[[], object]) -> float:
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


@pytest.mark.parametrize("name", TRUE_SIZE)
def test_true_size_sheets_are_quick(name: str) -> None:
    """A true-size sheet is laid out and made within a tenth of a second, on paper or on screen."""
    for kind, finish in (("PDF", Sheet.pdf), ("SVG", Sheet.svg)):
        taken = _quickest(lambda finish=finish: finish(TRUE_SIZE[name]()))
        print(f"{name}, {kind}: {1000 * taken:.0f} ms")
        assert taken <= MOST
