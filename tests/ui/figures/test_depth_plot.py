"""The plot of depth of field, trace by trace."""

import math
from typing import Any

import numpy as np
import pytest

from tests.ui.cameras import table
from ui.figures.depth_plot import depth_plot
from ui.theme import DAY, NIGHT

STOPS = ["f/2.8", "f/8", "f/16"]
TABLE = table((2.8, 8, 16), (1e3, 3e3, 10e3, math.inf))


def traces(chosen: int = 1, **how: Any) -> dict[str, Any]:
    """Draw, and give the traces by the first word of their names."""
    figure = depth_plot(how.get("table", TABLE), how.get("stops", STOPS), chosen, DAY, "metric")
    named = {trace.name: trace for trace in figure.data}
    assert len(named) == len(figure.data)
    return named


@pytest.mark.parametrize("chosen", [0, 1, 2])
def test_the_band_lies_between_near_and_far(chosen: int) -> None:
    """The chosen aperture is a band that holds the distance focused on, all along."""
    found = traces(chosen)
    near, far = found[STOPS[chosen]], found[f"{STOPS[chosen]} far"]
    assert near.fill == "tonexty"
    assert [trace.name for trace in found.values()][:2] == [far.name, near.name]
    assert np.array_equal(near.x, far.x)
    assert (np.asarray(near.y) < np.asarray(near.x)).all()
    assert (np.asarray(far.y) > np.asarray(near.x)).all()
    assert [name for name, trace in found.items() if trace.fill] == [STOPS[chosen]]


def test_the_band_passes_through_the_table() -> None:
    """At a distance of the table the band has the table's limits, to a thousandth."""
    found = traces(1)
    for name, limits in (("f/8", TABLE.near[1]), ("f/8 far", TABLE.far[1])):
        drawn = np.interp(3e3, found[name].x, found[name].y)
        assert drawn == pytest.approx(limits[1], rel=1e-3)


def test_no_line_is_lost_and_none_is_endless() -> None:
    """Every aperture has all of its points, finite, cut off at the plot's top and not left out."""
    found = traces(0)
    top = 10 ** depth_plot(TABLE, STOPS, 0, DAY, "metric").layout.yaxis.range[1]
    for stop in STOPS:
        trace = found[stop]
        assert np.isfinite(np.asarray(trace.y)).all()
        assert len(trace.x) == len(trace.y) == len(trace.text)
        assert max(trace.y) <= top * (1 + 1e-9)
    # f/16 is sharp to infinity over most of this reach, and its line still goes all along.
    assert min(found["f/16"].x) == pytest.approx(1e3)
    assert max(found["f/16"].x) == pytest.approx(30e3)


def test_what_is_pointed_at_is_the_true_limit() -> None:
    """Where a far limit is cut off, pointing at it says ∞ or the true distance, in the units."""
    far = traces(2)["f/16 far"]
    assert far.text[-1] == "f/16 far limit ∞"
    assert far.text[0].startswith("f/16 far limit 1.2")
    feet = depth_plot(TABLE, STOPS, 2, DAY, "imperial").data[0]
    assert " ft" in feet.text[0]
    assert " m" not in feet.text[0].removeprefix("f/16 far limit")


def test_the_hyperfocal_distance_is_marked_only_where_it_is_in_reach() -> None:
    """The diamond stands at hyperfocal and its near limit; out of reach there is none."""
    found = traces(0)
    (marker,) = [trace for name, trace in found.items() if name.startswith("hyperfocal")]
    assert marker.marker.symbol == "diamond"
    assert (marker.x[0], marker.y[0]) == (TABLE.hyperfocal[0], TABLE.near_at_hyperfocal[0])
    near_only = table((2.8,), (1e3, 2e3))  # f/2.8 has its hyperfocal distance beyond 26 m
    assert not [n for n in traces(0, table=near_only, stops=STOPS[:1]) if n.startswith("hyper")]


@pytest.mark.parametrize("distances", [(math.inf,), (2e3,), (2e3, 2e3)])
def test_few_distances_still_make_a_plot(distances: tuple[float, ...]) -> None:
    """Infinity alone, or one distance, gives a plot with some reach."""
    found = traces(0, table=table((2.8, 8, 16), distances))
    assert max(found["focused at"].x) > 2 * min(found["focused at"].x)


def test_apertures_differ_by_more_than_colour() -> None:
    """Lines beside the band differ by their dashes, and each is named."""
    found = traces(0)
    assert found["f/8"].line.dash != found["f/16"].line.dash


def test_the_plot_follows_the_palette() -> None:
    """By night the writing is light, by day dark, and the ground is the page's own."""
    for palette in (DAY, NIGHT):
        layout = depth_plot(TABLE, STOPS, 0, palette, "metric").layout
        assert layout.font.color == palette.text
        assert layout.plot_bgcolor == "rgba(0,0,0,0)"
