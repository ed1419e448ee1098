"""What the type can show and where lines break."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.drawing.lettering import REPLACEMENT, in_visual_order, shown, text_width, wrapped


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("0.05 mm ± 2″ ⌀ 52 × √φ·aₛ − ∞", "0.05 mm ± 2″ ⌀ 52 × √φ·aₛ − ∞"),
        ("two\nlines\tand a tab", "two lines and a tab"),
        ("cafe\u0301", "café"),
        ("camera \U0001f4f7 富士", f"camera {REPLACEMENT} {REPLACEMENT * 2}"),
        ("bell\x07 and null\x00", f"bell{REPLACEMENT} and null{REPLACEMENT}"),
        ("turned \u202eround", f"turned {REPLACEMENT}round"),
        ("half a pair \ud83d", f"half a pair {REPLACEMENT}"),
        ("<b>bold</b> &amp; %s {0}", "<b>bold</b> &amp; %s {0}"),
    ],
)
def test_what_cannot_be_printed_is_seen_to_be_missing(typed: str, printed: str) -> None:
    """Every character is printed as typed or as a visible replacement, one for one."""
    assert shown(typed) == printed


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200), st.floats(8, 150), st.booleans())
def test_lines_fit_and_nothing_is_lost(text: str, width: float, is_bold: bool) -> None:
    """Broken lines are no wider than the column and hold every character in its order."""
    lines = wrapped(text, width, 8, is_bold)
    assert all(text_width(line, 8, is_bold) <= width + 1e-6 for line in lines)
    assert "".join("".join(lines).split()) == "".join(shown(text).split())


def test_a_cut_paragraph_says_that_it_is_cut() -> None:
    """A paragraph of at most two lines ends with … where there was more, and still fits."""
    lines = wrapped("leaf " * 100, 40, 8, most=2)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert text_width(lines[-1], 8) <= 40


def test_a_number_keeps_its_unit() -> None:
    """No line breaks between a number and its unit or between ± and its number."""
    for width in range(20, 80, 3):
        lines = wrapped("remove ± 0.119 mm or 18.63 m of it", width, 8)
        assert not any(line.endswith(("±", "0.119", "18.63")) for line in lines)


@pytest.mark.parametrize(
    ("typed", "seen"),
    [
        ("Ostrin 35", "Ostrin 35"),
        ("body אבג here", "body גבא here"),
        ("אב (גד) הו", "וה (דג) בא"),
    ],
)
def test_right_to_left_text_is_turned_round(typed: str, seen: str) -> None:
    """A run of right-to-left letters is set in the order in which it is read on paper."""
    assert in_visual_order(typed) == seen
