"""Circles of confusion by convention, against printed ones."""

import math

import pytest

from optics.camera.confusion import (
    ACUITIES,
    FORMATS,
    STANDARD_PRINT,
    Print,
    by_diagonal,
    by_focal_length,
    by_print,
    conventions,
    format_named,
)
from optics.errors import ShimwrightError

SMALL = FORMATS["24x36"]


@pytest.mark.parametrize(
    ("key", "diagonal"),
    # Diagonals as tabulated in a photographer's glossary.
    [("24x36", 43.3), ("6x6", 79.2), ("4x5in", 162.6), ("8x10in", 325.3)],
)
def test_diagonals_are_the_printed_ones(key: str, diagonal: float) -> None:
    """A format's diagonal is the one that glossaries print."""
    assert FORMATS[key].diagonal == pytest.approx(diagonal, abs=0.1)


def test_parts_of_the_diagonal_are_the_printed_ones() -> None:
    """For 24×36 mm, diagonal/1500 is 0.029 mm and diagonal/1730 is 0.025 mm."""
    assert by_diagonal(SMALL, 1500) == pytest.approx(0.029, abs=5e-4)
    assert by_diagonal(SMALL, 1730) == pytest.approx(0.025, abs=5e-4)


def test_the_print_of_the_glossaries_gives_their_circle_of_confusion() -> None:
    """An 8×10 in print at 25 cm, seen to 0.25 mm, asks 0.0333 mm of 24×36 mm film."""
    assert by_print(SMALL, STANDARD_PRINT) == pytest.approx(0.0333, abs=1e-4)


def test_a_larger_print_or_a_nearer_eye_asks_for_more() -> None:
    """Twice the print, or half the viewing distance, halves the circle of confusion."""
    first = by_print(SMALL, STANDARD_PRINT)
    larger = Print(2 * STANDARD_PRINT.diagonal, 250, STANDARD_PRINT.acuity)
    nearer = Print(STANDARD_PRINT.diagonal, 125, STANDARD_PRINT.acuity)
    assert by_print(SMALL, larger) == pytest.approx(first / 2)
    assert by_print(SMALL, nearer) == pytest.approx(first / 2)


def test_a_part_of_the_focal_length_needs_the_focal_length() -> None:
    """Old practice is listed with a focal length only: 0.075 mm for 75 mm and a thousandth."""
    assert by_focal_length(75, 1000) == pytest.approx(0.075)
    with_it = conventions(FORMATS["6x6"], 75)
    assert "focal length/1000" in {c.key for c in with_it}
    assert not any("focal" in c.key for c in conventions(FORMATS["6x6"]))


@pytest.mark.parametrize("key", FORMATS)
def test_every_convention_is_sourced_and_in_order(key: str) -> None:
    """Each format has fixed, diagonal and print conventions, the strictest first, with sources."""
    found = conventions(FORMATS[key])
    assert [c.value for c in found] == sorted(c.value for c in found)
    assert {"diagonal/1500", "diagonal/1730", "print"} <= {c.key for c in found}
    assert any(c.key.startswith("fixed") for c in found)
    assert all(c.source and c.name for c in found)
    # All conventions in use lie within a factor of three of each other.
    assert found[-1].value < 3 * found[0].value
    assert FORMATS[key].source


def test_acuities_are_angles_with_sources() -> None:
    """The eye's angles lie between a half and four arcminutes, each with where it is from."""
    for angle, source in ACUITIES.values():
        assert 0.5 < math.degrees(angle) * 60 < 4
        assert source


def test_an_unknown_format_is_refused_with_those_there_are() -> None:
    """A format that is not listed is refused in one sentence that names the formats."""
    assert format_named("6x9").width == 56
    with pytest.raises(ShimwrightError, match=r"one of 18x24, .*: got '7x7'; .*\.$"):
        format_named("7x7")
