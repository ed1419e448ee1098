"""Depth of field against the distance focused on, to explore."""

import math
from collections.abc import Sequence
from typing import Any, Literal, TypeAlias

import numpy as np
import plotly.graph_objects as go

from optics.relation import Array
from optics.scales.depth_table import DepthTable, depth_table
from optics.units import format_distance
from ui.figures.frame import EXPLORED, axis, paper, washed
from ui.theme import Palette

System: TypeAlias = Literal["metric", "imperial"]
HEIGHT = 330
_POINTS = 160
_TICKS: dict[System, tuple[float, ...]] = {
    "metric": (300, 500, 1000, 2000, 3000, 5000, 10_000, 20_000, 50_000, 100_000, 1_000_000),
    "imperial": tuple(304.8 * feet for feet in (1, 2, 3, 5, 10, 20, 30, 50, 100, 200, 500, 3000)),
}
_DASHES = ("solid", "dash", "dot", "dashdot", "longdash")


def depth_plot(
    table: DepthTable, stops: Sequence[str], chosen: int, colours: Palette, system: System
) -> go.Figure:
    """Near and far limits of every aperture; the chosen one as a band with its hyperfocal.

    A far limit beyond the plot is drawn along its top; pointing at it still tells the true one.
    """
    nearest, farthest = _reach(table)
    fine = depth_table(
        table.camera,
        table.f_numbers,
        np.geomspace(nearest, farthest, _POINTS),
        from_=table.measured_from,
        circle_of_confusion=table.circle_of_confusion,
    )
    top = farthest * 3
    figure = _paper((nearest, farthest), (nearest * 0.6, top), colours, system)
    _band(figure, fine, chosen, stops[chosen], top, colours, system)
    for row, stop in enumerate(stops):
        if row != chosen:
            _outline(figure, fine, row, stop, top, colours, system)
    _hyperfocal(figure, table, chosen, (nearest, farthest), colours, system)
    return figure


def _reach(table: DepthTable) -> tuple[float, float]:
    """From the nearest distance asked for to three times the farthest short of infinity."""
    distances = table.distances[np.isfinite(table.distances)]
    if not distances.size:
        distances = table.hyperfocal
    return float(distances.min()), float(distances.max()) * 3


def _band(
    figure: go.Figure,
    fine: DepthTable,
    row: int,
    stop: str,
    top: float,
    colours: Palette,
    system: System,
) -> None:
    """Far limit, near limit and the band between."""
    line = {"color": colours.accent, "width": 2}
    figure.add_scatter(
        x=fine.distances,
        y=np.minimum(fine.far[row], top),
        mode="lines",
        line=line,
        name=f"{stop} far",
        showlegend=False,
        **_told(fine.far[row], f"{stop} far limit", system),
    )
    figure.add_scatter(
        x=fine.distances,
        y=fine.near[row],
        mode="lines",
        line=line,
        fill="tonexty",
        fillcolor=washed(colours.accent),
        name=stop,
        legendrank=row,
        **_told(fine.near[row], f"{stop} near limit", system),
    )
    figure.add_scatter(
        x=fine.distances,
        y=fine.distances,
        mode="lines",
        line={"color": colours.text, "width": 1, "dash": "dot"},
        name="focused at",
        legendrank=len(fine.f_numbers),
        hoverinfo="skip",
    )


def _outline(
    figure: go.Figure,
    fine: DepthTable,
    row: int,
    stop: str,
    top: float,
    colours: Palette,
    system: System,
) -> None:
    """Another aperture as one thin line, from its far limit round to its near one."""
    line = {"color": colours.quiet, "width": 1, "dash": _DASHES[row % len(_DASHES)]}
    limits = np.concatenate([fine.near[row][::-1], fine.far[row]])
    along = np.concatenate([fine.distances[::-1], fine.distances])
    figure.add_scatter(
        x=along,
        y=np.minimum(limits, top),
        mode="lines",
        line=line,
        name=stop,
        legendrank=row,
        **_told(limits, f"{stop} limit", system),
    )


def _told(limits: Array, words: str, system: System) -> dict[str, object]:
    """What pointing at a line says: the true limit, also where the line is cut off."""
    said = [f"{words} {format_distance(float(mm), system=system)}" for mm in limits]
    return {"text": said, "hoverinfo": "text"}


def _hyperfocal(
    figure: go.Figure,
    table: DepthTable,
    row: int,
    reach: tuple[float, float],
    colours: Palette,
    system: System,
) -> None:
    distance = float(table.hyperfocal[row])
    if not reach[0] < distance < reach[1]:
        return
    words = f"hyperfocal {format_distance(distance, system=system)}"
    figure.add_scatter(
        x=[distance],
        y=[float(table.near_at_hyperfocal[row])],
        mode="markers",
        marker={"symbol": "diamond", "size": 11, "color": colours.refusal},
        name=words,
        text=[words],
        hoverinfo="text",
        legendrank=len(table.f_numbers) + 1,
    )


def _paper(
    across: tuple[float, float], up: tuple[float, float], colours: Palette, system: System
) -> go.Figure:
    return paper(
        colours,
        height=HEIGHT,
        margin={"l": 10, "r": 10, "t": 10, "b": 10},
        font={"color": colours.text, "size": 13, "family": '"Source Sans", sans-serif'},
        # Above the plot, where a narrow window wraps it instead of losing the plot's width.
        legend={"orientation": "h", "x": 0, "y": 1.01, "yanchor": "bottom", "traceorder": "normal"},
        xaxis=_axis(colours, "focused at", across, system),
        yaxis=_axis(colours, "sharp from – to", up, system),
        **EXPLORED,
    )


def _axis(
    colours: Palette, words: str, reach: tuple[float, float], system: System
) -> dict[str, Any]:
    return axis(
        colours,
        title={"text": words, "font": {"size": 13}, "standoff": 6},
        fixedrange=False,
        tickangle=None,
        type="log",
        tickvals=_TICKS[system],
        ticktext=[format_distance(t, system=system) for t in _TICKS[system]],
        zeroline=False,
        range=[math.log10(v) for v in reach],
        automargin=True,
    )
