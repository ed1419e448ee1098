"""How distances are written on rings and cards."""

import math

import pytest

from optics.scales.engraving import (
    ScaleUnit,
    figure_of,
    rank_of,
    stop_figure,
    table_figure,
    usual_distances,
)

METRES, FEET = ScaleUnit.METRES, ScaleUnit.FEET


@pytest.mark.parametrize(
    ("mm", "unit", "engraved"),
    [
        (math.inf, METRES, "∞"),
        (1000, METRES, "1"),
        (1200, METRES, "1.2"),
        (450, METRES, "0.45"),
        (914.4, METRES, "0.9144"),
        (math.inf, FEET, "∞"),
        (3 * 304.8, FEET, "3"),
        (3.5 * 304.8, FEET, "3½"),
        (2.75 * 304.8, FEET, "2¾"),
        (0.5 * 304.8, FEET, "½"),
        (40 * 25.4, FEET, "3′4″"),
        (7 * 25.4, FEET, "7″"),
        (1000, FEET, "3.2808"),
    ],
)
def test_a_distance_is_engraved_as_it_is(mm: float, unit: ScaleUnit, engraved: str) -> None:
    """A ring shows the very distance: quarters of feet, feet and inches, or decimals."""
    assert figure_of(mm, unit) == engraved


@pytest.mark.parametrize(
    ("mm", "unit", "printed"),
    [
        (math.inf, METRES, "∞"),
        (431.6, METRES, "0.432"),
        (968.4, METRES, "0.97"),
        (1834, METRES, "1.83"),
        (9994, METRES, "9.99"),
        (9996, METRES, "10.0"),
        (26140, METRES, "26.1"),
        (132400, METRES, "132"),
        (math.inf, FEET, "∞"),
        (34.8 * 25.4, FEET, "2′10¾″"),
        (60.3 * 25.4, FEET, "5′0¼″"),
        (48 * 25.4, FEET, "4′"),
        (4.24 * 25.4, FEET, "4¼″"),
        (119.95 * 25.4, FEET, "10′"),
        (150.6 * 25.4, FEET, "12′7″"),
        (359.7 * 25.4, FEET, "30′"),
        (100 * 304.8, FEET, "100′"),
    ],
)
def test_a_card_rounds_as_a_tape_is_read(mm: float, unit: ScaleUnit, printed: str) -> None:
    """A pocket table rounds to what a tape shows, coarser with distance, carrying cleanly."""
    assert table_figure(mm, unit) == printed


def test_stops_are_engraved_without_idle_zeros() -> None:
    """Stops are engraved as makers do: 2.8, 4, 11."""
    assert [stop_figure(n) for n in (2.8, 4.0, 11.0)] == ["2.8", "4", "11"]


def test_round_distances_come_first() -> None:
    """The series holds the nearest asked for, rises, and wants round distances most."""
    found = usual_distances(1234.0, METRES)
    assert found[0] == 1234.0
    assert list(found) == sorted(found)
    assert rank_of(10e3, METRES) < rank_of(7e3, METRES) < rank_of(1.7e3, METRES)
    assert rank_of(1234.0, METRES) > rank_of(1.7e3, METRES)
