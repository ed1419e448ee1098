"""Tables as CSV: read back whole, and harmless to a spreadsheet."""

import csv
import io

from hypothesis import example, given
from hypothesis import strategies as st

from optics.records.csv_export import csv_text

# What makes a spreadsheet take a cell for a formula: OWASP, CSV injection.
FORMULA = ("=", "+", "-", "@", "\t", "\r")
CELLS = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=20)
ROWS = st.lists(st.lists(CELLS, min_size=2, max_size=5), max_size=6)


def parsed(rows: list[list[str]]) -> list[list[str]]:
    """Read the text as another program would."""
    return list(csv.reader(io.StringIO(csv_text(rows), newline="")))


@given(ROWS)
@example([["=cmd|' /C calc'!A0", "  =1+1"], ["+49", "-1"], ["@SUM(A1)", "\t=1"], ["\r=1", "x"]])
def test_no_cell_is_a_formula(rows: list[list[str]]) -> None:
    """No cell begins with what a spreadsheet would run, also behind blanks."""
    for row in parsed(rows):
        for cell in row:
            assert not cell.lstrip(" ").startswith(FORMULA)


@given(ROWS)
@example([['a "quoted", cell', "two\nlines"], ["∞", "−0.5 m"]])
def test_every_cell_comes_back(rows: list[list[str]]) -> None:
    """Reading the CSV gives every text back, with an apostrophe before those made harmless."""
    back = parsed(rows)
    assert len(back) == len(rows)
    for row, found in zip(rows, back, strict=True):
        assert len(row) == len(found)
        for cell, text in zip(row, found, strict=True):
            assert text in (cell, f"'{cell}")
            assert (text != cell) == cell.lstrip(" ").startswith(FORMULA)


def test_a_real_minus_is_left_alone() -> None:
    """Figures with a real minus sign are no formulas and stay as they are."""
    assert parsed([["−0.12 mm", "∞"]]) == [["−0.12 mm", "∞"]]
