"""The loupe's and the finder's pictures, read back."""

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from optics.teaching.practice.sight import BARS, Glass, Patch
from tests.ui.figures.drawn import strokes
from ui.figures.loupe_view import PX_PER_MINUTE, PX_PER_MM, SIZE, finder_view, loupe_view

MINUTE = math.radians(1 / 60)


def drawing(html: str) -> str:
    """Give the drawing's text."""
    return ElementTree.tostring(strokes(html), encoding="unicode").replace("ns0:", "")


def deviation(html: str) -> float:
    """Give the blur's standard deviation in px."""
    found = re.search(r'stdDeviation="([\d.]+)"', drawing(html))
    assert found
    return float(found[1])


@pytest.mark.parametrize("blur", [0.01, 0.03, 0.2])
def test_blur_scatters_as_its_disc_does(blur: float) -> None:
    """An even disc of diameter d scatters by d/4 along an axis, and so does the drawn blur."""
    assert deviation(loupe_view(Glass(blur, 12), False)) == pytest.approx(
        blur * PX_PER_MM / 4, abs=0.006
    )


def test_a_huge_blur_is_drawn_as_grey() -> None:
    """However far out of focus, the blur drawn is no wider than the picture can show."""
    assert deviation(loupe_view(Glass(30.0, 0), False)) < SIZE / 2


def test_bars_stand_at_true_scale() -> None:
    """In each group the bars repeat at just so many line pairs to the mm."""
    svg = drawing(loupe_view(Glass(0.01, 60), False))
    lefts = [float(x) for x in re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="[\d.]+" h', svg)]
    steps = {round(b - a, 1) for a, b in pairwise(lefts) if 0 < b - a < 50}
    assert {round(PX_PER_MM / pairs, 1) for pairs in BARS} <= steps
    assert all(f">{pairs}</text>" in svg for pairs in BARS)


def test_a_coarse_glass_shows_its_grain() -> None:
    """The worn ground glass has a coarser grain and a stronger one."""
    fine, coarse = (drawing(loupe_view(Glass(0.02, 40), worn)) for worn in (False, True))
    assert 'baseFrequency="0.8"' in fine
    assert 'baseFrequency="0.35"' in coarse


def test_the_moving_image_stands_where_the_eye_sees_it() -> None:
    """Three minutes to the right and two high are so many px right and up."""
    svg = drawing(finder_view(Patch(3 * MINUTE, 2 * MINUTE)))
    found = re.search(r"translate\(([-\d.]+) ([-\d.]+)\)", svg)
    assert found
    assert float(found[1]) == pytest.approx(3 * PX_PER_MINUTE)
    assert float(found[2]) == pytest.approx(-2 * PX_PER_MINUTE)


def test_pictures_say_what_they_show() -> None:
    """Both pictures carry their words for who cannot see them."""
    assert 'alt="Ground glass under the loupe: bars told apart up to 12' in loupe_view(
        Glass(0.08, 12), False
    )
    assert 'alt="Finder: the two images lie on each other"' in finder_view(Patch(0.0, 0.0))
