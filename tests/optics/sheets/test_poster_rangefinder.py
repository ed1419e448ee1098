"""The poster of the rangefinder."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from optics.sheets.poster_rangefinder import TITLE
from optics.teaching.shelf import FINDERS
from tests.optics.sheets.posters_read import MM, drawn


def error_between(distance: float) -> float:
    """The film error (mm) of a straight coupling exact at ∞ and the near end, by hand."""
    finder = FINDERS[0]
    lens, rangefinder = finder.camera.lens, finder.rangefinder
    near = finder.near_end

    def extension(far: float) -> float:
        image = lens.focal_length
        for _ in range(80):
            image = 1 / (1 / lens.focal_length - 1 / (far - lens.hiatus - image))
        return image - lens.focal_length

    def angle(far: float) -> float:
        return math.atan2(rangefinder.base, far - rangefinder.base_to_film)

    return extension(near) * angle(distance) / angle(near) - extension(distance)


def test_the_curve_is_the_error_of_a_straight_coupling(read_back: Callable[[bytes], Any]) -> None:
    """The thick curve is nothing at both ends and, at its top, the worst error that is printed."""
    back = read_back(drawn(TITLE))
    curves = [c for c in back.pages[0].curves if len(c["pts"]) > 100 and not c["fill"]]
    thick = max(curves, key=lambda c: float(c["linewidth"]))
    heights = [y * MM for _, y in thick["pts"]]
    assert heights[0] == pytest.approx(heights[-1], abs=0.05)
    worst = max(error_between(1000 / (n / 1000)) for n in range(1, 1111))
    assert f"up to {worst:.3f} mm" in back.text
    # At the place of 2 m along the scale the curve stands as high as the error there.
    share = (1 / 2) / (1 / 0.9)
    place = thick["pts"][round(share * (len(heights) - 1))][1] * MM
    ratio = (heights[0] - place) / (heights[0] - min(heights))
    assert ratio == pytest.approx(error_between(2000) / worst, rel=0.01)


def test_the_triangle_says_its_angles(read_back: Callable[[bytes], Any]) -> None:
    """At 90 cm a base of 41 mm, 24 mm before the film, converges by 2.68°; the mirror has half."""
    text = read_back(drawn(TITLE)).text
    angle = math.degrees(math.atan2(41, 900 - 24))
    assert f"γ {angle:.2f}°" in text
    assert f"mirror turns γ/2: {angle / 2:.2f}°" in text
