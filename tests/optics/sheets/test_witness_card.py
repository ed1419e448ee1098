"""The witness card's ring and marks have their true size and angles on paper."""

import math
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from optics.body.witness import Mark, Thread
from optics.camera.camera import Turn
from optics.drawing.page import MARGIN, Sheet
from optics.drawing.ruler import LABEL
from optics.errors import OutOfRange
from optics.sheets.true_size import Signature
from optics.sheets.witness_card import LARGEST_RING, witness_card

MADE = date(2026, 3, 6)
ANGLES = {"A": 0.0, "B": 10.0, "C": 346.0, "D": 12.5, "E": 95.0, "F": 180.0, "G": 250.0}
MARKS = [Mark(name, math.radians(angle)) for name, angle in ANGLES.items()]
THREAD = Thread(18.0, 6, Turn.COUNTER_CLOCKWISE)
MM = 25.4 / 72


def sheet(ring_diameter: float = 52.0, **given: Any) -> Sheet:
    """A card with everything on it."""
    told = {"marks": MARKS, "thread": THREAD, "parted_at": math.radians(40)} | given
    signed = {"title": "Ostrin 35, job 12", "made": MADE}
    signed |= {
        name: told.pop(name) for name in ("title", "made", "page_size", "rulers") if name in told
    }
    return witness_card(ring_diameter, told.pop("marks"), Signature(**signed), **told)


def card(ring_diameter: float = 52.0, **given: Any) -> bytes:
    """The same as PDF."""
    return sheet(ring_diameter, **given).pdf()


def ring_of(page: Any) -> tuple[float, float, list[float]]:
    """The ring's middle and its points' distances from it, in mm from the top left."""
    curve = max(page.curves, key=lambda c: len(c["pts"]))
    points = [(x * MM, y * MM) for x, y in curve["pts"]]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return x, y, [math.hypot(px - x, py - y) for px, py in points]


@pytest.mark.parametrize("diameter", [10.0, 20.0, 36.5, 52.0, 100.0])
def test_ring_has_its_diameter(
    read_back: Callable[[bytes], Any], page_size: str, diameter: float
) -> None:
    """Every point of the ring lies half the diameter from its middle, within 0.02 mm."""
    back = read_back(card(diameter, page_size=page_size))
    _, _, distances = ring_of(back.pages[0])
    assert len(distances) > 300
    assert distances == pytest.approx([diameter / 2] * len(distances), abs=0.02)


@pytest.mark.parametrize("diameter", [20.0, 52.0, 100.0])
def test_marks_stand_at_their_angles(
    read_back: Callable[[bytes], Any], page_size: str, diameter: float
) -> None:
    """Each mark is a line straight out from the ring at its angle, within 0.02 mm at both ends."""
    back = read_back(card(diameter, page_size=page_size))
    x, y, _ = ring_of(back.pages[0])
    ends = [((one[0], one[1]), (one[2], one[3])) for one in true_lines(back.pages[0])]
    for angle in map(math.radians, ANGLES.values()):
        wanted = [
            (x + r * math.sin(angle), y - r * math.cos(angle))
            for r in (diameter / 2, diameter / 2 + 5)
        ]
        assert any(
            all(math.dist(a, b) <= 0.02 for a, b in zip(pair, wanted, strict=True))
            for pair in (*ends, *((b, a) for a, b in ends))
        ), math.degrees(angle)


def true_lines(page: Any) -> list[tuple[float, float, float, float]]:
    """Lines with their ends as they were drawn, in mm: a box alone would lose their slant."""
    return [
        (*(v * MM for v in one["pts"][0]), *(v * MM for v in one["pts"][1])) for one in page.lines
    ]


def test_card_bears_both_rulers(read_back: Callable[[bytes], Any], page_size: str) -> None:
    """The card has a ruler of 100 mm across and one up, within 0.02 mm."""
    back = read_back(card(page_size=page_size))
    assert back.text.count(LABEL) == 2
    lengths = [(x1 - x0, y1 - y0) for x0, y0, x1, y1 in back.lines()]
    assert any(one == pytest.approx((100, 0), abs=0.02) for one in lengths)
    assert any(one == pytest.approx((0, 100), abs=0.02) for one in lengths)


def test_everything_is_inside_the_margins(
    read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """The largest ring with twelve marks stays on one page, inside the margins and the cut line."""
    marks = [Mark(f"mark {n}", math.radians(20 + 4 * n)) for n in range(12)]
    back = read_back(card(LARGEST_RING, marks=marks, page_size=page_size))
    assert len(back.pages) == 1
    left, top, right, bottom = back.extent()
    width, height = (float(v) * MM for v in (back.pages[0].width, back.pages[0].height))
    assert left >= MARGIN - 0.2
    assert top >= MARGIN - 0.2
    assert right <= width - MARGIN + 0.2
    assert bottom <= height - MARGIN + 0.2
    up = next(y0 for x0, y0, x1, y1 in back.lines() if abs(y1 - y0 - 100) < 0.02)
    across_at = up + 100
    cut = next(word for word in back.words() if word[0] == "cut")
    assert cut[4] < across_at - 2


def test_a_printer_that_prints_small_is_made_up_for(read_back: Callable[[bytes], Any]) -> None:
    """Where rulers came out at 99 mm the ring is drawn 100/99 larger, and the card says so."""
    back = read_back(card(rulers=(99.0, 99.0)))
    _, _, distances = ring_of(back.pages[0])
    assert distances == pytest.approx([26.0 / 0.99] * len(distances), abs=0.02)
    assert "99 mm across and 99 mm up" in back.text


def test_the_card_is_shown_as_it_is_printed() -> None:
    """The card can be shown on the page as one drawing."""
    assert sheet().svg().startswith("<svg")


def test_names_keep_clear_of_each_other(read_back: Callable[[bytes], Any], page_size: str) -> None:
    """Twelve marks a degree apart have names round the ring that do not overlap."""
    marks = [Mark(f"Q{n:02}", math.radians(n - 4)) for n in range(12)]
    back = read_back(card(40.0, marks=marks, thread=None, page_size=page_size))
    _, y, _ = ring_of(back.pages[0])
    boxes = [w[1:] for w in back.words() if w[0].startswith("Q") and w[2] < y + 20]
    assert len(boxes) == 12
    for n, (left, top, right, bottom) in enumerate(boxes):
        for other_left, other_top, other_right, other_bottom in boxes[n + 1 :]:
            apart = right <= other_left or other_right <= left
            assert apart or bottom <= other_top + 0.6 or other_bottom <= top + 0.6


def test_card_says_what_it_shows(read_back: Callable[[bytes], Any]) -> None:
    """The card names the job, the side it is seen from, the sense that extends and the blanks."""
    text = read_back(card()).text
    for words in (
        "Ostrin 35, job 12",
        "Seen from the front",
        "Extends counter-clockwise",
        "6 starts",
        "thread parts at",
        "shims under the seat",
        "346.0°, whose:",
        "2026-03-06",
    ):
        assert words in text
    bare = read_back(card(20.0, marks=(), thread=None, title=" ")).text
    assert "Camera" in bare
    assert "Extends" not in bare


def test_the_same_card_has_the_same_bytes() -> None:
    """The same arguments give the same bytes, another date others."""
    assert card() == card()
    assert card() != card(made=date(2026, 3, 7))


@pytest.mark.parametrize("diameter", [0.0, 9.9, 100.1, math.inf, math.nan])
def test_a_ring_that_does_not_fit_is_refused(diameter: float) -> None:
    """A ring under 10 or over 110 mm is refused in one sentence."""
    with pytest.raises(OutOfRange, match="must be 10 to 100 mm across: got"):
        card(diameter)


def test_too_many_marks_and_unknown_paper_are_refused() -> None:
    """Thirteen marks, or a paper that is neither A4 nor Letter, are refused."""
    with pytest.raises(OutOfRange, match="room for 12 marks: got 13"):
        card(marks=[Mark(str(n), 0.1 * n) for n in range(13)])
    with pytest.raises(OutOfRange, match="A4 or Letter"):
        card(page_size="A5")
