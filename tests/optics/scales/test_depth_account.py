"""The depth-of-field table as whoever tells it has it: its cells, sentences and lines."""

import math
import re

import pytest

from optics.account import Account, Role, Table
from optics.records.lantern_street import OSTRIN
from optics.records.to_bench import camera_of
from optics.scales.depth_account import depth_account, depth_lines
from optics.scales.depth_part import DepthPart, table_of
from optics.scales.depth_table import DepthTable

CAMERA = camera_of(OSTRIN)


def worked(apertures: str, distances: str, **more: str) -> tuple[DepthPart, DepthTable]:
    """A table of the Ostrin 35, for c 0.03 mm, as it is typed."""
    part = DepthPart.model_validate({"apertures": apertures, "distances": distances, **more})
    return part, table_of(part, CAMERA)


def told(apertures: str, distances: str, **more: str) -> tuple[Account, Table]:
    """The account and the table in it."""
    account = depth_account(*worked(apertures, distances, **more))
    (table,) = (part for part in account.told() if isinstance(part, Table))
    return account, table


def test_every_cell_stands_under_its_distance() -> None:
    """Each aperture has its row, each distance its column, near limit over far limit."""
    _, table = told("4; 8", "2; 5")
    assert table.heads == ("focused at", "2.000 m", "5.000 m", "hyperfocal")
    assert [row.cells[0] for row in table.rows] == ["f/4", "f/8"]
    cells = [cell for row in table.rows for cell in row.cells[1:3]]
    assert all(re.fullmatch(r"\d\.\d{3} m\n\d+\.\d+ m", cell) for cell in cells)


def test_infinity_is_said_where_it_is_reached_and_nowhere_else() -> None:
    """Far limits at or beyond infinity are ∞, and finite ones are figures however far."""
    _, table = told("2.8; 16", "1; 3; inf")
    _, found = worked("2.8; 16", "1; 3; inf")
    for row, far in zip(table.rows, found.far, strict=True):
        for cell, limit in zip(row.cells[1:4], far, strict=True):
            assert cell.endswith("∞") == math.isinf(limit)
            assert not cell.startswith("∞")


def test_a_far_limit_a_hair_short_of_infinity_is_a_figure() -> None:
    """Focused just short of the hyperfocal distance, the far limit is a long way, not ∞."""
    _, found = worked("4", "1")
    _, table = told("4", f"{found.hyperfocal[0] * 0.9999:.3f} mm")
    assert re.search(r"\n\d{5,} m$", table.rows[0].cells[1])


def test_feet_are_shown_in_feet() -> None:
    """In feet and inches no cell has metres; 10 ft are 3048 mm (agreement of 1959)."""
    _, table = told("8", "3048 mm; inf", units="imperial")
    assert table.heads[1:3] == ("10 ft", "∞")
    said = " ".join((*table.heads, *table.rows[0].cells))
    assert not re.search(r"\d m\b", said)
    assert re.search(r"\d ft", table.rows[0].cells[1])


def test_headline_sentences_and_cells_are_one_table() -> None:
    """What is said of f/8 is what textbook formulas give by hand, in all three places."""
    # A symmetric lens of 47 mm at f/8, c 0.03 mm: f² = 2209, N·c = 0.24. From the lens, the
    # limits are s·f²/(f² ± N·c·(s − f)) (R. E. Jacobson and others, The Manual of Photography,
    # from memory): for 3 m 2.271 and 4.417 m; the hyperfocal distance f²/(N·c) + f is 9.251 m.
    account, table = told("8", "3", measured_from="lens")
    assert account.headline.startswith("f/8 at 9.251 m: sharp from 4.6")
    assert table.rows[0].cells == ("f/8", "2.271 m\n4.417 m", "9.251 m")
    assert table.said == (
        "f/8: focused at 3.000 m sharp from 2.271 m to 4.417 m; hyperfocal distance 9.251 m.",
    )
    (quiet,) = account.lines(Role.QUIET)
    assert "circle of confusion 0.03 mm" in quiet


def test_a_spreadsheet_has_every_cell() -> None:
    """There is a line for each aperture and distance under one head, and the conventions last."""
    head, *lines, note = depth_lines(*worked("4; 8; 16", "2; inf"))
    assert head[:3] == ("camera", "aperture", "focused at")
    assert [line[1:3] for line in lines] == [
        (stop, at) for stop in ("f/4", "f/8", "f/16") for at in ("2.000 m", "∞")
    ]
    assert {line[0] for line in lines} == {"Ostrin 35"}
    assert "circle of confusion 0.03 mm" in note[0]


@pytest.mark.parametrize(
    ("more", "confusion"),
    [
        ({}, 0.03),
        # 43.27 mm over 1500.
        ({"blur": "diagonal/1500"}, 0.0288),
        # One minute of arc at 30 cm is 0.0873 mm, on a print 300/43.27 times as large.
        ({"blur": "print"}, 0.01259),
    ],
)
def test_the_blur_allowed_is_the_one_asked_for(more: dict[str, str], confusion: float) -> None:
    """The camera's own, a convention of the negative, or what an eye sees on a print."""
    _, table = worked("8", "3", negative="24x36", **more)
    assert table.circle_of_confusion == pytest.approx(confusion, abs=5e-5)
