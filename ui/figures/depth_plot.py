"""Depth of field against the distance focused on, to explore."""

import math
from collections.abc import Sequence
from typing import Literal, TypeAlias

import numpy as np
import plotly.graph_objects as go

from optics.bench.depth_table import DepthTable, depth_table
from optics.units import format_distance
from ui.theme import Palette

System: TypeAlias = Literal["metric", "imperial"]
_POINTS = 160
_TICKS = (300, 500, 1000, 2000, 3000, 5000, 10_000, 20_000, 50_000, 100_000, 1_000_000)
_DASHES = ("solid", "dash", "dot", "dashdot", "longdash")


def depth_plot(
    table: DepthTable, stops: Sequence[str], chosen: int, colours: Palette, system: System
) -> go.Figure:
    """Near and far limits of every aperture; the chosen one as a band with its hyperfocal."""
    distances = table.distances[np.isfinite(table.distances)]
    nearest, farthest = float(distances.min()), float(distances.max()) * 3
    grid = np.geomspace(nearest, farthest, _POINTS)
    fine = depth_table(
        table.camera,
        table.f_numbers,
        grid,
        from_=table.measured_from,
        circle_of_confusion=table.circle_of_confusion,
    )
    top = farthest * 3
    figure = go.Figure()
    _band(figure, fine, chosen, stops[chosen], top, colours)
    for row, stop in enumerate(stops):
        if row != chosen:
            _outline(figure, fine, row, stop, top, colours)
    _hyperfocal(figure, table, chosen, (nearest, farthest), colours, system)
    _axes(figure, (nearest, farthest), (nearest * 0.6, top), colours, system)
    return figure


def _band(
    figure: go.Figure, fine: DepthTable, row: int, stop: str, top: float, colours: Palette
) -> None:
    """Far limit, near limit and the band between."""
    line = {"color": colours.accent, "width": 2}
    figure.add_scatter(
        x=fine.distances, y=np.minimum(fine.far[row], top), mode="lines", line=line,
        name=stop, showlegend=False, hovertemplate="far limit %{y:.4g} mm<extra></extra>",
    )  # fmt: skip
    figure.add_scatter(
        x=fine.distances, y=fine.near[row], mode="lines", line=line, fill="tonexty",
        fillcolor=_washed(colours.accent), name=stop,
        hovertemplate="near limit %{y:.4g} mm<extra></extra>",
    )  # fmt: skip
    figure.add_scatter(
        x=fine.distances, y=fine.distances, mode="lines",
        line={"color": colours.text, "width": 1, "dash": "dot"}, name="focused at",
        hoverinfo="skip",
    )  # fmt: skip


def _outline(
    figure: go.Figure, fine: DepthTable, row: int, stop: str, top: float, colours: Palette
) -> None:
    """Another aperture as one thin line, from its far limit round to its near one."""
    line = {"color": colours.quiet, "width": 1, "dash": _DASHES[row % len(_DASHES)]}
    both = np.concatenate([fine.near[row][::-1], np.minimum(fine.far[row], top)])
    along = np.concatenate([fine.distances[::-1], fine.distances])
    figure.add_scatter(x=along, y=both, mode="lines", line=line, name=stop, hoverinfo="name")


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
    figure.add_scatter(
        x=[distance], y=[float(table.near_at_hyperfocal[row])], mode="markers+text",
        marker={"symbol": "diamond", "size": 11, "color": colours.refusal},
        text=[f"hyperfocal {format_distance(distance, system=system)}"],
        textposition="bottom left", name="hyperfocal", hoverinfo="text",
    )  # fmt: skip


def _axes(
    figure: go.Figure,
    across: tuple[float, float],
    up: tuple[float, float],
    colours: Palette,
    system: System,
) -> None:
    shared = {
        "type": "log",
        "gridcolor": _washed(colours.line),
        "linecolor": colours.line,
        "tickvals": _TICKS,
        "ticktext": [format_distance(t, system=system) for t in _TICKS],
        "zeroline": False,
    }
    figure.update_layout(
        height=330,
        margin={"l": 60, "r": 10, "t": 10, "b": 45},
        paper_bgcolor="rgba(0,0,0,0)",
        plot_bgcolor="rgba(0,0,0,0)",
        font={"color": colours.text, "size": 12},
        legend={"x": 1.01, "y": 1, "font": {"size": 12}},
        xaxis=shared
        | {
            "title": {"text": "focused at", "font": {"size": 12}},
            "range": [math.log10(v) for v in across],
        },
        yaxis=shared
        | {
            "title": {"text": "sharp from – to", "font": {"size": 12}},
            "range": [math.log10(v) for v in up],
        },
    )


def _washed(colour: str) -> str:
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},0.18)"
