"""The depth-of-field table as HTML and CSV."""

import csv
import html
import io
import math
import re

from tests.ui.cameras import table
from ui.depth.depth_panel import depth_csv, depth_html

NASTY = "<b>f/8</b> & =1+1"


def cells(text: str) -> list[list[str]]:
    """Read the table's rows, headings with them, as a person reads them."""
    rows = re.findall(r"<tr>(.*?)</tr>", text)
    return [
        [html.unescape(c.replace("<br>", " – ")) for c in re.findall(r"<t[hd]>(.*?)</t[hd]>", row)]
        for row in rows
    ]


def test_every_cell_stands_under_its_distance() -> None:
    """Each aperture has its row, each distance its column, near limit over far limit."""
    head, *rows = cells(depth_html(table((4, 8), (2e3, 5e3)), ["f/4", "f/8"], "metric"))
    assert head == ["focused at", "2.000 m", "5.000 m", "hyperfocal"]
    assert [row[0] for row in rows] == ["f/4", "f/8"]
    assert all(re.fullmatch(r"\d\.\d{3} m – \d+\.\d+ m", cell) for row in rows for cell in row[1:3])


def test_infinity_is_said_where_it_is_reached_and_nowhere_else() -> None:
    """Far limits at or beyond infinity are ∞, and finite ones are figures however far."""
    found = table((2.8, 16), (1e3, 3e3, math.inf))
    _, wide, narrow = cells(depth_html(found, ["f/2.8", "f/16"], "metric"))
    for row, values in ((wide, found.far[0]), (narrow, found.far[1])):
        for cell, far in zip(row[1:4], values, strict=True):
            assert cell.endswith("∞") == math.isinf(far)
            assert not cell.startswith("∞")


def test_a_far_limit_a_hair_short_of_infinity_is_a_figure() -> None:
    """Focused just short of the hyperfocal distance, the far limit is a long way, not ∞."""
    at = float(table((4,), (1e3,)).hyperfocal[0])
    (short,) = cells(depth_html(table((4,), (at * 0.9999,)), ["f/4"], "metric"))[1:]
    assert re.search(r"– \d{5,} m$", short[1])


def test_feet_are_shown_in_feet() -> None:
    """In feet and inches no cell has metres; 10 ft are 3048 mm (agreement of 1959)."""
    head, row = cells(depth_html(table((8,), (3048.0, math.inf)), ["f/8"], "imperial"))
    assert head[1:3] == ["10 ft", "∞"]
    assert not re.search(r"\d m\b", " ".join(head + row))
    assert re.search(r"\d ft", row[1])


def test_names_cannot_become_markup() -> None:
    """An aperture's name is shown as text, whatever it holds."""
    text = depth_html(table((8,), (2e3,)), [NASTY], "metric")
    assert "<b>" not in text
    assert html.escape(NASTY) in text


def test_the_csv_has_every_cell_and_no_formula() -> None:
    """The CSV has a line for each aperture and distance, and a camera's name stays a name."""
    found = table((4, 8, 16), (2e3, math.inf))
    text = depth_csv(found, "=HYPERLINK(1)", ["f/4", "f/8", "f/16"], "metric")
    head, *lines, note = csv.reader(io.StringIO(text))
    assert head[:3] == ["camera", "aperture", "focused at"]
    assert len(lines) == 6
    assert {line[0] for line in lines} == {"'=HYPERLINK(1)"}
    assert [line[4] for line in lines if line[2] == "∞"] == ["∞"] * 3
    assert "circle of confusion 0.03 mm" in note[0]
