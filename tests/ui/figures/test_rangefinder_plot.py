"""The error curve: an even 1/D scale with ∞ at its end, and lines told apart without colour."""

import math

import numpy as np
import pytest

from optics.rangefinder.curve import ErrorCurve
from ui.figures.rangefinder_plot import STYLES, rangefinder_plot
from ui.theme import DAY, NIGHT


def curve(near: float, names: tuple[str, ...] = tuple(STYLES)) -> ErrorCurve:
    """Return straight lines, one a name, from infinity to a near distance."""
    per_metre = np.linspace(0, 1000 / near, 121)
    distances = np.concatenate([[math.inf], 1000 / per_metre[1:]])
    errors = {name: per_metre * (number + 1) / 100 for number, name in enumerate(names)}
    return ErrorCurve(distances, per_metre, errors, np.full(121, 0.08), 0.02)


def test_every_line_is_drawn_as_it_is() -> None:
    """Each coupling's errors are plotted against 1/D under its own name."""
    given = curve(900.0)
    figure = rangefinder_plot(given, DAY)
    drawn = {trace.name: trace for trace in figure.data}
    for name, errors in given.errors.items():
        assert np.array_equal(drawn[name].y, errors)
        assert np.array_equal(drawn[name].x, given.per_metre)
        assert drawn[name].customdata[0] == "∞"


@pytest.mark.parametrize("palette", [DAY, NIGHT])
def test_lines_are_told_apart_without_colour(palette: object) -> None:
    """No two lines share a dash, nor a marker."""
    figure = rangefinder_plot(curve(900.0), palette)  # type: ignore[arg-type]
    lines = [trace for trace in figure.data if trace.name in STYLES]
    assert len({trace.line.dash for trace in lines}) == len(lines) == 5
    assert len({trace.marker.symbol for trace in lines}) == len(lines)


def test_the_depth_of_focus_is_a_band() -> None:
    """The depth of focus reaches as far below nothing as above."""
    below, above = rangefinder_plot(curve(900.0), DAY).data[:2]
    assert np.array_equal(below.y, -np.full(121, 0.08))
    assert np.array_equal(above.y, np.full(121, 0.08))
    assert above.fill == "tonexty"


@pytest.mark.parametrize("near", [300.0, 700.0, 900.0, 1000.0, 1500.0, 4000.0, 30_000.0])
def test_ticks_stand_clear(near: float) -> None:
    """From infinity to the near end, distances that are written never run into each other."""
    axis = rangefinder_plot(curve(near), DAY).layout.xaxis
    places, last = np.array(axis.tickvals), 1000 / near
    assert axis.ticktext[0] == "∞"
    assert places[-1] == pytest.approx(last)
    assert np.diff(places).min() >= 0.11 * last
