"""Readings beside what is foretold: to scale, named, and within the drawing."""

import pytest

from optics.finding.diagnosis import Diagnosis, Faults, diagnose
from tests.optics.teaching.bench_day import (
    CORNERS,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    TURNED,
    all_shown,
)
from tests.ui.figures.drawn import strokes
from ui.figures.expected_plot import expected_plot


def found(faults: Faults, *readings: object) -> Diagnosis:
    """Diagnose readings without scatter."""
    return diagnose(HELICOID, all_shown(HELICOID, faults, readings or FULL_ROUND))


def circles(picture: str) -> list[float]:
    """Where the readings stand across the drawing."""
    return [
        float(one.attrib["cx"]) for one in strokes(picture).iter() if one.tag.endswith("circle")
    ]


def test_every_reading_is_drawn_and_said() -> None:
    """Each reading has its circle and diamond, its name, and its words for who cannot see."""
    picture = expected_plot(found(Faults(seat=0.08)))
    shapes = [one.tag.rpartition("}")[2] for one in strokes(picture).iter()]
    assert shapes.count("circle") == shapes.count("polygon") == len(FULL_ROUND)
    assert "the gauge read 0.080 mm too far out, expected 0.080 mm too far out" in picture
    assert "the gauge, top right read" in picture


def test_places_are_to_scale() -> None:
    """A reading twice as far out stands twice as far from zero, and too far in on the left."""
    picture = expected_plot(found(Faults(seat=0.1, ring=-0.3), GAUGE, INFINITY))
    gauge, infinity = circles(picture)
    axis = next(
        float(one.attrib["x1"])
        for one in strokes(picture).iter()
        if one.attrib.get("class") == "axis"
    )
    # By hand: the gauge shows 0.1 mm out, the ∞ mark 0.1 − 0.3 = 0.2 mm in.
    assert (infinity - axis) / (gauge - axis) == pytest.approx(-2.0, abs=0.02)
    assert infinity < axis < gauge


@pytest.mark.parametrize("start", [0.0, -6.0])
def test_the_scale_holds_every_reading(start: float) -> None:
    """Micrometres or two whole starts, every circle lies within the drawing."""
    picture = expected_plot(found(Faults(start=start), GAUGE, *CORNERS, TURNED))
    width = float(strokes(picture).attrib["width"])
    assert all(0 < x < width for x in circles(picture))
