"""What every true-size page has: its heading, its rulers, and how far to trust them."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from optics.errors import OutOfRange
from optics.sheets.true_size import Signature, check_between, true_size, trust_line
from tests.optics.scales.rings import OSTRIN
from tests.optics.sheets.true_size import SIGNED, lines_of

Read = Callable[[bytes], Any]


# Two tenths in a hundred: 0.2 % of the length, rounded up to a hundredth.
@pytest.mark.parametrize(
    ("longest", "worst"), [(50.0, "0.10"), (85.0, "0.17"), (163.7, "0.33"), (942.8, "1.89")]
)
def test_the_sheet_says_how_true_it_is(longest: float, worst: str) -> None:
    """What a ruler may be out carries over to the longest length in proportion."""
    line = trust_line(longest)
    assert "If both rulers measure 100.0 mm ± 0.2 mm" in line
    assert f"true to 0.2%: {worst} mm in its longest, {longest:.1f} mm" in line


def test_every_page_is_furnished(page_size: str, read_back: Read) -> None:
    """Each page has heading, remark and two rulers of 100 mm from one corner, clear of the room."""
    page = true_size(OSTRIN, replace(SIGNED, page_size=page_size), "A sheet", "As agreed.", 80.0)
    rooms = [page.page(" · first"), page.next_page(" · second")]
    back = read_back(page.sheet.pdf())
    for number, (room, remark) in enumerate(zip(rooms, ("first", "second"), strict=True)):
        text = " ".join(back.reader.pages[number].extract_text().split())
        assert f"A sheet · {remark} Ring of the Ostrin Ostrin 35 · 47 mm f/2.8" in text
        rulers = lines_of(back, 0.15, number)
        for start, end in rulers:
            assert abs(end[0] - start[0]) + abs(end[1] - start[1]) == pytest.approx(100, abs=0.02)
        assert len(rulers) == 2
        assert min(y for ends in rulers for _, y in ends) >= room.bottom
        assert room.width == pytest.approx(page.sheet.paper.width - 30)
        assert room.height > 95


@pytest.mark.parametrize(
    ("title", "headed"), [("", "Ostrin 35 47 mm"), ("Ostrin 35", "Ostrin 35 47 mm")]
)
def test_a_title_is_not_said_twice(title: str, headed: str, read_back: Read) -> None:
    """Without a title, or with the camera's name for one, the name stands once."""
    page = true_size(OSTRIN, Signature(SIGNED.made, title), "A sheet", "As agreed.", 80.0)
    page.page()
    assert f"A sheet {headed} f/2.8" in read_back(page.sheet.pdf()).text


def test_a_length_outside_its_limits_is_named() -> None:
    """A refusal names the length, its limits, what was got and what to do; the limits pass."""
    with pytest.raises(OutOfRange) as refusal:
        check_between("barrel diameter", 4.9, 5.0, 400.0)
    assert str(refusal.value) == (
        "The barrel diameter must be from 5 mm to 400 mm: got 4.9 mm; measure or choose again."
    )
    assert (refusal.value.value, refusal.value.limit) == (4.9, (5.0, 400.0))
    check_between("barrel diameter", 5.0, 5.0, 400.0)
    with pytest.raises(OutOfRange):
        check_between("barrel diameter", float("nan"), 5.0, 400.0)
